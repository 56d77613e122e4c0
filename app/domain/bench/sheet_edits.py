"""What a pen does to a sheet: each act a plain function from sheet to sheet."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from enum import StrEnum
from typing import Any

from app.domain.bench.sheet import SessionSheet, SheetBlock, SheetLine
from app.domain.model.exercise import Exercise, Mode
from app.domain.model.session import USUAL_STEPS, Item


class Measure(StrEnum):
    """What the amount of a line is counted in; the value is the key of an item."""

    SECONDS = "work_s"
    TIMES = "reps"
    HELD = "hold_s"


#: Of each: least and most, as the format has them, and what one press of plus adds.
BOUNDS = {Measure.SECONDS: (5, 600, 5), Measure.TIMES: (1, 60, 1), Measure.HELD: (5, 120, 5)}
MOST_REST_S, REST_STEP_S, MOST_ROUNDS = 600, 5, 10
MOST_LINES, MOST_BLOCKS, MOST_NAME = 60, 20, 120
USUAL_WORK_S, USUAL_HOLD_S, USUAL_REP_MS = 30, 20, 3000


def amount_of(item: Item) -> tuple[Measure, int]:
    """What it is counted in, and how much."""
    return next(((one, getattr(item, one.value)) for one in Measure if getattr(item, one.value)), (Measure.SECONDS, 0))


def with_amount(item: Item, measure: Measure, amount: int) -> Item:
    """The item with exactly that amount, held within its bounds."""
    least, most, _ = BOUNDS[measure]
    bare, kept = replace(item, work_s=0, reps=0, hold_s=0), min(max(amount, least), most)
    match measure:
        case Measure.SECONDS:
            return replace(bare, work_s=kept)
        case Measure.TIMES:
            return replace(bare, reps=kept)
        case Measure.HELD:
            return replace(bare, hold_s=kept)


def other_measure(item: Item, exercise: Exercise) -> Item:
    """The same work counted the other way: seconds as times, times as seconds. What is held stays held."""
    measure, amount = amount_of(item)
    rep_ms = exercise.rep_ms or USUAL_REP_MS
    if exercise.mode is Mode.HOLD or measure is Measure.HELD:
        return item
    if measure is Measure.TIMES:
        return with_amount(item, Measure.SECONDS, round(amount * rep_ms / 1000))
    return with_amount(item, Measure.TIMES, round(amount * 1000 / rep_ms))


def usual_item(exercise: Exercise) -> Item:
    """A line for an exercise of which nothing is said."""
    if exercise.mode is Mode.HOLD:
        return with_amount(Item(exercise.id, steps=USUAL_STEPS), Measure.HELD,
                           min(exercise.hold_s or USUAL_HOLD_S, 30))
    return with_amount(Item(exercise.id, steps=USUAL_STEPS), Measure.SECONDS, USUAL_WORK_S)


def as_like(exercise: Exercise, item: Item) -> Item:
    """The line with another exercise in its place: its amount stays where it can."""
    measure, amount = amount_of(item)
    if (exercise.mode is Mode.HOLD) is (measure is Measure.HELD):
        return with_amount(replace(item, exercise=exercise.id), measure, amount)
    usual = usual_item(exercise)
    return replace(item, exercise=exercise.id, work_s=usual.work_s, reps=usual.reps, hold_s=usual.hold_s)


# ------------------------------------------------------------------ lines and blocks

def renamed(sheet: SessionSheet, name: str) -> SessionSheet:
    """The session under another name, cut to what the format takes."""
    return replace(sheet, name=name[:MOST_NAME])


def set_item(sheet: SessionSheet, number: int, **changes: Any) -> SessionSheet:
    """A line with other keys of its item."""
    return replace(sheet, blocks=tuple(replace(block, lines=tuple(
        replace(line, item=replace(line.item, **changes)) if line.number == number else line
        for line in block.lines)) for block in sheet.blocks))


def put_item(sheet: SessionSheet, number: int, item: Item) -> SessionSheet:
    """A line with another item."""
    return replace(sheet, blocks=tuple(replace(block, lines=tuple(
        replace(line, item=item) if line.number == number else line for line in block.lines))
        for block in sheet.blocks))


def set_block(sheet: SessionSheet, number: int, **changes: Any) -> SessionSheet:
    """A block with other keys."""
    return replace(sheet, blocks=tuple(replace(block, **changes) if block.number == number else block
                                       for block in sheet.blocks))


def take_out(sheet: SessionSheet, number: int) -> SessionSheet:
    """Without that line, or without that block where it is empty."""
    return replace(sheet, blocks=tuple(
        replace(block, lines=tuple(line for line in block.lines if line.number != number))
        for block in sheet.blocks if block.lines or block.number != number))


def add_after(sheet: SessionSheet, number: int, item: Item) -> tuple[SessionSheet, int]:
    """A new line below a line; of a block its last; at the very end where there is no such row. With its number."""
    new = SheetLine(sheet.next_number(), item)
    at = sheet.block_of(number) or sheet.blocks[-1]
    place = next((n + 1 for n, line in enumerate(at.lines) if line.number == number), len(at.lines))
    return set_block(sheet, at.number, lines=(*at.lines[:place], new, *at.lines[place:])), new.number


def add_block(sheet: SessionSheet, block: SheetBlock, at: int) -> SessionSheet:
    """An empty block at that place among the blocks."""
    made = replace(block, number=sheet.next_number(), lines=())
    return replace(sheet, blocks=(*sheet.blocks[:at], made, *sheet.blocks[at:]))


def second_below(sheet: SessionSheet, number: int) -> tuple[SessionSheet, int]:
    """The same line once more below itself, with the number of the new one; unchanged where there is no such line."""
    line = sheet.line(number)
    return add_after(sheet, number, line.item) if line else (sheet, number)


# ------------------------------------------------------------------ order

def carried(sheet: SessionSheet, number: int, by: int) -> SessionSheet:
    """A line one place up (-1) or down (1), over a head into the next block; a block past its neighbour."""
    if any(block.number == number for block in sheet.blocks):
        return _block_carried(sheet, number, by)
    rows = sheet.rows()
    at = next((n for n, row in enumerate(rows) if row.number == number), None)
    if at is None or not 1 <= at + by < len(rows):
        return sheet
    return moved(sheet, at, at + by)


def _block_carried(sheet: SessionSheet, number: int, by: int) -> SessionSheet:
    blocks = list(sheet.blocks)
    at = next(n for n, block in enumerate(blocks) if block.number == number)
    to = min(max(at + by, 0), len(blocks) - 1)
    blocks.insert(to, blocks.pop(at))
    return replace(sheet, blocks=tuple(blocks))


def moved(sheet: SessionSheet, old: int, new: int) -> SessionSheet:
    """A row of `rows()` from one place to another; a line belongs to the head above it, and the first head stays.

    A head that is moved takes its lines along.
    """
    rows = list(sheet.rows())
    if not (0 <= old < len(rows) and 0 <= new < len(rows)):
        return sheet
    row = rows[old]
    if isinstance(row, SheetBlock):
        over = sum(isinstance(one, SheetBlock) for one in rows[:new + 1]) - sum(
            isinstance(one, SheetBlock) for one in rows[:old + 1])
        return _block_carried(sheet, row.number, over) if over else sheet
    rows.insert(max(new, 1), rows.pop(old))
    return _gathered(sheet, rows)


def _gathered(sheet: SessionSheet, rows: Sequence[SheetBlock | SheetLine]) -> SessionSheet:
    blocks: list[SheetBlock] = []
    for row in rows:
        if isinstance(row, SheetBlock):
            blocks.append(replace(row, lines=()))
        else:
            blocks[-1] = replace(blocks[-1], lines=(*blocks[-1].lines, row))
    return replace(sheet, blocks=tuple(blocks))
