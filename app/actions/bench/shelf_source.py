"""A source on the coach's shelf: taken over from elsewhere, read as one value, and given back with its files."""
from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any

from app.device.clock import Clock
from app.domain.errors import AppError, UnknownName
from app.domain.model.source import Source
from app.exchange.forms.content import head_table, source_from_json
from app.exchange.forms.draft_form import table_from_text
from app.exchange.forms.exercise_form import exercise_table
from app.exchange.forms.session_form import programme_table, session_table
from app.exchange.forms.source import read_beside, read_source, write_source
from app.exchange.forms.to_json import to_json
from app.storage import settings
from app.storage.bench import drafts, shelf
from app.storage.bench.shelf import ShelfKind, Shelved
from app.storage.database import Connection, Store

#: Setting: the id of the source that the coach writes.
CURRENT = "bench_source"
LISTS = {ShelfKind.EXERCISE: "exercises", ShelfKind.SESSION: "sessions", ShelfKind.PROGRAMME: "programmes"}
_SLUG = re.compile(r"[^a-z0-9]+")


def current_source(store: Store) -> str:
    """The id of the source that is written here; empty before one was taken over or begun."""
    with store.read() as db:
        return str(settings.setting(db, CURRENT, ""))


def take_over(store: Store, clock: Clock, source: Source, files: Mapping[str, bytes] | None = None) -> None:
    """Puts a source on the shelf, in the place of the one with its id, and makes it the one that is written.

    Its drafts go; what was published of it stays.
    """
    rows = list(_rows(source, clock.now()))
    with store.begin() as db:
        for kind, id_ in drafts.drafts(db, source.id):
            drafts.drop_draft(db, source.id, kind, id_)
        shelf.clear_shelf(db, source.id)
        shelf.fill_shelf(db, rows)
        shelf.keep_files(db, source.id, files or {})
        settings.save_setting(db, CURRENT, source.id)


def take_folder_over(store: Store, clock: Clock, folder: Path) -> Source:
    """Takes over the source in a folder of TOML, with its figures, pictures and recorded lines.

    Raises:
        UnreadableSource, WrongValue, UnknownName: it cannot be read; nothing was changed.
    """
    source, files = read_source(folder), read_beside(folder)
    take_over(store, clock, source, files)
    return source


def take_shipped_over(store: Store, clock: Clock, folders: Sequence[Path], coach: str) -> None:
    """Takes over the first source that came with the app, under a coach's own name. Its figures stay where they are.

    Raises:
        UnknownName: none came along.
        UnreadableSource, WrongValue: it cannot be read; nothing was changed.
    """
    if not folders:
        raise UnknownName(kind="source", name="", known=())
    take_over(store, clock, as_ones_own(read_source(folders[0]), coach))


def give_as_folder(store: Store, source_id: str, folder: Path) -> Source:
    """Writes the source as it is written now, drafts included, as a folder of TOML with its files.

    Raises:
        UnknownName: no such source.
        WrongValue: the folder holds something; nothing was written.
    """
    source = written_source(store, source_id)
    write_source(source, folder, files_of(store, source_id))
    return source


def as_ones_own(source: Source, coach: str) -> Source:
    """A source taken over to be written on under a coach's own name: it gets an id made of that name."""
    return replace(source, id=slug_of(coach) or source.id, coach=coach, version=1, title="", about="", contact="")


def slug_of(name: str, taken: frozenset[str] = frozenset()) -> str:
    """An id made of a name: `Odile Märsh` → `odile-marsh`; with a number behind it where that is taken."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().casefold()
    slug = _SLUG.sub("-", plain).strip("-")[:56].strip("-")
    if slug not in taken:
        return slug
    return next(f"{slug}-{n}" for n in range(2, len(taken) + 3) if f"{slug}-{n}" not in taken)


def _rows(source: Source, utc: datetime) -> Iterator[Shelved]:
    every: dict[ShelfKind, list[tuple[str, dict[str, Any]]]] = {
        ShelfKind.HEAD: [("head", head_table(source))],
        ShelfKind.EXERCISE: [(one.id, exercise_table(one)) for one in source.exercises],
        ShelfKind.SESSION: [(one.id, session_table(one)) for one in source.sessions],
        ShelfKind.PROGRAMME: [(one.id, programme_table(one)) for one in source.programmes],
    }
    for kind, listed in every.items():
        for place, (id_, table) in enumerate(listed, 1):
            yield Shelved(source.id, kind, id_, to_json(table).decode(), utc, place=place)


# ------------------------------------------------------------------ read as one

def written_source(store: Store, source_id: str) -> Source:
    """The source as it is written now: drafts in the place of what they change, without what was put away.

    A draft that cannot be handed out yet, such as an empty session, leaves what is on the shelf as it was.

    Raises:
        UnknownName: no such source.
        WrongValue: something on the shelf that cannot be.
    """
    with store.read() as db:
        return written_in(db, source_id)


def written_in(db: Connection, source_id: str) -> Source:
    """The same within a transaction."""
    head, tables = _tables(db, source_id, drafted=True)
    try:
        return _read(head, tables)
    except AppError:  # two drafts that do not go together yet: what is on the shelf does
        return _read(*_tables(db, source_id, drafted=False))


def shelf_source(store: Store, source_id: str) -> Source:
    """The source as it is on the shelf, without drafts.

    Raises:
        UnknownName, WrongValue: as `written_source`.
    """
    with store.read() as db:
        return _read(*_tables(db, source_id, drafted=False))


def files_of(store: Store, source_id: str) -> dict[str, bytes]:
    """The files beside its tables, by path."""
    with store.read() as db:
        return shelf.shelf_files(db, source_id)


def _tables(db: Connection, source_id: str, *, drafted: bool) -> tuple[dict[str, Any], dict[str, list[Any]]]:
    rows = [row for row in shelf.shelved(db, source_id) if not row.archived]
    under_pen = drafts.drafts(db, source_id) if drafted else {}
    head = next((json.loads(row.content) for row in rows if row.kind is ShelfKind.HEAD), None)
    if head is None:
        raise UnknownName(kind="source", name=source_id, known=shelf.sources(db))
    lists = {}
    for kind, key in LISTS.items():
        told = {row.id: json.loads(row.content) for row in rows if row.kind is kind}
        for (of_kind, id_), text in under_pen.items():
            table = table_from_text(text) if of_kind is kind is ShelfKind.SESSION else json.loads(text)
            if of_kind is kind and (kind is not ShelfKind.SESSION or table["block"]):
                told[id_] = table
        lists[key] = list(told.values())
    return head, lists


def _read(head: dict[str, Any], lists: dict[str, list[Any]]) -> Source:
    return source_from_json(to_json(head | lists))
