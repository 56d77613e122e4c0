"""The versions of a source that were handed out, whole, so that the next one can be held against them."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select

from app.domain.model.source import Source
from app.storage.codec import from_text, to_text
from app.storage.tables import published as table
from app.storage.upsert import put


@dataclass(frozen=True)
class PublishedVersion:
    """One version. `sha256` is of the signed file, hex; `note` what the coach wrote to it for clients."""

    source: Source
    sha256: str
    utc: datetime
    note: str = ""


def keep_published(db: Connection, one: PublishedVersion) -> None:
    """Keeps a version, in the place of the one of its number."""
    put(db, table, {"source": one.source.id, "version": one.source.version, "content": to_text(one.source),
                    "sha256": one.sha256, "note": one.note, "utc": one.utc})


def published_versions(db: Connection, source: str) -> tuple[PublishedVersion, ...]:
    """Every version of a source, the newest first."""
    c = table.c
    wanted = select(c.content, c.sha256, c.utc, c.note).where(c.source == source).order_by(c.version.desc())
    return tuple(PublishedVersion(from_text(Source, row.content), row.sha256, row.utc, row.note)
                 for row in db.execute(wanted))
