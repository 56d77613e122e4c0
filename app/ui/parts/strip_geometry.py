"""Where everything on a time strip lies: milliseconds to pixels, without a single Flet shape.

x = time, true to scale: `x_of(ms) = ms / span × width`. What is here can be tested by arithmetic.
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from app.domain.model.plan import Step, StepKind, StepSide, Timeline
from app.domain.model.record import DoneStep, How

MINUTE_MS = 60_000
SHORTEST_SPAN_MS = MINUTE_MS
REST_KINDS = frozenset({StepKind.REST, StepKind.ROUND_REST})


class Print(Enum):
    """How a block is printed."""

    WORK = "work"
    """Solid, full height."""
    REST = "rest"
    """Hatched, half height."""
    LOW = "low"
    """Solid and low: the easier option."""
    DOTTED = "dotted"
    """Left out."""


@dataclass(frozen=True)
class StripBlock:
    """A stretch from `x0` to `x1`, px."""

    x0: float
    x1: float
    print: Print
    done: bool = False


@dataclass(frozen=True)
class Bracket:
    """A stretch on the floor, from the notch down to the notch up; `closed` where the way up is drawn."""

    x0: float
    x1: float
    opened: bool = True
    closed: bool = True


class Side(Enum):
    """Which side a step trains, for its letter."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True)
class SideLetter:
    """A side, over the middle of its block."""

    x: float
    side: Side


@dataclass(frozen=True)
class Tick:
    """A mark on the ruler; a long one is labelled, and the last label carries the unit."""

    x: float
    minute: int
    long: bool
    last: bool = False


@dataclass(frozen=True)
class Scale:
    """Time to pixels. Strips that are compared share one `span_ms`."""

    span_ms: int
    width: float

    def x_of(self, ms: int) -> float:
        """Where `ms` lies, px, held within the width."""
        return min(max(ms, 0) / self.span_ms, 1.0) * self.width


def scale_of(timeline: Timeline, width: float, span_ms: int = 0) -> Scale:
    """The scale of a strip; never less than its own length, and never less than a minute."""
    return Scale(max(span_ms, timeline.total_ms, SHORTEST_SPAN_MS), width)


def planned_blocks(steps: Sequence[Step], scale: Scale, now_ms: int = 0) -> tuple[StripBlock, ...]:
    """Blocks of work and rest; what lies before `now_ms` is done, and the step under way is cut in two."""
    return tuple(part for step in steps for part in _cut(step, scale, now_ms))


def _cut(step: Step, scale: Scale, now_ms: int) -> Iterator[StripBlock]:
    if not step.is_effort and step.kind not in REST_KINDS:
        return
    how = Print.WORK if step.is_effort else Print.REST
    cut_ms = min(max(now_ms, step.start_ms), step.end_ms)
    x0, cut, x1 = scale.x_of(step.start_ms), scale.x_of(cut_ms), scale.x_of(step.end_ms)
    if step.is_effort:
        x0, cut, x1 = _parted(x0, cut, x1)
    if cut > x0:
        yield StripBlock(x0, cut, how, done=True)
    if x1 > cut:
        yield StripBlock(cut, x1, how)


def _parted(x0: float, cut: float, x1: float) -> tuple[float, float, float]:
    """Blocks of work that touch are kept apart by a hair, so that each can be counted."""
    gap = min(1.0, (x1 - x0) / 8)
    low, high = x0 + gap, x1 - gap
    return low, min(max(cut, low), high) if cut > x0 else low, high


def done_blocks(steps: Sequence[Step], done: Sequence[DoneStep], scale: Scale) -> tuple[StripBlock, ...]:
    """What was done, each block at the place of its plan: a part is as wide as its time, what is missing dotted."""
    return tuple(part for d in done if 0 <= d.index < len(steps) for part in _as_done(steps[d.index], d, scale))


def _as_done(step: Step, done: DoneStep, scale: Scale) -> Iterator[StripBlock]:
    cut_ms = step.start_ms + min(max(done.done_ms, 0), step.length_ms)
    if done.how is How.SKIPPED:
        cut_ms = step.start_ms
    x0, cut, x1 = _parted(scale.x_of(step.start_ms), scale.x_of(cut_ms), scale.x_of(step.end_ms))
    if cut > x0:
        yield StripBlock(x0, cut, Print.LOW if done.how is How.EASIER else Print.WORK, done=True)
    if done.how in (How.SKIPPED, How.PART) and x1 - cut > 1:
        yield StripBlock(cut, x1, Print.DOTTED, done=True)


def stop_x(steps: Sequence[Step], done: Sequence[DoneStep], scale: Scale) -> float | None:
    """Where the session was stopped, px; None where it was not."""
    for d in done:
        if d.how is How.STOPPED and 0 <= d.index < len(steps):
            return scale.x_of(steps[d.index].start_ms + min(max(d.done_ms, 0), steps[d.index].length_ms))
    return None


def brackets(steps: Sequence[Step], scale: Scale) -> tuple[Bracket, ...]:
    """The stretches on the floor, between the middle of the way down and the middle of the way up."""
    found: list[Bracket] = []
    down: float | None = None
    for step in steps:
        if step.kind is not StepKind.CHANGE or step.to_floor is None:
            continue
        middle = scale.x_of(step.start_ms + step.length_ms // 2)
        if step.to_floor and down is None:
            down = middle
        elif not step.to_floor:
            found.append(Bracket(down or 0.0, middle, opened=down is not None))
            down = None
    if down is not None:
        found.append(Bracket(down, scale.x_of(steps[-1].end_ms), closed=False))
    return tuple(found)


def letters(
    steps: Sequence[Step], scale: Scale, room: float, now_x: float | None = None, marker: float = 19
) -> tuple[SideLetter, ...]:
    """L and R over one-sided work, where a letter `room` px wide has its place and no marker covers it.

    Letters that would touch are all dropped: an L whose R is missing would mislead.
    """
    sides = {StepSide.LEFT: Side.LEFT, StepSide.RIGHT: Side.RIGHT}
    wide = [
        SideLetter((scale.x_of(s.start_ms) + scale.x_of(s.end_ms)) / 2, sides[s.side])
        for s in steps
        if s.is_effort and s.side in sides and scale.x_of(s.length_ms) >= min(8.0, room)
    ]
    apart = [m for m in wide if all(abs(m.x - n.x) >= room for n in wide if n is not m)] if len(wide) < 200 else []
    return tuple(m for m in apart if now_x is None or abs(m.x - now_x) >= marker)


def spaced(places: Sequence[float], room: float) -> tuple[float, ...]:
    """Those of the ascending `places` that are at least `room` px from the one kept before."""
    kept: list[float] = []
    for x in places:
        if not kept or x - kept[-1] >= room:
            kept.append(x)
    return tuple(kept)


def ticks(scale: Scale, label_room: float) -> tuple[Tick, ...]:
    """A tick each minute, long and labelled each five; further apart where `label_room` px would not hold a label."""
    minutes = scale.span_ms // MINUTE_MS
    each = _label_step(scale, label_room, minutes)
    small = next(n for n in (1, 5, 15, 60, 1440) if scale.x_of(n * MINUTE_MS) >= 3 or n == 1440)
    last = minutes - minutes % each
    marks = [m for m in range(minutes + 1) if m % small == 0 or m % each == 0]
    return tuple(Tick(scale.x_of(m * MINUTE_MS), m, m % each == 0, m == last) for m in marks)


def _label_step(scale: Scale, label_room: float, minutes: int) -> int:
    steps = (1, 5, 10, 15, 30, 60, 120, 240) if minutes < 5 else (5, 10, 15, 30, 60, 120, 240)
    return next((n for n in steps if scale.x_of(n * MINUTE_MS) >= label_room), max(1, minutes))
