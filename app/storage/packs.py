"""Packs as they came, and the coaches whose keys were agreed on."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, Select, delete, insert, select, update

from app.domain.model.source import Source
from app.storage.codec import from_text, to_text
from app.storage.read_once import ReadOnce
from app.storage.tables import pack as table
from app.storage.tables import pack_file as file_table
from app.storage.tables import pinned_coach as coach_table
from app.storage.tables import retired_coach as retired_table
from app.storage.upsert import put


@dataclass(frozen=True)
class KeptPack:
    """A verified pack. `sha256` is of the whole file, hex; the file itself: `pack_file`."""

    sha256: str
    coach_key: str
    source: Source
    imported: datetime


@dataclass(frozen=True)
class PackTitle:
    """A pack without its content."""

    sha256: str
    coach_key: str
    coach: str
    version: int
    title: str
    imported: datetime


@dataclass(frozen=True)
class StoredCoach:
    """A coach known by the keys of their first pack."""

    signing_key: str
    name: str
    sealing_key: str
    recovery_keys: tuple[str, ...]
    first_seen: datetime
    words_confirmed: bool = False
    """Whether the client has compared the matching words with the coach."""
    epoch: int = 0
    """Of the last statement by the recovery key that was believed; 0: there was none, or one without."""


def keep_pack(db: Connection, pack: KeptPack, file: bytes) -> None:
    """Keeps a pack that was verified whole; one that is here already stays as it is."""
    if is_kept(db, pack.sha256):
        return
    source = pack.source
    db.execute(insert(table).values(
        sha256=pack.sha256, coach_key=pack.coach_key, coach=source.coach, version=source.version, title=source.title,
        content=to_text(source), imported_utc=pack.imported,
    ))
    db.execute(insert(file_table).values(sha256=pack.sha256, bytes=file))


def is_kept(db: Connection, sha256: str) -> bool:
    """Whether the pack of that hash is here."""
    return db.execute(select(table.c.sha256).where(table.c.sha256 == sha256)).scalar() is not None


def pack(db: Connection, sha256: str) -> KeptPack | None:
    """The pack of that hash, or None."""
    return _first(db, _content().where(table.c.sha256 == sha256))


def newest_pack(db: Connection, coach_key: str) -> KeptPack | None:
    """The highest version of a coach's packs, the last imported of equal ones; None if there is none."""
    c = table.c
    by_age = c.version.desc(), c.imported_utc.desc(), c.sha256.desc()
    return _first(db, _content().where(c.coach_key == coach_key).order_by(*by_age).limit(1))


def packs(db: Connection) -> tuple[PackTitle, ...]:
    """All packs by coach, newest first, without their content."""
    c = table.c
    wanted = select(c.sha256, c.coach_key, c.coach, c.version, c.title, c.imported_utc)
    by_age = c.coach, c.coach_key, c.version.desc(), c.imported_utc.desc(), c.sha256
    return tuple(PackTitle(*row) for row in db.execute(wanted.order_by(*by_age)))


def pack_file(db: Connection, sha256: str) -> bytes | None:
    """The file as it came, or None."""
    return db.execute(select(file_table.c.bytes).where(file_table.c.sha256 == sha256)).scalar()


def pin_coach(db: Connection, coach: StoredCoach) -> StoredCoach:
    """Pins a coach's keys if that signing key is new, and returns what is pinned for it."""
    known = pinned_coach(db, coach.signing_key)
    if known is not None:
        return known
    save_coach(db, coach)
    return coach


def save_coach(db: Connection, coach: StoredCoach) -> None:
    """Keeps a coach as now known."""
    put(db, coach_table, {
        "signing_key": coach.signing_key, "name": coach.name, "sealing_key": coach.sealing_key,
        "recovery_keys": list(coach.recovery_keys), "words_confirmed": coach.words_confirmed,
        "first_seen_utc": coach.first_seen, "epoch": coach.epoch,
    })


def retire_coach(db: Connection, signing_key: str, replaced_by: str, utc: datetime) -> None:
    """Unpins a key that the coach has replaced, and remembers it: nothing signed with it passes ever again. Packs stay.
    """
    coach = pinned_coach(db, signing_key)
    put(db, retired_table, {"signing_key": signing_key, "name": coach.name if coach else "",
                            "replaced_by": replaced_by, "utc": utc})
    db.execute(delete(coach_table).where(coach_table.c.signing_key == signing_key))


def retired_coaches(db: Connection) -> dict[str, str]:
    """The coach's name by every signing key that was replaced."""
    c = retired_table.c
    return {row.signing_key: row.name for row in db.execute(select(c.signing_key, c.name))}


def replaced_by(db: Connection, signing_key: str) -> frozenset[str]:
    """Every earlier key of the coach whose key this is."""
    c = retired_table.c
    by = {row.signing_key: row.replaced_by for row in db.execute(select(c.signing_key, c.replaced_by))}
    found: set[str] = set()
    while more := {key for key, later in by.items() if later in {signing_key, *found}} - found:
        found |= more
    return frozenset(found)


def confirm_words(db: Connection, signing_key: str) -> None:
    """Keeps that the matching words were compared."""
    here = coach_table.c.signing_key == signing_key
    db.execute(update(coach_table).where(here).values(words_confirmed=True))


def pinned_coach(db: Connection, signing_key: str) -> StoredCoach | None:
    """The coach of that key, or None."""
    row = db.execute(select(coach_table).where(coach_table.c.signing_key == signing_key)).one_or_none()
    return None if row is None else _coach(row)


def pinned_coaches(db: Connection) -> tuple[StoredCoach, ...]:
    """All coaches by name."""
    wanted = select(coach_table).order_by(coach_table.c.name, coach_table.c.signing_key)
    return tuple(_coach(row) for row in db.execute(wanted))


def _source(db: Connection, sha256: str, content: str) -> Source:
    """Read once for each pack: it never changes, and a screen asks for it at every turn."""
    kept: ReadOnce = db.get_execution_options().get("read_once") or ReadOnce()
    return kept.value("source", (sha256, content), lambda: from_text(Source, content), most=8)


def _content() -> Select[Any]:
    return select(table.c.sha256, table.c.coach_key, table.c.content, table.c.imported_utc)


def _first(db: Connection, wanted: Select[Any]) -> KeptPack | None:
    row = db.execute(wanted).first()
    return None if row is None else KeptPack(row[0], row[1], _source(db, row[0], row[2]), row[3])


def _coach(row: Row[Any]) -> StoredCoach:
    return StoredCoach(
        signing_key=row.signing_key, name=row.name, sealing_key=row.sealing_key,
        recovery_keys=tuple(row.recovery_keys), first_seen=row.first_seen_utc, words_confirmed=row.words_confirmed,
        epoch=row.epoch,
    )
