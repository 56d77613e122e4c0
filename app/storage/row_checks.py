"""Every row that decides, compared with its digest; and put right from a copy that still has it whole.

Works on the file itself, below the tables of this version, so that a store of any version can be looked through.
"""
from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from app.storage.checked_text import is_unchanged, parted
from app.storage.driver_errors import named_faults

#: Table → its columns of text with a digest, and the column that holds it, if the text does not.
CHECKED: Mapping[str, tuple[tuple[str, str | None], ...]] = {
    "record": (("payload", "hash"),), "person": (("payload", None),), "reply": (("payload", None),),
    "run": (("plan", None), ("about", None)), "pack": (("content", None),),
    "shelf": (("content", None),), "draft": (("start", None), ("content", None)), "draft_act": (("entry", None),),
    "published": (("content", None),),
}


class RowKey(NamedTuple):
    """Where a row stands: its table, the names of its key's columns, and their values as stored."""

    table: str
    names: tuple[str, ...]
    values: tuple[object, ...]


def changed_rows(db: sqlite3.Connection) -> tuple[RowKey, ...]:
    """The rows that are not as they were written."""
    db.text_factory = bytes
    return tuple(key for table in _tables(db) for key in _changed(db, table))


def mend_rows(path: Path, copies: Sequence[Path]) -> tuple[RowKey, ...]:
    """Puts changed rows right from the newest copy that holds the same state of them whole; gives those left over.

    Raises:
        StorageError: the file cannot be read or written.
    """
    with named_faults(str(path)), closing(_open(path, "ro")) as db:
        changed = changed_rows(db)
    if not changed:
        return ()
    with named_faults(str(path)), closing(_open(path, "rw")) as db:
        db.text_factory = bytes
        with db:
            return tuple(key for key in changed if not any(_mended(db, key, copy) for copy in reversed(copies)))


def _open(path: Path, mode: str) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode={mode}", uri=True)


def _tables(db: sqlite3.Connection) -> Iterator[str]:
    names = {name.decode() for name, in db.execute("select name from sqlite_master where type = 'table'")}
    return (table for table in CHECKED if table in names)


def _columns(db: sqlite3.Connection, table: str) -> dict[str, int]:
    """Its columns, each with its place in the key, 0 for none."""
    return {name.decode(): at for _, name, _, _, _, at in db.execute(f"PRAGMA table_info({table})")}


def _changed(db: sqlite3.Connection, table: str) -> Iterator[RowKey]:
    columns = _columns(db, table)
    names = tuple(sorted((n for n, at in columns.items() if at), key=columns.__getitem__))
    for text, digest in CHECKED[table]:
        wanted = ", ".join((*names, text, digest or "null"))
        for *values, data, told in db.execute(f"select {wanted} from {table}"):
            if not is_unchanged(_bytes(data), None if digest is None else _bytes(told)):
                yield RowKey(table, names, tuple(values))


def _mended(db: sqlite3.Connection, key: RowKey, copy: Path) -> bool:
    """Whether that copy had the same state of the row; it then stands in the row's place."""
    try:
        with closing(_open(copy, "ro")) as other:
            other.text_factory = bytes
            mine, theirs = _row(db, key), _row(other, key)
    except sqlite3.Error:
        return False
    if not mine or not theirs or mine.keys() != theirs.keys() or not _same_state(key.table, mine, theirs):
        return False
    rest = [name for name in mine if name not in key.names]
    values = [*(_as_stored(theirs[name]) for name in rest), *map(_as_stored, key.values)]
    db.execute(f"update {key.table} set {', '.join(f'{n} = ?' for n in rest)} where {_where(key)}", values)
    return True


def _row(db: sqlite3.Connection, key: RowKey) -> dict[str, object]:
    names = list(_columns(db, key.table))
    found = db.execute(f"select {', '.join(names)} from {key.table} where {_where(key)}",
                       [_as_stored(v) for v in key.values]).fetchone()
    return dict(zip(names, found, strict=True)) if found else {}


def _where(key: RowKey) -> str:
    return " and ".join(f"{name} = ?" for name in key.names)


def _same_state(table: str, mine: Mapping[str, object], theirs: Mapping[str, object]) -> bool:
    """Whether theirs is whole, and either its digest or all it says is what mine has."""
    for text, digest in CHECKED[table]:
        here, there = _bytes(mine[text]), _bytes(theirs[text])
        told = (_bytes(mine[digest]), _bytes(theirs[digest])) if digest else (parted(here)[1], parted(there)[1])
        if not is_unchanged(there, _bytes(theirs[digest]) if digest else None):
            return False
        if told[0] != told[1] and parted(here)[0] != parted(there)[0]:
            return False
    return True


def _bytes(value: object) -> bytes:
    return value if isinstance(value, bytes) else str(value).encode("utf-8")


def _as_stored(value: object) -> object:
    """Text again; what is no UTF-8 was never ours."""
    return value.decode("utf-8", "replace") if isinstance(value, bytes) else value
