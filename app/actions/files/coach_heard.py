"""Who the coach is, and whether they have heard of something: by what was sent, and the messages that came since."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from app.domain.model.person import Person
from app.storage import packs, records, replies, settings
from app.storage.codec import parse_utc
from app.storage.database import Connection, Store
from app.storage.packs import StoredCoach
from app.storage.replies import Direction


@dataclass(frozen=True)
class CoachHeard:
    """When it went to the coach, and when they wrote back; None: not yet. Whether they read it, nobody knows here."""

    sent: datetime | None = None
    answered: datetime | None = None
    is_kept_back: bool = False
    """It is of a kind that the person did not agree to send."""


def coach_of(store: Store, person: Person) -> StoredCoach | None:
    """The coach whose programme they follow, or None."""
    with store.read() as db:
        return packs.pinned_coach(db, person.coach_key) if person.coach_key else None


def heard_of_record(store: Store, person: Person, record_id: str) -> CoachHeard:
    """Of one record, whatever was corrected in it since."""
    from app.exchange.letters.agreed_records import agreed_records  # Today does without the letters until a stop

    with store.read() as db:
        record = records.record(db, person.id, record_id)
        if record is None:
            return CoachHeard()
        if not agreed_records(person, [record]):
            return CoachHeard(is_kept_back=True)
        kept = _sent_to(db, person)
        return _since(db, person, kept["utc"]) if record_id in kept.get("revisions", {}) else CoachHeard()


def heard_of_screening(store: Store, person: Person) -> CoachHeard:
    """Of the questions about health that were ticked and wait for a go-ahead."""
    with store.read() as db:
        kept = _sent_to(db, person)
        told = person.waiting and person.waiting <= set(kept.get("waits", ()))
        return _since(db, person, kept["utc"]) if told else CoachHeard()


def _sent_to(db: Connection, person: Person) -> dict[str, Any]:
    """What was sent last, empty if that was to a coach of before."""
    kept: dict[str, Any] = settings.setting(db, f"sent:{person.id}") or {}
    mine = {"", person.coach_key, *packs.replaced_by(db, person.coach_key)}
    return kept if kept.get("coach", "") in mine else {}


def _since(db: Connection, person: Person, utc: object) -> CoachHeard:
    sent = parse_utc(str(utc))
    mine = {"", person.coach_key, *packs.replaced_by(db, person.coach_key)}
    made = (parse_utc(str(r.content["made_utc"])) for r in replies.replies(db, person.id, Direction.RECEIVED)
            if r.signer in mine and "made_utc" in r.content)
    return CoachHeard(sent, min((when for when in made if when >= sent), default=None))
