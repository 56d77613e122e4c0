"""Private keys, as rows in a file that its owner alone may read."""
from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from sqlalchemy import Connection, delete, select

from app.storage.tables import key as table
from app.storage.upsert import put

COACH = "coach"


@dataclass(frozen=True)
class StoredKeyPair:
    """One pair of raw keys. `owner` is a person's id or `COACH`; `kind` names the purpose, such as `signing`.

    `private` is empty where only the public half stays here, as of a recovery key.
    """

    owner: str
    kind: str
    private: bytes = field(repr=False)
    public: bytes
    made: datetime


def keep_keys(db: Connection, pair: StoredKeyPair) -> StoredKeyPair:
    """Keeps a pair if the owner has none of that kind, and returns the one that is kept: keys are never lost."""
    known = keys(db, pair.owner, pair.kind)
    return known if known is not None else replace_keys(db, pair)


def replace_keys(db: Connection, pair: StoredKeyPair) -> StoredKeyPair:
    """Keeps a pair in place of the old one, after a restore or an announced change of keys."""
    put(db, table, {
        "owner": pair.owner, "kind": pair.kind, "private": pair.private, "public": pair.public, "made_utc": pair.made,
    })
    return pair


def forget_keys(db: Connection, owner: str) -> None:
    """Every pair of that owner goes."""
    db.execute(delete(table).where(table.c.owner == owner))


def keys(db: Connection, owner: str, kind: str) -> StoredKeyPair | None:
    """The pair of that kind, or None."""
    row = db.execute(select(table).where(table.c.owner == owner, table.c.kind == kind)).one_or_none()
    return None if row is None else StoredKeyPair(row.owner, row.kind, row.private, row.public, row.made_utc)


def keys_of_kind(db: Connection, kind: str) -> tuple[StoredKeyPair, ...]:
    """Everybody's pairs of that kind on this machine."""
    rows = db.execute(select(table).where(table.c.kind == kind).order_by(table.c.owner))
    return tuple(StoredKeyPair(row.owner, row.kind, row.private, row.public, row.made_utc) for row in rows)
