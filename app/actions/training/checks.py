"""A functional check's result, kept as any other record."""
from __future__ import annotations

from dataclasses import replace

from app.actions.new_stamp import new_stamp
from app.device.clock import Clock
from app.domain.model.diary import AnsweredBy
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, FunctionalCheck
from app.storage import people, records
from app.storage.database import Store


def keep_check(store: Store, clock: Clock, person: Person, check: FunctionalCheck, *, stands: int | None = None,
               time_ms: int | None = None, side: str = "", hands_used: bool = False, aid: bool = False,
               seat_cm: int | None = None) -> CheckDone:
    """Keeps a result: stands in 30 s, or ms on one leg or of a walk; of a chair, the height of its seat."""
    by = AnsweredBy.LEADER if person.led_by else AnsweredBy.SELF
    done = CheckDone(new_stamp(clock, person.id), check, stands, time_ms, side, hands_used, aid, by, seat_cm=seat_cm)
    with store.begin() as db:
        return records.save_record(db, done)


def tell_sex(store: Store, person: Person, sex: str) -> Person:
    """`woman`, `man` or nothing: for the coach's published figures alone."""
    told = replace(person, sex=sex)
    with store.begin() as db:
        people.save_person(db, told)
    return told
