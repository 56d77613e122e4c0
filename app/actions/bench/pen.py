"""The pen: one session being written at one window, with its undo and with what is not kept yet."""
from __future__ import annotations

from collections.abc import Hashable
from dataclasses import replace

from app.actions.bench import drafting
from app.device.clock import Clock
from app.domain.bench.history import EntryKind, LogEntry
from app.domain.bench.sheet import SessionSheet, kept_apart
from app.storage.bench.drafts import Draft
from app.storage.database import Store

#: Letters typed into one field within so many milliseconds of each other are one act.
ONE_ACT_MS = 2000


class Pen:
    """Everything that is done to one session at one window. `draft.history` and `sheet` always say the same."""

    def __init__(self, store: Store, clock: Clock, draft: Draft) -> None:
        self._store, self._clock = store, clock
        self.draft = draft
        self.sheet: SessionSheet = drafting.sheet_in(draft.text)
        self.unkept: list[LogEntry] = []
        self._typing: tuple[Hashable, int] | None = None

    @property
    def is_kept(self) -> bool:
        """Whether everything that was done is in the store."""
        return not self.unkept

    def do(self, sheet: SessionSheet, words: str, field: Hashable = None) -> bool:
        """One act, named by `words`. Letters of one `field` that follow one another are one. False: nothing changed."""
        text, history, now_ms = drafting.sheet_text(sheet), self.draft.history, self._clock.monotonic_ms()
        if text == history.now:
            self.sheet = sheet
            return False
        joined = (self._typing is not None and field is not None and self._typing[0] == field
                  and now_ms - self._typing[1] <= ONE_ACT_MS)
        entry = history.amendment(words, text) if joined else history.entry(words, text)
        self._log(entry)
        self.sheet = sheet
        self._typing = None if field is None else (field, now_ms)
        return True

    def undo(self) -> str:
        """Takes the last act back and gives its words; empty where there is none."""
        return self._step(EntryKind.UNDO, self.draft.history.undoes)

    def redo(self) -> str:
        """Does what was taken back last again, and gives its words."""
        return self._step(EntryKind.REDO, self.draft.history.redoes)

    def _step(self, kind: EntryKind, words: str) -> str:
        if words:
            self._log(LogEntry(kind))
            self.sheet = kept_apart(drafting.sheet_in(self.draft.text), self.sheet)
            self._typing = None
        return words

    def _log(self, entry: LogEntry) -> None:
        self.draft = replace(self.draft, history=self.draft.history.after(entry))
        self.unkept.append(entry)

    def keep(self) -> None:
        """Keeps what is not kept yet.

        Raises:
            DraftChanged, StorageError: nothing was kept, nothing is lost here, and it may be tried again.
        """
        if self.unkept:
            self.draft = drafting.keep(self._store, self._clock, self.draft, self.unkept)
            self.unkept = []
