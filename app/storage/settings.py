"""Settings of this device: a name and JSON data."""
from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, delete, select

from app.storage.tables import setting as table
from app.storage.upsert import put


def setting(db: Connection, name: str, otherwise: Any = None) -> Any:
    """What was kept under the name, or `otherwise`."""
    row = db.execute(select(table.c.value).where(table.c.name == name)).one_or_none()
    return otherwise if row is None else row[0]


def save_setting(db: Connection, name: str, value: Any) -> None:
    """Keeps JSON data under a name."""
    put(db, table, {"name": name, "value": value})


def forget_setting(db: Connection, name: str) -> None:
    """As if it had never been set."""
    db.execute(delete(table).where(table.c.name == name))


def settings(db: Connection) -> dict[str, Any]:
    """All of them by name."""
    wanted = select(table.c.name, table.c.value).order_by(table.c.name)
    return {row.name: row.value for row in db.execute(wanted)}
