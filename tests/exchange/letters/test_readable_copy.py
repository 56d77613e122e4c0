"""The copy that a client keeps: everything in it, in plain words, and harmless wherever it is opened."""
from __future__ import annotations

import csv
import io
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.model.plan import Reason
from app.exchange.letters.readable_copy import readable_files, readable_page, readable_tables
from tests.exchange.fixed import ADA, AROUND, CHECK_IN, DONE, RETURN
from tests.generators import people, records


def say(reason: Reason) -> str:
    return f"because of {reason.rule}"


class _Tags(HTMLParser):
    """Which tags a page holds, and its words."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        assert not {name for name, _ in attrs} & {"src", "href", "onclick", "onerror"}

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def _parsed(page: str) -> _Tags:
    tags = _Tags()
    tags.feed(page)
    return tags


def test_a_page_says_in_plain_words_what_was_written_down() -> None:
    """Days, answers, sessions, reasons and notes."""
    words = _parsed(readable_page(ADA, RETURN.records, say)).words
    for word in ("Diary of Ada", "2026-03-02", "left knee 4", "nothing", "Ten minutes", "done to the end",
                 "Stand up from a chair", "because of pain; because of days", "a good day", "Dr Moss", "head cold"):
        assert any(word in said for said in words), word


def test_checks_and_what_else_happened_are_in_the_copy() -> None:
    """With what was asked and answered."""
    words = _parsed(readable_page(ADA, AROUND, say)).words
    for word in ("standing up from a chair, 30 s", "9 stands", "the kitchen chair", "a fall", "head: no, hurts: yes",
                 "on the wet step", "2026-03-17", "walk", "30"):
        assert any(word in said for said in words), word


def test_what_was_not_answered_is_empty_and_nothing_is_a_word() -> None:
    """The two are never mixed up."""
    row = readable_tables([CHECK_IN], say)[0].rows[0]
    assert row[4] == "left knee 4" and row[6] == "nothing" and row[2] == ""


@given(st.data())
def test_nothing_in_a_diary_becomes_part_of_the_page(data: st.DataObject) -> None:
    """Text stays text; the page loads nothing from anywhere."""
    person = data.draw(people())
    page = readable_page(person, data.draw(records(person.id)), say)
    assert _parsed(page).tags <= {"html", "head", "meta", "title", "style", "body", "h1", "h2", "table", "tr", "th",
                                  "td", "p"}


def test_markup_in_a_note_stays_text() -> None:
    """Also where it looks like a script."""
    sly = replace(CHECK_IN, note="<script>alert(1)</script><img src=x onerror=y>")
    tags = _parsed(readable_page(replace(ADA, name="<b>Ada</b>"), [sly], say))
    assert not tags.tags & {"script", "img", "b"}


@given(st.data())
def test_tables_come_back_as_they_were_written(data: st.DataObject) -> None:
    """Every row of every table, whatever stands in it."""
    kept = data.draw(records("ada"))
    for table in readable_tables(kept, say):
        text = readable_files(kept, say)[table.file]
        rows = list(csv.reader(io.StringIO(text, newline="")))
        assert tuple(rows[0]) == table.heads
        # an apostrophe may stand before each line of a cell
        assert [tuple(cell.replace("'", "") for cell in row) for row in rows[1:]] == [
            tuple(cell.replace("'", "") for cell in row) for row in table.rows]


def test_a_spreadsheet_runs_no_formula_from_a_note() -> None:
    """An apostrophe keeps it text."""
    for note in ("=1+1", "+1", "-1", "@sum", "\t=1", " =1", "＝1+1", "＋1", "－1", "＠sum", "\ufeff=1"):
        text = readable_files([replace(DONE, note=note)], say)["sessions.csv"]
        assert next(csv.reader(io.StringIO(text.splitlines()[1])))[-1].startswith("'")


@pytest.mark.parametrize("note", [
    "fine\n=1+1", "fine\r\n=1+1", "fine\n\n  @sum", "ok;=1+1", "ok;;-1", "ok; =1+1", "ok\t=1+1", "ok|+1",
    "fine\n＝1", "ok\u2028=1", "ok\x85=1",
])
def test_no_line_and_no_cell_behind_another_separator_is_a_formula(note: str) -> None:
    """A spreadsheet may take `;` or a tab for the separator, and each line of a cell for a row."""
    text = readable_files([replace(DONE, note=note)], say)["sessions.csv"]
    kept = list(csv.reader(io.StringIO(text, newline="")))[1][-1]
    assert kept.replace("'", "") == note
    assert not [part for part in re.split(r"[;\t|\r\n\x85\u2028]", kept) if part.strip()[:1] in tuple("=+-@＝")]


@pytest.mark.parametrize("note", ["3 = three", "half-squat", "knee + hip", "a; b", "19:30 - 20:00"])
def test_an_ordinary_note_stays_as_it_was_written(note: str) -> None:
    """A sign in the middle is no formula."""
    assert note in readable_files([replace(DONE, note=note)], say)["sessions.csv"]


def test_what_was_taken_back_is_not_in_the_copy() -> None:
    """It is gone for the reader."""
    gone = replace(CHECK_IN, stamp=replace(CHECK_IN.stamp, deleted=True))
    assert "Nothing is written down yet" in readable_page(ADA, [gone], say)
