"""What is heard and felt during a session: cues at whole milliseconds, each inside its own step.

A cue that has been passed by more than a moment is dropped: a late "go" is worse than none.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from app.domain.model.plan import Step, StepSide
from app.domain.model.session_timing import COUNT_FROM, LAST_TEN_MS


class CueKind(StrEnum):
    """What a cue tells; each has its tone in `assets/sounds`, told apart by rhythm and not by pitch alone."""

    COUNT = "count"
    """3, 2, 1 before work."""
    WORK = "work"
    HALFWAY = "halfway"
    LAST_TEN = "last_ten"
    REST = "rest"
    CHANGE_SIDE = "change_side"
    FINISH = "finish"
    WAITING = "waiting"
    """The session waits for a tap."""
    TICK = "tick"
    """One repetition at its tempo is over."""


class Buzz(StrEnum):
    """What is felt, told apart by the number of beats: two strong, one long, three quick."""

    WORK = "work"
    REST = "rest"
    ATTENTION = "attention"


BUZZ: Mapping[CueKind, Buzz] = {
    CueKind.COUNT: Buzz.ATTENTION, CueKind.WORK: Buzz.WORK, CueKind.HALFWAY: Buzz.ATTENTION,
    CueKind.LAST_TEN: Buzz.ATTENTION, CueKind.REST: Buzz.REST, CueKind.CHANGE_SIDE: Buzz.ATTENTION,
    CueKind.FINISH: Buzz.REST, CueKind.WAITING: Buzz.ATTENTION,
}
"""How each feels; a tick is not felt."""

HALFWAY_FROM_MS = 20_000
"""Shorter work has no halfway cue: it would follow the start too closely."""
LAST_TEN_FROM_MS = 30_000
TICK_AFTER_MS, TICK_BEFORE_MS = 700, 200
"""A tick nearer than this after or before another cue is left out."""
LATE_MS = 700
#: These tell how things stand rather than that a moment has come, so they are never too late.
LASTING = frozenset({CueKind.FINISH, CueKind.WAITING})
SIDES = frozenset({StepSide.LEFT, StepSide.RIGHT})


@dataclass(frozen=True)
class Cue:
    """One cue. `index` is the step that it lies in: start ≤ at_ms < end."""

    kind: CueKind
    at_ms: int
    index: int

    @property
    def buzz(self) -> Buzz | None:
        """How it feels, if it is felt."""
        return BUZZ.get(self.kind)


def changes_of(steps: Sequence[Step]) -> frozenset[int]:
    """The changes of position at whose end a tap is awaited."""
    return frozenset(index for index, step in enumerate(steps[:-1]) if step.awaits_tap)


def cues_of(steps: Sequence[Step], confirmed: frozenset[int] = frozenset(), *,
            waiting: frozenset[int] | None = None) -> tuple[Cue, ...]:
    """Every cue of a session in order.

    `waiting`: steps at whose end a tap is awaited; where it is not given, changes of position, without the
    `confirmed`.
    """
    waits_at = changes_of(steps) - confirmed if waiting is None else waiting
    live = [(index, step) for index, step in enumerate(steps) if step.length_ms > 0]
    found: list[Cue] = []
    for place, (index, step) in enumerate(live):
        before = live[place - 1][1] if place else None
        after = live[place + 1][1] if place + 1 < len(live) else None
        told = [*_opening(step, before), *_within(step), *_closing(step, after, waits=index in waits_at)]
        ticks = _ticks(step, [at_ms for _, at_ms in told])
        found += [Cue(kind, at_ms, index) for kind, at_ms in sorted([*told, *ticks], key=lambda one: one[1])]
    return tuple(found)


def _opening(step: Step, before: Step | None) -> Iterator[tuple[CueKind, int]]:
    """What has ended and what begins."""
    other_side = before is not None and before.is_effort and _turns(before, step)
    if other_side:
        yield CueKind.CHANGE_SIDE, step.start_ms
    elif step.is_effort:
        yield CueKind.WORK, step.start_ms
    elif before is not None and before.is_effort:
        yield CueKind.REST, step.start_ms


def _turns(before: Step, after: Step) -> bool:
    """Whether the same exercise goes on with the other side."""
    sides = {before.side, after.side}
    return before.exercise == after.exercise and sides == SIDES


def _within(step: Step) -> Iterator[tuple[CueKind, int]]:
    if not step.is_effort:
        return
    if step.length_ms >= HALFWAY_FROM_MS:
        yield CueKind.HALFWAY, step.start_ms + step.length_ms // 2
    if step.length_ms >= LAST_TEN_FROM_MS:
        yield CueKind.LAST_TEN, step.end_ms - LAST_TEN_MS


def _ticks(step: Step, others: Sequence[int]) -> Iterator[tuple[CueKind, int]]:
    """The end of each repetition of counted movements but the last, where no other cue is near."""
    reps = step.reps if step.is_effort and step.reps else 0
    for number in range(1, reps):
        at_ms = step.start_ms - (-number * step.length_ms // reps)
        if not any(-TICK_BEFORE_MS < at_ms - other < TICK_AFTER_MS for other in others):
            yield CueKind.TICK, at_ms


def _closing(step: Step, after: Step | None, *, waits: bool) -> Iterator[tuple[CueKind, int]]:
    """The count before work, the call for a tap, the end. A change that waits is not counted down."""
    if after is None:
        yield CueKind.FINISH, step.end_ms - 1
    elif waits:
        yield CueKind.WAITING, step.end_ms - 1
    elif after.is_effort and not step.is_effort:
        marks = (step.end_ms - number * 1000 for number in range(COUNT_FROM, 0, -1))
        yield from ((CueKind.COUNT, at_ms) for at_ms in marks if at_ms > step.start_ms)


def sounding(cues: Sequence[Cue], after_ms: int, to_ms: int) -> Cue | None:
    """The cue to give now that the position has moved from `after_ms` to `to_ms`: the latest one, if it is not late."""
    passed = [cue for cue in cues if after_ms < cue.at_ms <= to_ms]
    fresh = [cue for cue in passed if cue.kind in LASTING or to_ms - cue.at_ms <= LATE_MS]
    return fresh[-1] if fresh else None
