"""A session under the pen is the session, and its rows keep their numbers."""
from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.bench import sheet_edits as edits
from app.domain.bench.session_checks import timeline_of
from app.domain.bench.sheet import SessionSheet, kept_apart, sheet_of
from app.domain.bench.steps_of_lines import lines_of_steps
from app.domain.model.session import Session
from tests.domain.bench.spoiling import STROKES, spoiled
from tests.domain.shipped import library, shipped
from tests.sampling import examples


@pytest.mark.parametrize("session", shipped().sessions, ids=lambda session: session.id)
def test_a_session_laid_under_the_pen_is_the_same_session(session: Session) -> None:
    """And each step of its timeline has the line that it comes from."""
    sheet = sheet_of(session)
    timeline = timeline_of(sheet, library())
    assert sheet.session() == session and timeline is not None
    whose = lines_of_steps(sheet, timeline, library())
    assert len(whose) == len(timeline.steps)
    for number, step in zip(whose, timeline.steps, strict=True):
        line = sheet.line(number)
        assert line is not None and (not step.is_effort or line.item.exercise == step.exercise)


@settings(max_examples=examples(30, 1_000))
@given(spoiled())
def test_numbers_are_never_given_twice_whatever_is_done(sheet: SessionSheet) -> None:
    """Or a caret would be in two rows."""
    assert max(Counter(row.number for row in sheet.rows()).values()) == 1


@settings(max_examples=examples(30, 1_000))
@given(spoiled(), st.data())
def test_rows_that_are_still_there_after_undo_keep_their_numbers(sheet: SessionSheet, data: st.DataObject) -> None:
    """What was written is unchanged, and no number of the old sheet stands at another exercise."""
    drawn = data.draw
    after = drawn(st.sampled_from(STROKES))(drawn, sheet)
    back = kept_apart(sheet_of(sheet.session()), after)
    assert back.session() == sheet.session()
    assert max(Counter(row.number for row in back.rows()).values()) == 1
    old = {line.number: line.item.exercise for line in after.lines()}
    assert all(old.get(line.number, line.item.exercise) == line.item.exercise for line in back.lines())


@settings(max_examples=examples(30, 1_000))
@given(spoiled(), st.data())
def test_carrying_a_line_there_and_back_changes_nothing(sheet: SessionSheet, data: st.DataObject) -> None:
    """Over heads too; at the ends it stays where it is."""
    rows = sheet.rows()
    number = data.draw(st.sampled_from([line.number for line in sheet.lines()] or [0]))
    down = edits.carried(sheet, number, 1)
    at = next((n for n, row in enumerate(rows) if row.number == number), len(rows))
    assert edits.carried(down, number, -1) == sheet or at >= len(rows) - 1
    assert Counter(line.number for line in down.lines()) == Counter(line.number for line in sheet.lines())


def test_a_head_that_is_moved_takes_its_lines_along() -> None:
    """And the first row is always a head."""
    sheet = sheet_of(shipped().sessions[0])
    second = next(n for n, row in enumerate(sheet.rows()) if row is sheet.blocks[1])
    turned = edits.moved(sheet, second, 0)
    assert [block.number for block in turned.blocks[:2]] == [sheet.blocks[1].number, sheet.blocks[0].number]
    assert turned.blocks[0].lines == sheet.blocks[1].lines
    first_line = edits.moved(sheet, 1, 0)
    assert first_line.rows()[0] is first_line.blocks[0]


def test_a_line_with_another_exercise_keeps_its_amount_where_it_can() -> None:
    """Seconds stay seconds; what is held gets the seconds that it is held for."""
    known = library()
    held = next(e for e in known.values() if e.hold_s)
    counted = next(e for e in known.values() if e.rep_ms)
    line = edits.with_amount(edits.usual_item(counted), edits.Measure.TIMES, 8)
    assert edits.as_like(counted, line).reps == 8
    assert edits.amount_of(edits.as_like(held, line))[0] is edits.Measure.HELD
    assert edits.other_measure(edits.other_measure(line, counted), counted).reps == 8
