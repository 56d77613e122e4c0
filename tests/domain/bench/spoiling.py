"""Sessions of the shipped library, spoiled by a few random strokes of a pen."""
from __future__ import annotations

from collections.abc import Callable

from hypothesis import strategies as st

from app.domain.bench import sheet_edits as edits
from app.domain.bench.sheet import SessionSheet, sheet_of
from tests.domain.shipped import library, shipped

Stroke = Callable[[st.DrawFn, SessionSheet], SessionSheet]


def _taken_out(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    return edits.take_out(sheet, _a_line(draw, sheet))


def _carried(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    return edits.carried(sheet, _a_line(draw, sheet), draw(st.integers(-4, 4)))


def _moved(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    places = st.integers(0, len(sheet.rows()) - 1)
    return edits.moved(sheet, draw(places), draw(places))


def _other_amount(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    line = sheet.line(_a_line(draw, sheet))
    if line is None:
        return sheet
    measure, amount = edits.amount_of(line.item)
    more = draw(st.sampled_from((-20, -10, -3, 1, 5, 15, 25)))
    return edits.put_item(sheet, line.number, edits.with_amount(line.item, measure, min(60, amount + more)))


def _other_rest(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    return edits.set_item(sheet, _a_line(draw, sheet), rest_s=draw(st.none() | st.integers(0, 90)))


def _rounds(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    block = draw(st.sampled_from(sheet.blocks))
    return edits.set_block(sheet, block.number, rounds=draw(st.integers(1, 3)))


def _second(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    return edits.second_below(sheet, _a_line(draw, sheet))[0]


def _added(draw: st.DrawFn, sheet: SessionSheet) -> SessionSheet:
    exercise = draw(st.sampled_from(sorted(library())))
    return edits.add_after(sheet, _a_line(draw, sheet), edits.usual_item(library()[exercise]))[0]


def _a_line(draw: st.DrawFn, sheet: SessionSheet) -> int:
    numbers = [line.number for line in sheet.lines()]
    return draw(st.sampled_from(numbers)) if numbers else 0


STROKES: tuple[Stroke, ...] = (_taken_out, _carried, _moved, _other_amount, _other_rest, _rounds, _second, _added)


@st.composite
def spoiled(draw: st.DrawFn, most: int = 4) -> SessionSheet:
    """A session with one to `most` strokes."""
    sheet = sheet_of(draw(st.sampled_from(shipped().sessions)))
    for _ in range(draw(st.integers(1, most))):
        sheet = draw(st.sampled_from(STROKES))(draw, sheet)
    return sheet
