"""Records of every kind: kept, corrected, taken back, and merged from returns and other devices.

A record is known by its person and its id. Of two states of one record the higher revision counts, and of
equal revisions the one whose content hash is greater, so that merging in any order, twice or overlapping
ends in the same store. That hash is compared whenever a record is read: one that changed on the disk is damage.
"""
from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any, TypeVar

from sqlalchemy import Connection, Select, bindparam, insert, select, update

from app.domain.model.misdated import is_misdated
from app.domain.model.plan import Dose, Timeline
from app.domain.model.record import (
    Ending,
    Record,
    SessionDone,
    Stamp,
)
from app.domain.model.record_kinds import BY_KEPT, KIND_OF
from app.storage.checked_text import unchanged
from app.storage.codec import digest, from_text, to_text
from app.storage.summaries import narrow_columns
from app.storage.tables import record as table
from app.storage.upsert import chunks

R = TypeVar("R", bound=Record)
AnyR = TypeVar("AnyR", bound=Record)
Key = tuple[str, str]
#: Asked for every return, and therefore built once.
_ADDED = insert(table)
_STATES = select(table.c.id, table.c.revision, table.c.hash).where(
    table.c.person_id == bindparam("person"), table.c.id.in_(bindparam("some", expanding=True)))


@dataclass(frozen=True)
class Merged:
    """What became of every record that was merged, by id in the order given."""

    new: tuple[str, ...] = ()
    newer: tuple[str, ...] = ()
    """Were here and are now at a later state."""
    same: tuple[str, ...] = ()
    older: tuple[str, ...] = ()
    """Left alone, since the store or the same file holds a later state."""
    misdated: tuple[str, ...] = ()
    """Of the new and the newer ones, those whose dates cannot be."""


def save_record(db: Connection, record: AnyR) -> AnyR:
    """Keeps a record of one's own as its next revision, and returns it with that number.

    A correction is the old record, changed, saved again. The person must have been added before.
    """
    key = record.stamp.person, record.stamp.id
    known = _states(db, [key]).get(key)
    revision = 1 if known is None else known[0] + 1
    saved = replace(record, stamp=replace(record.stamp, revision=revision))
    _write(db, [_row(saved)], {key} if known else set())
    return saved


def take_back(db: Connection, person_id: str, record_id: str) -> Record | None:
    """Empties a record and marks it as taken back; what remains tells other devices. None if there is none."""
    found = record(db, person_id, record_id)
    if found is None:
        return None
    empty = emptied(found)
    return save_record(db, replace(empty, stamp=replace(empty.stamp, deleted=True)))


def emptied(record: Record) -> Record:
    """The record's stamp with nothing told."""
    blank = KIND_OF[type(record)].blank(record.stamp)
    if isinstance(record, SessionDone) and isinstance(blank, SessionDone):
        plan = Timeline(record.plan.session, (), Dose(level=0, rounds=0, work=0, rest=0, load=0))
        return replace(blank, plan=plan, ending=Ending.INTERRUPTED)
    return blank


def merge_records(db: Connection, incoming: Iterable[Record], arrived: datetime | None = None, *,
                  first: bool = False) -> Merged:
    """Merges states of records, all or none with the transaction. Everybody in it must have been added before.

    Those whose dates cannot be, seen from the instant at which they `arrived`, are kept aside: whole, in the order
    of their arrival, and never read as what was told last. `first`: nothing of theirs is here yet, so none is looked
    up.
    """
    rows = [_row(r) for r in incoming]
    if arrived is not None:
        _set_aside(rows, arrived)
    known = {} if first else _states(db, list(dict.fromkeys(_key(row) for row in rows)))
    best: dict[Key, dict[str, Any]] = {}
    for row in rows:
        if _key(row) not in best or _state(row) > _state(best[_key(row)]):
            best[_key(row)] = row
    wins = {k: row for k, row in best.items() if k not in known or _state(row) > known[k]}
    _write(db, list(wins.values()), set(known))
    return _told(rows, wins, known)


def record(db: Connection, person_id: str, record_id: str) -> Record | None:
    """One record, taken back or not; None if there is none."""
    c = table.c
    wanted = select(c.kind, c.payload, c.hash).where(c.person_id == person_id, c.id == record_id)
    return next(_values(db, wanted), None)


def records(db: Connection, person_id: str, kind: type[R], since: date = date.min) -> tuple[R, ...]:
    """A person's records of one kind from a training day on, oldest first, without those taken back."""
    c = table.c
    wanted = (
        select(c.payload, c.hash)
        .where(c.person_id == person_id, c.kind == KIND_OF[kind].kept, c.deleted.is_(False), c.local_date >= since)
        .order_by(c.local_date, c.utc, c.id)
    )
    return tuple(from_text(kind, unchanged(text, told)) for text, told in db.execute(wanted))


def latest(db: Connection, person_id: str, kind: type[R], until: date = date.max) -> R | None:
    """A person's last record of one kind up to a training day, or None."""
    c = table.c
    wanted = (
        select(c.payload, c.hash)
        .where(c.person_id == person_id, c.kind == KIND_OF[kind].kept, c.deleted.is_(False), c.local_date <= until)
        .order_by(c.local_date.desc(), c.utc.desc(), c.id.desc())
        .limit(1)
    )
    found = db.execute(wanted).one_or_none()
    return None if found is None else from_text(kind, unchanged(*found))


def all_records(db: Connection, person_id: str) -> tuple[Record, ...]:
    """Everything to send or to export: all kinds, oldest first, with those taken back."""
    c = table.c
    wanted = (
        select(c.kind, c.payload, c.hash).where(c.person_id == person_id).order_by(c.local_date, c.utc, c.id)
    )
    return tuple(_values(db, wanted))


def mend_columns(db: Connection, most: int) -> int:
    """Puts what stands beside the newest `most` records right where it is not what the record says; counts those.

    Lists and the desk read these columns. No digest covers them, but what they are taken from has one.

    Raises:
        ChangedRow: a record itself has changed.
    """
    c, mended = table.c, 0
    newest = select(table).order_by(c.local_date.desc()).limit(most)
    for row in map(dict[str, Any], db.execute(newest).mappings().all()):
        said = from_text(BY_KEPT[row["kind"]].of, unchanged(row["payload"], row["hash"]))
        should = _row(said)
        if row["aside"] and is_misdated(said.stamp, row["utc"].date()):
            should |= {name: row[name] for name in ("aside", "utc", "local_date")}
        if _key(should) == _key(row) and should != row:
            db.execute(update(table).where(c.person_id == row["person_id"], c.id == row["id"]).values(**should))
            mended += 1
    return mended


def _values(db: Connection, wanted: Select[Any]) -> Iterator[Record]:
    return (from_text(BY_KEPT[kind].of, unchanged(text, told)) for kind, text, told in db.execute(wanted))


def _row(record: Record) -> dict[str, Any]:
    stamp, text = record.stamp, to_text(record)
    return {
        "person_id": stamp.person, "id": stamp.id, "kind": KIND_OF[type(record)].kept, "revision": stamp.revision,
        "utc": stamp.utc, "local_date": stamp.local, "offset_min": stamp.offset_min, "deleted": stamp.deleted,
        "payload": text, "hash": digest(text), "aside": False, **narrow_columns(record),
    }


def _set_aside(rows: list[dict[str, Any]], arrived: datetime) -> None:
    """Their narrow columns stand at the arrival, in the order of the times that they say; the payload is as it came."""
    odd = [row for row in rows if is_misdated(Stamp(row["id"], row["person_id"], row["utc"], row["local_date"], 0),
                                              arrived.date())]
    for place, row in enumerate(sorted(odd, key=lambda row: (row["utc"], row["id"]))):
        at = arrived + timedelta(microseconds=place)
        row.update(aside=True, utc=at, local_date=at.date())


def _key(row: dict[str, Any]) -> Key:
    return row["person_id"], row["id"]


def _state(row: dict[str, Any]) -> tuple[int, str]:
    return row["revision"], row["hash"]


def _states(db: Connection, keys: list[Key]) -> dict[Key, tuple[int, str]]:
    """(revision, hash) of those that are here."""
    found: dict[Key, tuple[int, str]] = {}
    by_person: dict[str, list[str]] = {}
    for person_id, record_id in keys:
        by_person.setdefault(person_id, []).append(record_id)
    for person_id, ids in by_person.items():
        for some in chunks(ids):
            rows = db.execute(_STATES, {"person": person_id, "some": some})
            found.update({(person_id, i): (revision, hash_) for i, revision, hash_ in rows})
    return found


def _write(db: Connection, rows: list[dict[str, Any]], known: set[Key]) -> None:
    fresh = [row for row in rows if _key(row) not in known]
    changed = [{f"new_{k}": v for k, v in row.items()} for row in rows if _key(row) in known]
    if fresh:
        db.execute(_ADDED, fresh)
    if changed:
        here = table.c.person_id == bindparam("new_person_id"), table.c.id == bindparam("new_id")
        values: dict[str, Any] = {k: bindparam(f"new_{k}") for k in rows[0] if k not in ("person_id", "id")}
        db.execute(update(table).where(*here).values(**values), changed)


def _told(rows: list[dict[str, Any]], wins: dict[Key, dict[str, Any]], known: dict[Key, tuple[int, str]]) -> Merged:
    told: dict[str, list[str]] = {"new": [], "newer": [], "same": [], "older": []}
    for row in rows:
        key, before = _key(row), known.get(_key(row))
        if row is wins.get(key):
            told["newer" if before else "new"].append(row["id"])
        elif _state(row) == before or (key in wins and _state(row) == _state(wins[key])):
            told["same"].append(row["id"])
        else:
            told["older"].append(row["id"])
    misdated = tuple(row["id"] for row in rows if row["aside"] and row is wins.get(_key(row)))
    return Merged(**{k: tuple(v) for k, v in told.items()}, misdated=misdated)
