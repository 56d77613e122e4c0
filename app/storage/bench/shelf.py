"""The shelf: what a coach's source holds, a row for each exercise, session and programme, and the files beside them."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from sqlalchemy import Connection, delete, func, insert, select, update

from app.storage.tables import shelf as table
from app.storage.tables import shelf_file as file_table
from app.storage.upsert import put


class ShelfKind(StrEnum):
    """What a row holds. `HEAD` is what stands in `source.toml`."""

    HEAD = "head"
    EXERCISE = "exercise"
    SESSION = "session"
    PROGRAMME = "programme"


@dataclass(frozen=True)
class Shelved:
    """One thing of a source. `content` is its table of the source's format, as JSON text."""

    source: str
    kind: ShelfKind
    id: str
    content: str
    utc: datetime
    revision: int = 1
    place: int = 0
    archived: bool = False


def sources(db: Connection) -> tuple[str, ...]:
    """The ids of the sources that have a head here."""
    found = select(table.c.source).where(table.c.kind == ShelfKind.HEAD.value).order_by(table.c.source)
    return tuple(db.execute(found).scalars())


def shelved(db: Connection, source: str, kind: ShelfKind | None = None) -> tuple[Shelved, ...]:
    """What is on the shelf in its order, archived things too; of one kind or of all."""
    c = table.c
    wanted = select(c.kind, c.id, c.content, c.utc, c.revision, c.place, c.archived).where(c.source == source)
    if kind is not None:
        wanted = wanted.where(c.kind == kind.value)
    return tuple(Shelved(source, ShelfKind(row[0]), *row[1:])
                 for row in db.execute(wanted.order_by(c.kind, c.place, c.id)))


def shelved_one(db: Connection, source: str, kind: ShelfKind, id_: str) -> Shelved | None:
    """One thing, or None."""
    return next((one for one in shelved(db, source, kind) if one.id == id_), None)


def put_on_shelf(db: Connection, one: Shelved) -> None:
    """Puts it on the shelf, in the place of what had its id."""
    put(db, table, {"source": one.source, "kind": one.kind.value, "id": one.id, "place": one.place,
                    "revision": one.revision, "archived": one.archived, "content": one.content, "utc": one.utc})


def fill_shelf(db: Connection, every: Iterable[Shelved]) -> None:
    """Puts things on an empty shelf, all at once."""
    rows = [{"source": one.source, "kind": one.kind.value, "id": one.id, "place": one.place, "utc": one.utc,
             "revision": one.revision, "archived": one.archived, "content": one.content} for one in every]
    if rows:
        db.execute(insert(table), rows)


def clear_shelf(db: Connection, source: str) -> None:
    """Takes everything of a source off the shelf, its files too. Drafts and what was published stay."""
    db.execute(delete(table).where(table.c.source == source))
    db.execute(delete(file_table).where(file_table.c.source == source))


def archive(db: Connection, source: str, kind: ShelfKind, id_: str, *, archived: bool) -> None:
    """Puts a thing away, or brings it back; its id stays taken either way."""
    here = table.c.source == source, table.c.kind == kind.value, table.c.id == id_
    db.execute(update(table).where(*here).values(archived=archived))


def next_place(db: Connection, source: str, kind: ShelfKind) -> int:
    """The place after the last."""
    here = table.c.source == source, table.c.kind == kind.value
    return int(db.execute(select(func.max(table.c.place)).where(*here)).scalar() or 0) + 1


def shelf_files(db: Connection, source: str) -> dict[str, bytes]:
    """The files beside the tables by their path, with `/`."""
    c = file_table.c
    wanted = select(c.path, c.bytes).where(c.source == source).order_by(c.path)
    return {row.path: bytes(row.bytes) for row in db.execute(wanted)}


def keep_files(db: Connection, source: str, files: Mapping[str, bytes]) -> None:
    """Keeps files, each in the place of the one with its path."""
    for path, data in files.items():
        put(db, file_table, {"source": source, "path": path, "bytes": data})
