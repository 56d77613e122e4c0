"""The player as a pure machine: (state, event) → state.

Every event is journaled with the position at which it happened, so `restore` rebuilds the state of a killed
process from the journal and the last heartbeat alone.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from app.domain.model.exercise import Exercise, Mode, Sides
from app.domain.model.plan import ChangeStage, Step, StepKind, StepSide, Timeline
from app.domain.model.record import DoneStep, Ending, How, HurtKind
from app.domain.model.trained_time import led_to
from app.domain.player import player_navigation
from app.domain.player.pain_response import NUMBNESS, ends_session
from app.domain.player.player_events import (
    AllRight,
    Counted,
    Ended,
    Gap,
    HurtTold,
    LongerRest,
    NothingHurts,
    Paused,
    PlayerEvent,
    Ready,
    Skipped,
    Started,
    StoodStill,
    Swapped,
    TakenBack,
    WentBack,
)
from app.domain.player.player_navigation import BACK_MS
from app.domain.player.player_state import OVER, Moment, PlayerState, Status, Wait, advance, open_player, tick

__all__ = [
    "BACK_MS",
    "LONGER_MS",
    "AllRight",
    "Counted",
    "Ended",
    "Gap",
    "HurtTold",
    "LongerRest",
    "NothingHurts",
    "Paused",
    "PlayerEvent",
    "Ready",
    "Skipped",
    "Started",
    "StoodStill",
    "Swapped",
    "TakenBack",
    "WentBack",
    "active_ms",
    "apply",
    "done_steps",
    "handle",
    "restore",
    "swap_to",
]


LONGER_MS = 15_000
LISTENING = (HurtTold, NothingHurts, Ended)
"""What is heard once "that hurts" was pressed."""


def _start(state: PlayerState) -> PlayerState:
    if state.status is Status.WAITING:
        if state.step.is_effort:
            return player_navigation.count(state)
        return player_navigation.confirm(state)
    return replace(state, status=Status.RUNNING, unseen=None)


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
        numb = event.hurt.kind is HurtKind.NUMB
        return replace(state, status=Status.STOPPED, ending=Ending.SIGN if numb else Ending.PAIN,
                       sign=NUMBNESS if numb else "")
    out = {
        i for i in range(state.index, len(state.steps))
        if state.steps[i].exercise in event.leave_out and (state.steps[i].is_effort or i > state.index)
        and state.steps[i].kind is not StepKind.CHANGE
    }
    into_ms = state.at_ms - state.step.start_ms
    here = 0 if state.index in out else into_ms
    index = state.index
    lengths = {i: into_ms if i == index else 0 for i in out}
    empty = _ways_to_nothing(_resized(state, lengths), index + 1)
    steps = _resized(state, lengths | dict.fromkeys(empty, 0))
    passed = state.passed_by | {i for i in out if steps[i].is_effort}
    at = steps[index].end_ms if index in out else steps[index].start_ms + here
    return replace(state, steps=steps, at_ms=at, passed_by=passed, status=Status.PAUSED,
                   confirmed=state.confirmed | empty)


def _ways_to_nothing(steps: Sequence[Step], first: int) -> frozenset[int]:
    """Steps of ways down, to the floor or to bed, and up again between which nothing is done any more."""
    found, way = set[int](), list[int]()
    was_up = False
    for i in range(first, len(steps)):
        step = steps[i]
        is_down = step.to_floor is True or step.stage is ChangeStage.LIE
        is_up = step.is_level_change and not is_down
        if was_up and not is_up:
            found |= set(way)
            way.clear()
        if step.is_effort and step.length_ms:
            way.clear()
        elif is_down or (way and step.kind is StepKind.CHANGE):
            way.append(i)
        was_up = bool(way) and is_up
    return frozenset(found | set(way) if was_up else found)


def apply(state: PlayerState, event: PlayerEvent) -> PlayerState:
    """The state after `event` at the position where it stands. After the end nothing changes.

    After "that hurts" nothing goes on until the questions are answered, or it is said that it was a mistake.
    """
    if state.status in OVER or (state.status is Status.HURT and not isinstance(event, LISTENING)):
        return state
    after = _moved(state, event)
    return after if isinstance(event, Skipped | WentBack) else replace(after, left=())


def _moved(state: PlayerState, event: PlayerEvent) -> PlayerState:
    match event:
        case Started():
            return _start(state)
        case Paused():
            return replace(state, status=Status.PAUSED) if state.status is Status.RUNNING else state
        case Gap():
            return replace(state, status=Status.ASKING)
        case Skipped():
            return player_navigation.skip(state)
        case WentBack():
            return player_navigation.back(state)
        case Ready():
            return player_navigation.ready(state)
        case Counted():
            return player_navigation.count(state)
        case AllRight():
            return player_navigation.all_right(state)
        case LongerRest():
            return _longer(state)
        case Swapped():
            return _swap(state, event)
        case TakenBack():
            return _take_back(state)
        case _:
            return _harmed(state, event)


def _harmed(state: PlayerState, event: StoodStill | NothingHurts | HurtTold | Ended) -> PlayerState:
    match event:
        case StoodStill():
            return replace(state, status=Status.HURT)
        case NothingHurts():
            return replace(state, status=Status.PAUSED) if state.status is Status.HURT else state
        case HurtTold():
            return _hurt(state, event)
        case Ended(ending=ending, sign=sign):
            return replace(state, status=Status.STOPPED, ending=ending, sign=sign)


def handle(state: PlayerState, event: PlayerEvent, now: Moment) -> PlayerState:
    """Brings the position to `now`, then applies the event."""
    return replace(apply(tick(state, now), event), since=now)


def restore(timeline: Timeline, journal: Iterable[tuple[PlayerEvent, int]], beat_ms: int,
            waits: frozenset[Wait] = frozenset()) -> PlayerState:
    """The state of a session whose process died: its events, each at its position, then the last heartbeat.

    A heartbeat after an event is at the position to which the event led.

    It stands there and asks, unless the session was over or the questions after "that hurts" are still open.
    """
    state = open_player(timeline, waits)
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
        ms = _done_ms(state, index, step)
        if ms or index in state.passed_by:
            done.append(DoneStep(index, step.exercise, ms, _how(state, index, step, ms)))
    return tuple(done)


def active_ms(state: PlayerState) -> int:
    """Time trained: work as it went by, and the rests and set-ups before it; what was skipped adds none."""
    worked = {index for index, ms in state.spent.items() if ms and index not in state.passed_by}
    return sum(state.spent.values()) + sum(state.idle.get(index, 0) for index in led_to(state.steps, worked))


def _done_ms(state: PlayerState, index: int, step: Step) -> int:
    """Work done in a step, ms; of counted movements that were said to be done, the whole time that they take.

    Said before half of that time it is taken for a slip of the finger, and only the time counts.
    """
    ms = state.spent.get(index, 0)
    return step.length_ms if index in state.counted and 2 * ms >= step.length_ms else ms


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
