"""Two small statements that every table needs and that databases spell differently."""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, TypeVar

from sqlalchemy import Connection, Table, insert, update

T = TypeVar("T")
#: Values in one list of a statement; SQLite of old builds takes 999.
CHUNK = 500


def put(db: Connection, table: Table, row: Mapping[str, Any]) -> None:
    """Writes a row, in place of the one with the same key."""
    keys = [c.name for c in table.primary_key]
    here = [table.c[k] == row[k] for k in keys]
    rest = {k: v for k, v in row.items() if k not in keys}
    if not rest or db.execute(update(table).where(*here).values(**rest)).rowcount == 0:
        db.execute(insert(table), dict(row))


def chunks(values: Sequence[T]) -> Iterator[Sequence[T]]:
    """`values` in stretches that fit into one statement."""
    return (values[i:i + CHUNK] for i in range(0, len(values), CHUNK))
