"""Drafts: what is being written, with every act of it, so that undo outlives the program.

A writing names the revision that it saw. Where another window or another coach has written meanwhile, nothing is kept
and `DraftChanged` says so: both sides are shown then, and nothing is merged by itself.
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, Connection, Table, delete, insert, select, update

from app.domain.bench.history import History, LogEntry, history_of, shortest_log
from app.domain.errors import DraftChanged
from app.storage.bench.shelf import ShelfKind
from app.storage.codec import from_text, to_text
from app.storage.tables import draft as table
from app.storage.tables import draft_act as act_table

#: Bytes of a document's acts from which on letters are merged into whole acts, when it is opened.
MANY_BYTES = 200_000


@dataclass(frozen=True)
class Draft:
    """A thing under the pen. `base` is the revision of the shelf that it began from; 0 where it is new."""

    source: str
    kind: ShelfKind
    id: str
    history: History
    base: int
    revision: int
    """0 before anything was kept."""
    utc: datetime

    @property
    def text(self) -> str:
        """As it stands, as JSON text."""
        return self.history.now


def drafts(db: Connection, source: str, kind: ShelfKind | None = None) -> dict[tuple[ShelfKind, str], str]:
    """The text of each draft, by kind and id, without its acts."""
    c = table.c
    wanted = select(c.kind, c.id, c.content).where(c.source == source)
    if kind is not None:
        wanted = wanted.where(c.kind == kind.value)
    return {(ShelfKind(row.kind), row.id): row.content for row in db.execute(wanted.order_by(c.kind, c.id))}


def draft(db: Connection, source: str, kind: ShelfKind, id_: str) -> Draft | None:
    """A draft with all its acts. Where the acts do not lead to the text, the text counts and is where undo ends."""
    c = table.c
    row = db.execute(select(c.base, c.revision, c.start, c.content, c.utc).where(*_here(table, source, kind, id_))
                     ).one_or_none()
    if row is None:
        return None
    try:
        history = history_of(row.start, _entries(db, source, kind, id_))
    except ValueError:
        history = History(row.content)
    if history.now != row.content:
        history = History(row.content)
    return Draft(source, kind, id_, history, row.base, row.revision, row.utc)


def revision_of(db: Connection, source: str, kind: ShelfKind, id_: str) -> int:
    """The newest revision of a draft; 0 where there is none."""
    return int(db.execute(select(table.c.revision).where(*_here(table, source, kind, id_))).scalar() or 0)


def keep_draft(db: Connection, one: Draft, entries: Sequence[LogEntry], utc: datetime) -> int:
    """Adds acts to a draft, which must be as it was seen; `one.history` is as it stands after them.

    Returns:
        Its revision now.

    Raises:
        DraftChanged: it was written meanwhile by somebody else. Nothing was kept.
    """
    here = _here(table, one.source, one.kind, one.id)
    values = {"content": one.text, "revision": one.revision + 1, "utc": utc}
    key = {"source": one.source, "kind": one.kind.value, "id": one.id}
    if one.revision:
        kept = db.execute(update(table).where(*here, table.c.revision == one.revision).values(**values)).rowcount
    elif kept := int(revision_of(db, one.source, one.kind, one.id) == 0):
        db.execute(insert(table).values(**key, **values, base=one.base, start=one.history.start))
    if not kept:
        raise DraftChanged(kind=one.kind.value, id=one.id)
    first = _count(db, one.source, one.kind, one.id)
    if entries:
        db.execute(insert(act_table), [key | {"n": first + n, "entry": to_text(entry)}
                                       for n, entry in enumerate(entries)])
    return one.revision + 1


def shorten(db: Connection, one: Draft) -> None:
    """Merges the letters of a long log into whole acts. The history stays as it is."""
    if sum(len(entry) for entry in _texts(db, one.source, one.kind, one.id)) <= MANY_BYTES:
        return
    db.execute(delete(act_table).where(*_here(act_table, one.source, one.kind, one.id)))
    key = {"source": one.source, "kind": one.kind.value, "id": one.id}
    rows = [key | {"n": n, "entry": to_text(entry)} for n, entry in enumerate(shortest_log(one.history))]
    if rows:
        db.execute(insert(act_table), rows)


def drop_draft(db: Connection, source: str, kind: ShelfKind, id_: str) -> None:
    """The draft and its acts are gone, as after it was handed out."""
    for one in (act_table, table):
        db.execute(delete(one).where(*_here(one, source, kind, id_)))


def _entries(db: Connection, source: str, kind: ShelfKind, id_: str) -> list[LogEntry]:
    return [from_text(LogEntry, text) for text in _texts(db, source, kind, id_)]


def _texts(db: Connection, source: str, kind: ShelfKind, id_: str) -> list[str]:
    wanted = select(act_table.c.entry).where(*_here(act_table, source, kind, id_)).order_by(act_table.c.n)
    return list(db.execute(wanted).scalars())


def _count(db: Connection, source: str, kind: ShelfKind, id_: str) -> int:
    wanted = select(act_table.c.n).where(*_here(act_table, source, kind, id_)).order_by(act_table.c.n.desc()).limit(1)
    last = db.execute(wanted).scalar()
    return 0 if last is None else int(last) + 1


def _here(one: Table, source: str, kind: ShelfKind, id_: str) -> tuple[ColumnElement[bool], ...]:
    return one.c.source == source, one.c.kind == kind.value, one.c.id == id_
