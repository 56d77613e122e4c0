"""Which line of a sheet is behind each step of its timeline, as it was written for nobody in particular."""
from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.domain.bench.sheet import NOBODY, SessionSheet
from app.domain.model.exercise import Exercise, Sides
from app.domain.model.plan import StepKind, Timeline
from app.domain.model.session import BlockKind

_AFTER = frozenset({StepKind.REST, StepKind.ROUND_REST})


def lines_of_steps(sheet: SessionSheet, timeline: Timeline, library: Mapping[str, Exercise]) -> tuple[int, ...]:
    """The number of the line behind each step. A rest belongs to the line before it, a set-up to the one after it."""
    bouts = list(_bouts(sheet, library))
    found, at, last = [], 0, NOBODY
    for step in timeline.steps:
        if step.is_effort:
            last = bouts[at] if at < len(bouts) else NOBODY
            at += 1
            found.append(last)
        elif step.kind in _AFTER:
            found.append(last)
        else:
            found.append(bouts[at] if at < len(bouts) else last)
    return tuple(found)


def _bouts(sheet: SessionSheet, library: Mapping[str, Exercise]) -> Iterator[int]:
    """The line of each bout of work, in the order in which they are done."""
    for block in sheet.blocks:
        turns = [[line] for line in block.lines for _ in range(block.rounds)]
        if block.kind is not BlockKind.STRAIGHT_SETS:
            turns = [list(block.lines)] * block.rounds
        for line in (line for turn in turns for line in turn):
            sides = 2 if library[line.item.exercise].sides is Sides.EACH else 1
            yield from [line.number] * sides
