"""Acts that might take a check's objection away; whether one does is asked of the checks themselves."""
from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from app.domain.bench import sheet_edits as edits
from app.domain.bench.sheet import SessionSheet, SheetBlock, SheetLine
from app.domain.model.exercise import FIRST_AXES, Exercise, Mode, Pattern
from app.domain.model.session import BlockKind, Item
from app.domain.proofreading.finding import Finding

Library = Mapping[str, Exercise]
#: Seconds more for each line of a short part, tried in this order.
LONGER_S = (5, 10, 15, 20, 30)
MOST_TRIED = 6
"""Exercises that are tried for one objection, the mildest first."""


class FixKind(StrEnum):
    """What is done."""

    HOLD = "hold"
    WORK = "work"
    TIMES = "times"
    ROUNDS = "rounds"
    NO_REASON = "no_reason"
    LONGER = "longer"
    ADD = "add"
    PLACE = "place"
    BEFORE_ROUNDS = "before_rounds"
    EASIER = "easier"
    LENGTH = "length"


@dataclass(frozen=True)
class Fix:
    """One act. `amount` is its number (s, times, rounds, place, minutes), `exercise` the id of what is added or put
    there instead."""

    kind: FixKind
    sheet: SessionSheet
    amount: int = 0
    exercise: str = ""


Maker = Callable[[SessionSheet, Library, Finding, tuple[SheetLine, ...]], Iterator[Fix]]


def fixes(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    """Every act that is worth asking for, the least change first. `lines` are those of which the objection speaks."""
    for maker in _MAKERS.get(found.rule, ()):
        yield from maker(sheet, library, found, lines)


def _hold(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    """Every hold of that exercise at once, since the objection speaks of all of them."""
    changed = sheet
    for line in lines:
        measure, amount = edits.amount_of(line.item)
        if amount > found.limit:
            changed = edits.put_item(changed, line.number, edits.with_amount(line.item, measure, found.limit))
    yield Fix(FixKind.HOLD, changed, found.limit)


def _work(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    """The least whole fives of seconds in which it fits; twice that for sides in turn."""
    for line in lines:
        once = -(-library[line.item.exercise].rep_ms // 1000)
        if line.item.work_s:
            for seconds in dict.fromkeys(-(-n // 5) * 5 for n in (once, 2 * once)):
                if seconds > line.item.work_s:
                    yield Fix(FixKind.WORK, edits.set_item(sheet, line.number, work_s=seconds), seconds)


def _times(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    """One repetition more, so that both sides get the same."""
    for line in lines:
        if line.item.reps % 2:
            more = line.item.reps + 1
            yield Fix(FixKind.TIMES, edits.set_item(sheet, line.number, reps=more), more)


def _fewer(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    for line in lines:
        fewer = found.limit * 1000 // (library[line.item.exercise].rep_ms or 1)
        if 0 < fewer < line.item.reps:
            yield Fix(FixKind.TIMES, edits.set_item(sheet, line.number, reps=fewer), fewer)


def _rounds(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    for block in sorted(sheet.blocks, key=lambda one: -one.rounds * len(one.lines)):
        for rounds in range(block.rounds - 1, 0, -1):
            yield Fix(FixKind.ROUNDS, edits.set_block(sheet, block.number, rounds=rounds), rounds)


def _no_reason(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    changed = sheet
    for line in lines:
        changed = edits.set_item(changed, line.number, one_side_because="")
    yield Fix(FixKind.NO_REASON, changed)


def _longer(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    part = _part(sheet, BlockKind.WARM_UP if found.rule == "short_warm_up" else BlockKind.COOL_DOWN)
    for more in LONGER_S if part is not None else ():
        assert part is not None
        longer = tuple(replace(line, item=_longer_item(line.item, more)) for line in part.lines)
        yield Fix(FixKind.LONGER, edits.set_block(sheet, part.number, lines=longer), more)


def _longer_item(item: Item, more_s: int) -> Item:
    measure, amount = edits.amount_of(item)
    if measure is edits.Measure.TIMES:
        return item
    most = 30 if measure is edits.Measure.HELD else edits.BOUNDS[measure][1]
    return edits.with_amount(item, measure, max(amount, min(amount + more_s, most)))


def _add(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    """A mild exercise of the same place and kit for the muscles that nothing reaches."""
    held = found.rule == "not_stretched"
    part = _part(sheet, BlockKind.COOL_DOWN if held else BlockKind.WARM_UP)
    if part is None:
        return
    wanted = {found.what} if found.what else {m for line in lines for m in library[line.item.exercise].muscles}
    last, here = library[part.lines[-1].item.exercise], {line.item.exercise for line in part.lines}
    fits = [e for e in library.values() if e.pattern is Pattern.MOBILITY and (e.mode is Mode.HOLD) is held
            and wanted & {*e.muscles, *e.muscles_too} and e.id not in here
            and e.position is last.position and not e.needs() - last.needs()]
    for exercise in sorted(fits, key=_mildness)[:MOST_TRIED]:
        yield Fix(FixKind.ADD, edits.add_after(sheet, part.number, edits.usual_item(exercise))[0],
                  exercise=exercise.id)


def _mildness(exercise: Exercise) -> tuple[int, str]:
    return sum(map(exercise.asks, FIRST_AXES)), exercise.id


def _place(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    """Another place in its block, the nearest first."""
    moving = lines or tuple(line for block in sheet.blocks if block.written().is_main for line in block.lines)
    for line in moving[:MOST_TRIED * 2]:
        block = sheet.block_of(line.number)
        if block is None:
            continue
        at = block.lines.index(line)
        for to in sorted(set(range(len(block.lines))) - {at}, key=lambda n, at=at: abs(n - at)):  # type: ignore[misc]
            order = [one for one in block.lines if one is not line]
            order.insert(to, line)
            yield Fix(FixKind.PLACE, edits.set_block(sheet, block.number, lines=tuple(order)), to + 1,
                      line.item.exercise)


def _before_rounds(
    sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]
) -> Iterator[Fix]:
    warm = _part(sheet, BlockKind.WARM_UP)
    for line in lines if warm is not None else ():
        assert warm is not None
        yield Fix(FixKind.BEFORE_ROUNDS, edits.add_after(edits.take_out(sheet, line.number), warm.number, line.item)[0])


def _easier(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    """An option of its ladder, in every line of that exercise."""
    asked = lines or tuple(line for block in sheet.blocks if block.written().is_main for line in block.lines)
    for exercise_id in dict.fromkeys(line.item.exercise for line in asked):
        for option in (*library[exercise_id].easier, *library[exercise_id].swaps):
            if option.to not in library:
                continue
            changed = sheet
            for line in (one for one in asked if one.item.exercise == exercise_id):
                changed = edits.put_item(changed, line.number, edits.as_like(library[option.to], line.item))
            yield Fix(FixKind.EASIER, changed, exercise=option.to)


def _length(sheet: SessionSheet, library: Library, found: Finding, lines: tuple[SheetLine, ...]) -> Iterator[Fix]:
    said = re.sub(r"\d{1,3}(\s*min)", rf"{found.value}\1", sheet.about, count=1)
    yield Fix(FixKind.LENGTH, replace(sheet, about=said), found.value)


def _part(sheet: SessionSheet, kind: BlockKind) -> SheetBlock | None:
    return next((block for block in sheet.blocks if block.kind is kind and block.lines), None)


#: Rule → how it might be fixed. What is not here has no act of its own.
_MAKERS: Mapping[str, tuple[Maker, ...]] = {
    "long_hold": (_hold,), "no_repetition_fits": (_work,), "endless_work": (_fewer,), "endless_session": (_rounds,),
    "side_missing": (_times, _work), "sides_differ": (_times,), "side_reason_without_sides": (_no_reason,),
    "short_warm_up": (_longer,), "short_cool_down": (_longer,), "not_warmed_up": (_add,), "not_stretched": (_add,),
    "muscle_in_a_row": (_place, _easier), "grip_in_a_row": (_place, _easier), "wrist_in_a_row": (_place, _easier),
    "floor_changes": (_place,), "head_low_after_effort": (_place, _easier),
    "balance_when_tired": (_before_rounds, _easier), "balance_unsupported": (_easier,), "impact": (_easier,),
    "wrist_often": (_easier,), "overhead_often": (_easier,), "stated_length": (_length,),
}
