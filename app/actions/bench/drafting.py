"""A session under the pen: opened with its acts, kept as it grows, begun anew, put away."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from app.actions.bench.shelf_source import slug_of
from app.device.clock import Clock
from app.domain.bench.history import History, LogEntry
from app.domain.bench.sheet import SessionSheet, SheetBlock
from app.domain.errors import UnknownName
from app.domain.model.session import BlockKind
from app.exchange.forms.draft_form import sheet_from_text, sheet_to_text
from app.storage.bench import drafts, shelf
from app.storage.bench.drafts import Draft
from app.storage.bench.shelf import ShelfKind
from app.storage.database import Store

#: What a new session is set out with.
BLANK = (SheetBlock(1, BlockKind.WARM_UP, rest_s=10), SheetBlock(2, BlockKind.CIRCUIT, rounds=2, rest_s=30,
         round_rest_s=60), SheetBlock(3, BlockKind.COOL_DOWN, rest_s=10))


def sheet_text(sheet: SessionSheet) -> str:
    """A sheet as the text that is kept of it."""
    return sheet_to_text(sheet)


def sheet_in(text: str) -> SessionSheet:
    """The sheet that a text was kept of.

    Raises:
        WrongValue, UnknownName: it says something that cannot be.
    """
    return sheet_from_text(text)


def open_session(store: Store, clock: Clock, source_id: str, session_id: str) -> Draft:
    """The session under the pen: its draft with all acts, else what is on the shelf. Nothing is written.

    Raises:
        UnknownName: there is neither.
    """
    with store.read() as db:
        kept = drafts.draft(db, source_id, ShelfKind.SESSION, session_id)
        if kept is not None:
            return kept
        row = shelf.shelved_one(db, source_id, ShelfKind.SESSION, session_id)
    if row is None:
        raise UnknownName(kind="session", name=session_id, known=())
    text = sheet_to_text(sheet_from_text(row.content))
    return Draft(source_id, ShelfKind.SESSION, session_id, History(text), row.revision, 0, clock.now())


def sessions(store: Store, source_id: str) -> tuple[tuple[SessionSheet, bool], ...]:
    """Every session as it is written now, and whether it has a draft: those on the shelf first, then new ones."""
    with store.read() as db:
        shelved = [row for row in shelf.shelved(db, source_id, ShelfKind.SESSION) if not row.archived]
        written = {id_: text for (_, id_), text in drafts.drafts(db, source_id, ShelfKind.SESSION).items()}
    order = dict.fromkeys([*(row.id for row in shelved), *written])
    kept = {row.id: row.content for row in shelved}
    return tuple((sheet_from_text(written.get(id_, kept.get(id_, ""))), id_ in written) for id_ in order)


def begin_session(store: Store, clock: Clock, source_id: str, name: str, like: SessionSheet | None = None) -> str:
    """A new session, blank or as another one, kept at once. Gives its id, which is made of its name."""
    with store.begin() as db:
        taken = frozenset(row.id for row in shelf.shelved(db, source_id, ShelfKind.SESSION)) | {
            id_ for _, id_ in drafts.drafts(db, source_id, ShelfKind.SESSION)}
        id_ = slug_of(name, taken) or slug_of("session", taken)
        sheet = replace(like, id=id_, name=name) if like else SessionSheet(id_, name, BLANK)
        new = Draft(source_id, ShelfKind.SESSION, id_, History(sheet_to_text(sheet)), 0, 0, clock.now())
        drafts.keep_draft(db, new, (), clock.now())
    return id_


def keep(store: Store, clock: Clock, draft: Draft, entries: Sequence[LogEntry]) -> Draft:
    """Keeps what was done since the last time, all of it or nothing. `draft.history` is as it stands after it.

    Raises:
        DraftChanged: somebody else wrote meanwhile; nothing of theirs is touched.
        StorageError: it cannot be kept; nothing is lost, and the same may be tried again.
    """
    now = clock.now()
    with store.begin() as db:
        revision = drafts.keep_draft(db, draft, entries, now)
    return replace(draft, revision=revision, utc=now)


def tidy(store: Store, draft: Draft) -> None:
    """Shortens a log that has grown long; to be called when a draft is opened, and only then."""
    if draft.revision:
        with store.begin() as db:
            drafts.shorten(db, draft)


def as_second(store: Store, clock: Clock, draft: Draft, name: str) -> str:
    """Keeps what stands here as a session of its own, where the draft was changed elsewhere. Gives its id."""
    return begin_session(store, clock, draft.source, name, sheet_from_text(draft.text))


def drop(store: Store, draft: Draft) -> None:
    """Takes the draft back: what is on the shelf counts again. Of a new session nothing is left."""
    with store.begin() as db:
        drafts.drop_draft(db, draft.source, draft.kind, draft.id)
