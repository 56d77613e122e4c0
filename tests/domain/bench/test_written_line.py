"""A line of words is read as a coach means it, and nothing that was not understood is dropped."""
from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.bench.sheet_edits import BOUNDS, Measure, amount_of
from app.domain.bench.written_line import WrittenLine, item_of, offered, read_line
from app.domain.model.session import Item
from tests.domain.shipped import library


@pytest.mark.parametrize(("text", "read"), [
    ("chair stand 8x /30", WrittenLine("chair stand", Measure.TIMES, 8, 30)),
    ("chair stand x8", WrittenLine("chair stand", Measure.TIMES, 8)),
    ("march 40", WrittenLine("march", Measure.SECONDS, 40)),
    ("march 40s/20s", WrittenLine("march", Measure.SECONDS, 40, 20)),
    ("/20", WrittenLine("", rest_s=20)),
    ("", WrittenLine()),
    ("40", WrittenLine("40")),
])
def test_words_amount_and_rest_are_told_apart(text: str, read: WrittenLine) -> None:
    """A number before any word is a word."""
    assert read_line(text) == read


def test_beginnings_of_words_find_an_exercise() -> None:
    """In any order, those that begin with the first word first."""
    found = offered(library(), "stand ch")
    assert found and all("stand" in e.name.casefold() for e in found)
    assert found[0].name.startswith("Stand") and offered(library(), "") == () == offered(library(), "zzz")


@given(st.text(max_size=30), st.sampled_from(sorted(library())))
def test_whatever_is_written_makes_a_line_within_bounds(text: str, exercise_id: str) -> None:
    """So that it can always be kept."""
    item = item_of(read_line(text), library()[exercise_id], Item("x", work_s=45))
    measure, amount = amount_of(item)
    assert BOUNDS[measure][0] <= amount <= BOUNDS[measure][1] and 0 <= (item.rest_s or 0) <= 600


def test_what_is_left_out_comes_from_the_line_before() -> None:
    """And from the exercise where that is counted another way."""
    march = next(e for e in library().values() if e.rep_ms)
    assert item_of(read_line("march"), march, Item("x", work_s=45)).work_s == 45
    assert item_of(read_line("march"), march, Item("x", reps=8)).work_s == 30
