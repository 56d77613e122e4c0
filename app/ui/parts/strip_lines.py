"""The time strip broken into lines as print is: a line for each part of the session, all on one scale. Without Flet."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from app.domain.model.plan import Part, Step
from app.domain.model.record import DoneStep, How
from app.ui.parts import strip_geometry as geo
from app.ui.parts.strip_geometry import Print, Scale

LEAST_BLOCK = 6.0
"""Narrower than this blocks cannot be told apart, px."""
NEAR = 5.0
"""Stretches of one exercise that less than this parts are one block, px."""


@dataclass(frozen=True)
class StripLine:
    """One part of the session with its steps; `round` is None where it does not go round."""

    part: Part
    round: int | None
    steps: tuple[Step, ...]
    is_later: bool = False
    """Of a further block, whose rounds are counted from 1 again."""

    @property
    def start_ms(self) -> int:
        """Where it begins."""
        return self.steps[0].start_ms

    @property
    def end_ms(self) -> int:
        """The first millisecond after it."""
        return self.steps[-1].end_ms

    @property
    def length_ms(self) -> int:
        """From one to the other."""
        return self.end_ms - self.start_ms

    @property
    def minutes(self) -> int:
        """Its length in whole minutes, at least one."""
        return max(1, round(self.length_ms / geo.MINUTE_MS))


@dataclass(frozen=True)
class LineBlock:
    """A stretch of a line from `x0` to `x1`, px from the line's own start."""

    x0: float
    x1: float
    print: Print
    done: bool = False
    exercise: str | None = None

    @property
    def width(self) -> float:
        """Px."""
        return self.x1 - self.x0


def lines_in(steps: Sequence[Step]) -> tuple[StripLine, ...]:
    """Warm-up, each round, cool-down; a main part without rounds is one line. They hold every step, in order."""
    goes_round = len({s.round for s in steps if s.part is Part.MAIN and s.round}) > 1

    def key(step: Step) -> tuple[Part, int | None]:
        return step.part, step.round if goes_round and step.part is Part.MAIN else None

    lines = [StripLine(part, number, tuple(found)) for (part, number), found in groupby(steps, key=key)]
    highest, later = 0, False
    for at, line in enumerate(lines):
        if line.round is not None:
            later, highest = later or line.round <= highest, max(highest, line.round)
            lines[at] = replace(line, is_later=later)
    return tuple(lines)


def line_at(lines: Sequence[StripLine], at_ms: int) -> StripLine:
    """The line that holds a position; after the end, the last."""
    return next((line for line in lines if line.end_ms > at_ms), lines[-1])


def is_cramped(steps: Sequence[Step], scale: Scale) -> bool:
    """Whether a strip in one line would be a bar code: some block of it would be narrower than `LEAST_BLOCK`."""
    return any(s.is_effort and s.length_ms and s.length_ms / scale.span_ms * scale.width < LEAST_BLOCK for s in steps)


def line_scale(lines: Sequence[StripLine], width: float) -> Scale:
    """One scale for all lines: the longest is as wide as the room."""
    return Scale(max((line.length_ms for line in lines), default=geo.SHORTEST_SPAN_MS) or 1, width)


def planned_in(line: StripLine, scale: Scale, now_ms: int = 0) -> tuple[LineBlock, ...]:
    """Blocks of work and rest; what lies before `now_ms` is done. None is narrower than `LEAST_BLOCK`, but for what
    `now_ms` cuts and for rests.
    """
    return _joined([block for step in line.steps for block in _planned(line, step, scale, now_ms)])


def done_in(line: StripLine, steps: Sequence[Step], done: Sequence[DoneStep], scale: Scale) -> tuple[LineBlock, ...]:
    """What was done of the line, as `geo.done_blocks` says it."""
    found = []
    for one in done:
        if 0 <= one.index < len(steps) and line.start_ms <= steps[one.index].start_ms < line.end_ms:
            step = _moved(line, steps[one.index])
            found += [LineBlock(b.x0, b.x1, b.print, True, step.exercise)
                      for b in geo.done_blocks([step], [replace(one, index=0)], scale)]
    return _joined(found)


def stop_in(line: StripLine, steps: Sequence[Step], done: Sequence[DoneStep], scale: Scale) -> float | None:
    """Where the session was stopped, px, if that was in this line."""
    for one in done:
        if one.how is How.STOPPED and 0 <= one.index < len(steps):
            step = steps[one.index]
            at_ms = step.start_ms + min(max(one.done_ms, 0), step.length_ms)
            if line.start_ms <= step.start_ms < line.end_ms:
                return scale.x_of(at_ms - line.start_ms)
    return None


def _moved(line: StripLine, step: Step) -> Step:
    return replace(step, start_ms=step.start_ms - line.start_ms)


def _planned(line: StripLine, step: Step, scale: Scale, now_ms: int) -> Iterator[LineBlock]:
    for b in geo.planned_blocks([_moved(line, step)], scale, max(0, now_ms - line.start_ms)):
        yield LineBlock(b.x0, b.x1, b.print, b.done, step.exercise)


def _joined(blocks: Sequence[LineBlock]) -> tuple[LineBlock, ...]:
    """Stretches of one exercise that hardly anything parts are one block; so is what would be too narrow."""
    out: list[LineBlock] = []
    for block in blocks:
        before = next((b for b in reversed(out) if b.print is not Print.REST), None)
        if block.print is Print.REST or before is None or not _are_one(before, block):
            out.append(block)
            continue
        out = [*out[:out.index(before)], replace(before, x1=block.x1)]
    return tuple(out)


def _are_one(a: LineBlock, b: LineBlock) -> bool:
    alike = a.print is b.print and a.done is b.done and b.x0 - a.x1 < NEAR
    return alike and (a.exercise == b.exercise or min(a.width, b.width) < LEAST_BLOCK)
