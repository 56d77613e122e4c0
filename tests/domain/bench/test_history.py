"""Undo and redo as a log: read from its start it says what was done, and shortened it says the same."""
from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.bench.history import EntryKind, History, LogEntry, history_of, shortest_log
from app.domain.bench.text_change import TextChange, change_between, changed
from tests.sampling import examples

texts = st.text(alphabet="ab ", max_size=8)
Acts = list[tuple[EntryKind, str]]
acts = st.lists(st.tuples(st.sampled_from(EntryKind), texts), max_size=20)


@given(texts, texts)
def test_a_change_makes_one_text_into_the_other(before: str, after: str) -> None:
    """And says no more than what differs."""
    change = change_between(before, after)
    assert changed(before, change) == after
    assert not (change.gone and change.came) or change.gone[0] != change.came[0]


def test_a_change_of_another_text_is_refused() -> None:
    """Rather than making a third text of two."""
    with pytest.raises(ValueError, match="another"):
        changed("abc", TextChange(0, "x", "y"))


def _told(start: str, done: Acts) -> tuple[History, list[LogEntry]]:
    history, log = History(start), []
    for kind, text in done:
        made = {EntryKind.ACT: history.entry(text, text), EntryKind.AMEND: history.amendment(text, text)}
        log.append(made.get(kind, LogEntry(kind)))
        history = history.after(log[-1])
    return history, log


@settings(max_examples=examples(60, 2_000))
@given(texts, acts)
def test_a_log_read_from_its_start_and_one_shortened_tell_the_same(start: str, done: Acts) -> None:
    """All states in both directions, with their words."""
    history, log = _told(start, done)
    assert history_of(start, log) == history
    short = shortest_log(history)
    assert history_of(start, short) == history
    assert len(short) <= len(history.past) + 2 * len(history.future)


@settings(max_examples=examples(60, 2_000))
@given(texts, acts)
def test_undo_all_the_way_is_the_start_and_redo_all_the_way_the_end(start: str, done: Acts) -> None:
    """Whatever was done."""
    history, _ = _told(start, done)
    while history.future:
        history = history.after(LogEntry(EntryKind.REDO))
    end, steps = history, len(history.past)
    for _ in range(steps):
        history = history.after(LogEntry(EntryKind.UNDO))
    assert history.now == start and history.after(LogEntry(EntryKind.UNDO)) == history
    for _ in range(steps):
        history = history.after(LogEntry(EntryKind.REDO))
    assert history == end == history.after(LogEntry(EntryKind.REDO))


def test_letters_that_follow_one_another_are_one_act() -> None:
    """Undone by one press."""
    history, _ = _told("3", [(EntryKind.ACT, "4"), (EntryKind.AMEND, "45")])
    assert history.now == "45" and history.undoes == "45"
    assert history.after(LogEntry(EntryKind.UNDO)).now == "3"
