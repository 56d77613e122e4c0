"""What the coach did about an item of the attention list."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from sqlalchemy import Connection, delete, select

from app.storage.tables import mark as table
from app.storage.upsert import put


class MarkState(StrEnum):
    """Seen, called about, or put off until a day."""

    SEEN = "seen"
    CALLED = "called"
    LATER = "later"


@dataclass(frozen=True)
class Mark:
    """One item, known by its person, its reason and what it rests on, such as the id of a record."""

    person: str
    reason: str
    evidence: str
    state: MarkState
    utc: datetime
    until: date | None = None


def save_mark(db: Connection, mark: Mark) -> None:
    """Keeps a mark in place of an earlier one on the same item."""
    put(db, table, {
        "person_id": mark.person, "reason": mark.reason, "evidence": mark.evidence, "state": mark.state.value,
        "until": mark.until, "utc": mark.utc,
    })


def remove_mark(db: Connection, person_id: str, reason: str, evidence: str) -> None:
    """As if the item had not been looked at."""
    c = table.c
    db.execute(delete(table).where(c.person_id == person_id, c.reason == reason, c.evidence == evidence))


def marks(db: Connection) -> Mapping[tuple[str, str, str], Mark]:
    """All marks by (person, reason, evidence)."""
    c = table.c
    wanted = select(c.person_id, c.reason, c.evidence, c.state, c.utc, c.until)
    return {
        (person, reason, evidence): Mark(person, reason, evidence, MarkState(state), utc, until)
        for person, reason, evidence, state, utc, until in db.execute(wanted)
    }
