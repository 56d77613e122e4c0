"""The demo's people on one device, and whose turn it is."""
from __future__ import annotations

from pathlib import Path

from app.actions import people as acting
from app.actions.people import Role
from app.domain.model.record import CheckIn, Record, SessionDone
from app.storage import people, records
from app.storage.database import Store, open_store
from app.storage.people import Trains

MAUD, RUBEN, KASIMIR = "Maud Ellery", "Ruben Falk", "Kasimir Wolny"
COACH = ""
"""Nobody's name: the coach's turn."""


class Demo:
    """The demo in a data directory, and whose turn it is."""

    def __init__(self, data: Path) -> None:
        self.data = data
        self.store: Store = open_store(data)
        with self.store.read() as db:
            self.ids = {person.name: person.id for person in people.people(db, Trains.HERE)}

    def turn_of(self, name: str) -> None:
        """Makes it somebody's turn; `COACH` for the coach."""
        if name:
            acting.choose_person(self.store, self.ids[name])
        else:
            acting.choose_role(self.store, Role.COACH)

    def last(self, name: str, kind: type[Record]) -> str:
        """The id of somebody's newest record of a kind."""
        with self.store.read() as db:
            past = records.all_records(db, self.ids[name])
        return next(record.stamp.id for record in reversed(past) if isinstance(record, kind))

    def last_session(self, name: str) -> str:
        """The id of somebody's newest session."""
        return self.last(name, SessionDone)

    def last_check_in(self, name: str) -> str:
        """The id of somebody's newest check-in."""
        return self.last(name, CheckIn)
