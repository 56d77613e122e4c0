"""The player as a pure machine: (state, event) → state.

Every event is journaled with the position at which it happened, so `restore` rebuilds the state of a killed
process from the journal and the last heartbeat alone.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from app.domain.exercise import Exercise, Mode, Sides
from app.domain.plan import Step, StepKind, StepSide, Timeline
from app.domain.record import DoneStep, Ending, How, Hurt
from app.domain.run import OVER, Moment, PlayerState, Status, advance, open_player, tick
from app.domain.sparing import ends_session


@dataclass(frozen=True)
class Started:
    """The client pressed Start, or goes on after a pause, a wait or a question."""


@dataclass(frozen=True)
class Paused:
    """The client paused."""


@dataclass(frozen=True)
class Gap:
    """The clocks parted; the player stands at the last heartbeat and asks."""


@dataclass(frozen=True)
class Skipped:
    """On to the next step."""


@dataclass(frozen=True)
class WentBack:
    """To the start of this step, or of the work before it."""


@dataclass(frozen=True)
class LongerRest:
    """15 s more before the next work."""


@dataclass(frozen=True)
class Swapped:
    """`to` instead of `written` from here to the end; by hand, or to spare what hurts."""

    written: str
    to: str
    sides: Sides
    mode: Mode
    loaded: bool
    by_hand: bool = True


@dataclass(frozen=True)
class TakenBack:
    """The last change made by hand was a mistake: from here on as it was before."""


@dataclass(frozen=True)
class StoodStill:
    """"That hurts": one tap stops everything."""


@dataclass(frozen=True)
class NothingHurts:
    """"That hurts" was pressed by mistake: back to standing still, with nothing noted."""


@dataclass(frozen=True)
class HurtTold:
    """The answers, and what follows: exercises left out for the rest of it, or the end."""

    hurt: Hurt
    leave_out: tuple[str, ...] = ()
    ends: bool = False


@dataclass(frozen=True)
class Ended:
    """Stopped before the end; `sign` is the stop sign, if one was the reason."""

    ending: Ending
    sign: str = ""


Event = (
    Started | Paused | Gap | Skipped | WentBack | LongerRest | Swapped | TakenBack | StoodStill | NothingHurts
    | HurtTold | Ended
)


LONGER_MS = 15_000
#: "Back" within this of a step's start goes to the one before.
BACK_MS = 3_000


def _start(state: PlayerState) -> PlayerState:
    if state.status is Status.WAITING:
        index = state.index
        return replace(state, status=Status.RUNNING, at_ms=state.steps[index].end_ms,
                       confirmed=state.confirmed | {index})
    if state.status is Status.HURT or state.status in OVER:
        return state
    return replace(state, status=Status.RUNNING)


def _skip(state: PlayerState) -> PlayerState:
    index = state.index
    confirmed = state.confirmed | {index} if state.step.kind is StepKind.CHANGE else state.confirmed
    passed = state.passed_by | {index} if state.step.is_effort else state.passed_by
    if index == len(state.steps) - 1:
        return replace(state, at_ms=state.total_ms, status=Status.FINISHED, passed_by=passed)
    status = Status.RUNNING if state.status is Status.WAITING else state.status
    return replace(state, at_ms=state.steps[index].end_ms, status=status, passed_by=passed, confirmed=confirmed)


def _back(state: PlayerState) -> PlayerState:
    index = state.index
    if state.at_ms - state.step.start_ms <= BACK_MS or not state.step.is_effort:
        before = [i for i in range(index) if state.steps[i].is_effort and state.steps[i].length_ms]
        index = before[-1] if before and state.steps[before[-1]].exercise not in state.spared else index
    if state.steps[index].is_effort and state.steps[index].exercise in state.spared:
        return state
    again = range(index, state.index + 1)
    spent = {i: ms for i, ms in state.spent.items() if i not in again}
    status = Status.RUNNING if state.status is Status.WAITING else state.status
    return replace(state, at_ms=state.steps[index].start_ms, spent=spent, status=status,
                   passed_by=state.passed_by - set(again), confirmed=state.confirmed - set(again))


def _resized(state: PlayerState, lengths: Mapping[int, int]) -> tuple[Step, ...]:
    """Steps with new lengths by index, laid end to end again."""
    steps, at = [], 0
    for index, step in enumerate(state.steps):
        steps.append(replace(step, start_ms=at, length_ms=lengths.get(index, step.length_ms)))
        at = steps[-1].end_ms
    return tuple(steps)


def _longer(state: PlayerState) -> PlayerState:
    if state.step.is_effort or state.status in OVER:
        return state
    return replace(state, steps=_resized(state, {state.index: state.step.length_ms + LONGER_MS}))


def _side(step: Step, sides: Sides) -> StepSide:
    if sides is Sides.BOTH:
        return StepSide.BOTH
    one_sided = step.side in (StepSide.LEFT, StepSide.RIGHT)
    return step.side if one_sided and sides is Sides.EACH and step.side else StepSide.ALTERNATING


def _swapped_step(step: Step, event: Swapped) -> Step:
    if step.exercise != event.written:
        return step
    step = replace(step, exercise=event.to, written=step.written or event.written)
    if not step.is_effort:
        return step
    kind = StepKind.HOLD if event.mode is Mode.HOLD else StepKind.WORK
    return replace(step, kind=kind, side=_side(step, event.sides), reps=None if kind is StepKind.HOLD else step.reps,
                   load_g=step.load_g if event.loaded else None)


def _swap(state: PlayerState, event: Swapped) -> PlayerState:
    first = state.index
    steps = (*state.steps[:first], *(_swapped_step(s, event) for s in state.steps[first:]))
    changed = {i for i in range(first, len(steps)) if steps[i] != state.steps[i] and steps[i].is_effort}
    if not event.by_hand:
        return replace(state, steps=steps, eased=state.eased | changed, spared=state.spared | {event.written},
                       before=())
    return replace(state, steps=steps, eased=state.eased | changed, before=state.steps, eased_before=state.eased,
                   by_hand=(*state.by_hand, (event.written, event.to)))


def _take_back(state: PlayerState) -> PlayerState:
    """Steps ahead as they were before the last change by hand, at the lengths that they have now."""
    if not state.before or len(state.before) != len(state.steps):
        return state
    first = state.index
    old = zip(state.before[first:], state.steps[first:], strict=True)
    ahead = tuple(replace(was, start_ms=now.start_ms, length_ms=now.length_ms) for was, now in old)
    again = {first + i for i, step in enumerate(ahead) if step.exercise != state.steps[first + i].exercise}
    eased = (state.eased - again) | (state.eased_before & again)
    return replace(state, steps=(*state.steps[:first], *ahead), eased=eased, before=(), by_hand=state.by_hand[:-1])


def _hurt(state: PlayerState, event: HurtTold) -> PlayerState:
    spared = state.spared | {*event.leave_out, *filter(None, [event.hurt.exercise])}
    state = replace(state, hurts=(*state.hurts, event.hurt), spared=spared, before=())
    if event.ends or ends_session(event.hurt):
        return replace(state, status=Status.STOPPED, ending=Ending.PAIN)
    out = {
        i for i in range(state.index, len(state.steps))
        if state.steps[i].exercise in event.leave_out and (state.steps[i].is_effort or i > state.index)
        and state.steps[i].kind is not StepKind.CHANGE
    }
    into_ms = state.at_ms - state.step.start_ms
    here = 0 if state.index in out else into_ms
    index = state.index
    steps = _resized(state, {i: into_ms if i == index else 0 for i in out})
    passed = state.passed_by | {i for i in out if steps[i].is_effort}
    at = steps[index].end_ms if index in out else steps[index].start_ms + here
    return replace(state, steps=steps, at_ms=at, passed_by=passed, status=Status.PAUSED)


def apply(state: PlayerState, event: Event) -> PlayerState:
    """The state after `event` at the position where it stands. After the end nothing changes.

    After "that hurts" nothing goes on until the questions are answered, or it is said that it was a mistake.
    """
    if state.status in OVER or (
            state.status is Status.HURT and not isinstance(event, HurtTold | NothingHurts | Ended)):
        return state
    match event:
        case Started():
            return _start(state)
        case Paused():
            return replace(state, status=Status.PAUSED) if state.status is Status.RUNNING else state
        case Gap():
            return replace(state, status=Status.ASKING)
        case Skipped():
            return _skip(state)
        case WentBack():
            return _back(state)
        case LongerRest():
            return _longer(state)
        case Swapped():
            return _swap(state, event)
        case TakenBack():
            return _take_back(state)
        case StoodStill():
            return replace(state, status=Status.HURT)
        case NothingHurts():
            return replace(state, status=Status.PAUSED) if state.status is Status.HURT else state
        case HurtTold():
            return _hurt(state, event)
        case Ended(ending=ending, sign=sign):
            return replace(state, status=Status.STOPPED, ending=ending, sign=sign)


def handle(state: PlayerState, event: Event, now: Moment) -> PlayerState:
    """Brings the position to `now`, then applies the event."""
    return replace(apply(tick(state, now), event), since=now)


def restore(timeline: Timeline, journal: Iterable[tuple[Event, int]], beat_ms: int) -> PlayerState:
    """The state of a session whose process died: its events, each at its position, then the last heartbeat.

    A heartbeat after an event is at the position to which the event led.

    It stands there and asks, unless the session was over or the questions after "that hurts" are still open.
    """
    state = open_player(timeline)
    for event, at_ms in journal:
        state = apply(advance(state, at_ms), event)
    state = advance(state, beat_ms)
    if state.status in OVER or state.status in (Status.HURT, Status.READY):
        return state
    return replace(state, status=Status.ASKING)


def done_steps(state: PlayerState) -> tuple[DoneStep, ...]:
    """How each step of work went; those never reached are left away."""
    done = []
    for index, step in enumerate(state.steps):
        if not step.is_effort or not step.exercise:
            continue
        ms = state.spent.get(index, 0)
        if ms or index in state.passed_by:
            done.append(DoneStep(index, step.exercise, ms, _how(state, index, step, ms)))
    return tuple(done)


def _how(state: PlayerState, index: int, step: Step, ms: int) -> How:
    if index in state.passed_by:
        return How.SKIPPED
    if index == state.index and state.status is Status.STOPPED:
        return How.STOPPED
    if ms < step.length_ms:
        return How.PART
    return How.EASIER if index in state.eased else How.FULL


def swap_to(written: str, exercise: Exercise, *, by_hand: bool) -> Swapped:
    """The event that puts `exercise` in place of `written`."""
    return Swapped(written, exercise.id, exercise.sides, exercise.mode, exercise.loaded, by_hand)
