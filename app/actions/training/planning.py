"""Which day somebody chose for a session, and what follows at the end of a programme."""
from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from app.actions.training.today import Today
from app.device.clock import Clock
from app.domain.model.person import Person
from app.domain.progress.due_session import Due
from app.domain.progress.planned_days import planned_day, with_day
from app.storage import people, settings
from app.storage.database import Connection, Store

#: The last full weeks go round again, as was chosen at the end of a programme.
AGAIN = "again"


def chosen_day(store: Store, person: Person, programme: str, due: Due | None) -> date | None:
    """The day that was chosen for a session, or None."""
    with store.read() as db:
        return chosen_day_in(db, person, programme, due)


def chosen_day_in(db: Connection, person: Person, programme: str, due: Due | None) -> date | None:
    """The same within a transaction."""
    return planned_day(settings.setting(db, _days_of(person.id), {}), programme, due)


def choose_day(store: Store, person: Person, programme: str, due: Due, day: date | None) -> None:
    """Keeps a day for a session; None: no day in particular."""
    with store.begin() as db:
        kept = settings.setting(db, _days_of(person.id), {})
        settings.save_setting(db, _days_of(person.id), with_day(kept, programme, due, day))


def is_block_open(store: Store, card: Today) -> bool:
    """Whether the programme is through and nobody has said yet what comes next."""
    if card.due is None or not card.due.repeats or card.programme is None:
        return False
    with store.read() as db:
        return bool(settings.setting(db, _block_of(card.person.id)) != [AGAIN, card.programme.id])


def take_block(store: Store, clock: Clock, card: Today, programme: str) -> Person:
    """Begins another programme of the same coach: today, or tomorrow where there was a session today already."""
    # what reads a programme file is not wanted before the first screen
    from app.actions.files import programmes

    with store.begin() as db:
        person = programmes.follow_in(db, clock, card.person.id, card.person.coach_key, programme)
        if card.done is not None:
            person = replace(person, started=card.day + timedelta(days=1))
            people.save_person(db, person)
    return person


def stay_in_block(store: Store, card: Today) -> None:
    """The last full weeks go round again."""
    if card.programme is None:
        return
    with store.begin() as db:
        settings.save_setting(db, _block_of(card.person.id), [AGAIN, card.programme.id])


def _days_of(person_id: str) -> str:
    return f"planned:{person_id}"


def _block_of(person_id: str) -> str:
    return f"block:{person_id}"
