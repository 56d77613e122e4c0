"""Moving about in a session by hand: on, over a bout, back, and forward again.

A change to the floor or up from it is never leapt over unless its way back is leapt over too, so that nobody is told
to work on the floor who still stands.
"""
from __future__ import annotations

from dataclasses import replace

from app.domain.model.plan import ChangeStage, Step, StepKind
from app.domain.model.session_timing import COUNT_IN_MS
from app.domain.player.player_state import PlayerState, ReturnPoint, Status

#: "Back" within this of a step's start goes to the one before; "skip" within this of "back" goes forward again.
BACK_MS = 3_000
"""What is left of a rest that is cut short: the count before the work."""


def _effort_from(state: PlayerState, index: int) -> int | None:
    """The first bout from there on that has a length and was not left out."""
    return next((i for i in range(index, len(state.steps)) if state.steps[i].is_effort and state.steps[i].length_ms
                 and i not in state.passed_by), None)


def _change_between(state: PlayerState, first: int, end: int) -> int | None:
    """The first step down or up from `first` up to `end`, without it; from a seat to a stand is no such step."""
    return next((i for i in range(first, end) if state.steps[i].is_level_change), None)


def _run_end(state: PlayerState, first: int) -> int:
    """The last of the steps of the change of position that begins at `first`."""
    last = first
    while last + 1 < len(state.steps) and state.steps[last + 1].is_level_change:
        last += 1
    return last


def _leads_back(state: PlayerState, there: int, back: int) -> bool:
    """Whether one change of position undoes the other: all down and all up, or all up and all down."""
    def ways(first: int) -> set[bool]:
        steps = state.steps[first:_run_end(state, first) + 1]
        return {s.to_floor is True or s.stage is ChangeStage.LIE for s in steps}
    return len(ways(there)) == len(ways(back)) == 1 and ways(there) != ways(back)


def _woken(state: PlayerState) -> Status:
    return Status.RUNNING if state.status is Status.WAITING else state.status


def _to(state: PlayerState, at_ms: int) -> PlayerState:
    """At that position; at the very end it is over."""
    over = at_ms >= state.total_ms
    return replace(state, at_ms=min(at_ms, state.total_ms), status=Status.FINISHED if over else _woken(state))


# ------------------------------------------------------------------ on

def confirm(state: PlayerState) -> PlayerState:
    """The tap that this step waits for: on to the next, past what was left out while one was still on the way."""
    index = state.index
    state = replace(state, confirmed=state.confirmed | {index})
    at = index + 1
    while (bout := next((i for i in range(at, len(state.steps)) if state.steps[i].is_effort), None)) is not None:
        if bout not in state.passed_by or _change_between(state, at, bout) is not None:
            break
        at = bout + 1
    return _to(state, state.steps[at - 1].end_ms)


def ready(state: PlayerState) -> PlayerState:
    """Down, up, or rested: on to the count before the next work, or to the change that lies before it.

    A sit or a stand after lying is never cut short.
    """
    if state.step.is_effort:
        return state
    if state.step.awaits_tap or state.status is Status.WAITING:
        return confirm(state)
    if state.step.kind is StepKind.CHANGE:
        return state
    bout = _effort_from(state, state.index)
    if bout is None:
        return state
    change = _change_between(state, state.index + 1, bout)
    at_ms = state.steps[change].start_ms if change else state.steps[bout].start_ms - COUNT_IN_MS
    passed = frozenset(range(state.index, bout if change is None else change))
    return replace(state, at_ms=max(state.at_ms, at_ms), confirmed=state.confirmed | passed)


def count(state: PlayerState) -> PlayerState:
    """The movements are done: on, and counted as done whether their time was over or not."""
    index = state.index
    if not (state.step.is_effort and state.step.reps):
        return state
    state = replace(state, counted=state.counted | {index}, confirmed=state.confirmed | {index})
    return _to(state, state.steps[index].end_ms)


def all_right(state: PlayerState) -> PlayerState:
    """Answered: the rest goes on, or, where it has run out, the session does."""
    if state.index not in state.waiting() or state.step.is_effort or state.step.kind is StepKind.CHANGE:
        return state
    return confirm(state) if state.status is Status.WAITING else \
        replace(state, confirmed=state.confirmed | {state.index})


# ------------------------------------------------------------------ over a bout

def skip(state: PlayerState) -> PlayerState:
    """Leaves out what is under way or comes next; right after "back", forward to where it was."""
    if state.left and state.at_ms - state.step.start_ms <= BACK_MS:
        was = state.left[-1]
        return replace(state, at_ms=was.at_ms, status=was.status, spent=was.spent, passed_by=was.passed_by,
                       counted=was.counted, confirmed=was.confirmed, left=state.left[:-1])
    state = replace(state, left=())
    first = _effort_from(state, state.index)
    if first is None:
        return _to(state, state.total_ms)
    last = _same_station(state, first)
    bouts = {i for i in range(first, last + 1) if state.steps[i].is_effort}
    return _over(replace(state, passed_by=state.passed_by | bouts), first, last)


def _same_station(state: PlayerState, first: int) -> int:
    """The last bout of the same station in the same round: its other side, the rest of a hold in parts.

    Two stations that were eased to the same exercise stay two: what was written tells them apart.
    """
    here, last = state.steps[first], first
    for index in range(first + 1, len(state.steps)):
        step = state.steps[index]
        if step.is_effort:
            if (_station(step), step.part, step.round) != (_station(here), here.part, here.round):
                break
            last = index
    return last


def _station(step: Step) -> str | None:
    return step.written or step.exercise


def _over(state: PlayerState, first: int, last: int) -> PlayerState:
    """From before or in a station to after it."""
    change = _change_between(state, state.index, first)
    if change is None:
        return _to(state, state.steps[last].end_ms)
    after = _effort_from(state, last + 1)
    way_back = _change_between(state, last + 1, len(state.steps) if after is None else after)
    under_way = state.step.is_level_change
    if way_back is None or not _leads_back(state, change, way_back):
        return state if under_way else _to(state, max(state.at_ms, state.steps[change].start_ms))
    if under_way:
        return _to(state, state.steps[way_back].start_ms)
    return _to(state, state.steps[_run_end(state, way_back)].end_ms)


# ------------------------------------------------------------------ back

def back(state: PlayerState) -> PlayerState:
    """To the start of this work, or soon after its start to the one before; never to what hurt."""
    index = _back_to(state)
    step = state.steps[index]
    if (step.is_effort and step.exercise in state.spared) or step.start_ms >= state.at_ms:
        return state
    again = range(index, state.index + 1)
    crossed = _change_between(state, index, state.index + 1) is not None
    was = ReturnPoint(state.at_ms, state.status, state.spent, state.passed_by, state.counted, state.confirmed)
    return replace(
        state, at_ms=step.start_ms, spent={i: ms for i, ms in state.spent.items() if i not in again},
        status=Status.PAUSED if crossed else _woken(state), passed_by=state.passed_by - set(again),
        counted=state.counted - set(again), confirmed=state.confirmed - set(again), left=(*state.left, was))


def _back_to(state: PlayerState) -> int:
    index = state.index
    if state.at_ms - state.step.start_ms > BACK_MS and state.step.is_effort:
        return index
    before = [i for i in range(index) if state.steps[i].is_effort and state.steps[i].length_ms]
    return before[-1] if before and state.steps[before[-1]].exercise not in state.spared else index
