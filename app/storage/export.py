"""The whole store as text."""
from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256
from typing import Any

from sqlalchemy import Connection, Table, select, type_coerce
from sqlalchemy.types import TypeDecorator

from app.storage.codec import canonical
from app.storage.tables import metadata


def logical_dump(db: Connection) -> str:
    """Every row of every table, one a line, in an order that depends on what is kept alone.

    Bytes stand as their length and SHA-256, so neither media nor a private key is in it. Two stores hold the
    same exactly when their dumps are equal.
    """
    return "".join(f"{line}\n" for table in _tables() for line in sorted(_lines(db, table)))


def _tables() -> list[Table]:
    return sorted(metadata.tables.values(), key=lambda t: t.name)


def _lines(db: Connection, table: Table) -> Iterator[str]:
    # as stored: the text of an instant or of JSON, not its value
    stored = [
        type_coerce(c, c.type.impl_instance).label(c.name) if isinstance(c.type, TypeDecorator) else c
        for c in table.columns
    ]
    for row in db.execute(select(*stored)).mappings():
        yield f"{table.name} {canonical({name: _plain(value) for name, value in row.items()})}"


def _plain(value: Any) -> Any:
    if isinstance(value, bytes):
        return {"bytes": len(value), "sha256": sha256(value).hexdigest()}
    return value if value is None or isinstance(value, (bool, int, str)) else str(value)
