"""Every objection has a place, and a fix leaves one less and none new."""
from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from app.domain.bench import sheet_edits as edits
from app.domain.bench.fix import FixKind
from app.domain.bench.session_checks import checked, problems_of, timeline_of
from app.domain.bench.sheet import SessionSheet, sheet_of
from app.domain.model.exercise import Sides
from app.domain.model.session import BlockKind
from tests.domain.bench.spoiling import spoiled
from tests.domain.shipped import library, shipped
from tests.sampling import examples


def _told(sheet: SessionSheet) -> set[tuple[str, str, str]]:
    return {(one.rule, one.where, one.what) for one in problems_of(sheet, library())}


@settings(max_examples=examples(12, 400), deadline=None)
@given(spoiled())
def test_every_fix_takes_its_objection_away_and_brings_none(sheet: SessionSheet) -> None:
    """And every objection can be shown on the card and on the strip."""
    placed = checked(sheet, library())
    before, rows = _told(sheet), {row.number for row in sheet.rows()}
    assert [one.number for one in placed] == list(range(1, len(placed) + 1))
    for one in placed:
        assert set(one.lines) <= rows and (one.lines or one.block in rows)
        if one.fix is not None:
            after = _told(one.fix.sheet)
            assert after < before and (one.found.rule, one.found.where, one.found.what) not in after
            assert len(problems_of(one.fix.sheet, library())) < len(placed)


def test_an_empty_sheet_has_nothing_to_object_to() -> None:
    """And no timeline."""
    blank = SessionSheet("new", "New", ())
    assert checked(blank, library()) == () and timeline_of(blank, library()) is None


@pytest.fixture
def clean() -> SessionSheet:
    """A session with no objection to it."""
    return next(sheet for sheet in map(sheet_of, shipped().sessions) if not problems_of(sheet, library()))


def test_a_single_turn_leaves_a_side_out_and_one_press_gives_the_other(clean: SessionSheet) -> None:
    """It could hurt somebody, so it stands first and is not handed out."""
    [line] = [one for one in clean.lines() if library()[one.item.exercise].sides is Sides.ALTERNATING][:1]
    spoilt = edits.put_item(clean, line.number, edits.with_amount(line.item, edits.Measure.TIMES, 1))
    first = checked(spoilt, library())[0]
    assert first.found.rule == "side_missing" and first.found.blocks and line.number in first.lines
    assert first.fix is not None and first.fix.kind is FixKind.TIMES and first.fix.amount == 2


def test_a_hold_is_brought_to_its_limit_everywhere_at_once(clean: SessionSheet) -> None:
    """The objection speaks of the exercise, wherever it stands."""
    held = next(line for line in clean.lines() if line.item.hold_s and clean.block_of(line.number))
    sheet = edits.set_item(edits.second_below(clean, held.number)[0], held.number, hold_s=60)
    [long] = [one for one in checked(sheet, library()) if one.found.rule == "long_hold"]
    assert long.fix is not None and long.fix.kind is FixKind.HOLD and long.fix.amount == 30


def test_a_short_warm_up_gets_some_seconds_more(clean: SessionSheet) -> None:
    """The least that is enough."""
    warm = next(block for block in clean.blocks if block.kind is BlockKind.WARM_UP)
    less = tuple(replace(line, item=edits.with_amount(line.item, *_less(line.item))) for line in warm.lines)
    sheet = edits.set_block(clean, warm.number, lines=less)
    short = [one for one in checked(sheet, library()) if one.found.rule == "short_warm_up"]
    assert not short or (short[0].block == warm.number and short[0].fix is not None)


def _less(item: object) -> tuple[edits.Measure, int]:
    measure, amount = edits.amount_of(item)  # type: ignore[arg-type]
    return measure, amount - 10 if measure is not edits.Measure.TIMES else amount
