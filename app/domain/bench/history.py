"""Undo and redo of one document as a log that only grows, so that every act outlives the program.

The log is read from its start: an act puts a new state above the present one and forgets what could be done again; an
amendment changes the present one, as the next letter of a number does; undo and redo walk between them.
"""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from app.domain.bench.text_change import TextChange, change_between, changed


class EntryKind(StrEnum):
    """What an entry does."""

    ACT = "act"
    AMEND = "amend"
    UNDO = "undo"
    REDO = "redo"


@dataclass(frozen=True)
class LogEntry:
    """One line of the log. `words` name an act, `change` says what it did to the text before it."""

    kind: EntryKind
    words: str = ""
    change: TextChange | None = None


@dataclass(frozen=True)
class DoneAct:
    """An act with the text after it."""

    words: str
    text: str


@dataclass(frozen=True)
class History:
    """Every state that can be gone back to, and on to again."""

    start: str
    past: tuple[DoneAct, ...] = ()
    future: tuple[DoneAct, ...] = ()
    """The next one to do again stands first."""

    @property
    def now(self) -> str:
        """The present text."""
        return self.past[-1].text if self.past else self.start

    @property
    def undoes(self) -> str:
        """Which act Undo would take back; empty for none."""
        return self.past[-1].words if self.past else ""

    @property
    def redoes(self) -> str:
        """Which act Redo would do again; empty for none."""
        return self.future[0].words if self.future else ""

    def entry(self, words: str, text: str) -> LogEntry:
        """The entry of an act that makes the present text into `text`."""
        return LogEntry(EntryKind.ACT, words, change_between(self.now, text))

    def amendment(self, words: str, text: str) -> LogEntry:
        """The entry that makes the last act into one that ends with `text`."""
        return LogEntry(EntryKind.AMEND, words, change_between(self.now, text))

    def after(self, entry: LogEntry) -> History:
        """The history with one entry more. Undo without a past and redo without a future change nothing.

        Raises:
            ValueError: an act on another text.
        """
        if entry.kind is EntryKind.UNDO:
            return replace(self, past=self.past[:-1], future=(*self.past[-1:], *self.future))
        if entry.kind is EntryKind.REDO:
            return replace(self, past=(*self.past, *self.future[:1]), future=self.future[1:])
        done = DoneAct(entry.words, changed(self.now, entry.change) if entry.change else self.now)
        kept = self.past[:-1] if entry.kind is EntryKind.AMEND else self.past
        return replace(self, past=(*kept, done), future=())


def history_of(start: str, entries: Iterable[LogEntry]) -> History:
    """The history that a log tells.

    Raises:
        ValueError: it belongs to another text.
    """
    history = History(start)
    for entry in entries:
        history = history.after(entry)
    return history


def shortest_log(history: History) -> tuple[LogEntry, ...]:
    """The fewest entries that tell the same history: letters are merged into whole acts, and no act goes."""
    before, entries = history.start, list[LogEntry]()
    for done in (*history.past, *history.future):
        entries.append(LogEntry(EntryKind.ACT, done.words, change_between(before, done.text)))
        before = done.text
    return (*entries, *(LogEntry(EntryKind.UNDO),) * len(history.future))
