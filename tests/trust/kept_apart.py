"""A desk and a phone that take in what they are given, and can be asked what they hold."""
from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from functools import cached_property

from app.actions import people
from app.actions.desk import intake
from app.actions.files import messages, programmes
from app.device.clock import ManualClock
from app.domain.model.person import Person
from app.storage import keys, packs
from app.storage import people as rows
from app.storage.database import Connection, Store, open_store
from app.storage.export import logical_dump
from app.storage.keys import COACH as COACHES
from app.storage.people import Trains
from tests.exchange.fixed import ADA, CLIENT, COACH, NOW, SOURCE, run


def _kept(db: Connection, owner: str, kind: str, private: bytes, public: bytes) -> None:
    keys.keep_keys(db, keys.StoredKeyPair(owner, kind, private, public, NOW))


class OnDevices:
    """Stores in memory, made when they are first asked for and again after something was taken in."""

    def __init__(self) -> None:
        self.clock = ManualClock(datetime(2026, 3, 3, 7, 30, tzinfo=UTC))

    @cached_property
    def desk(self) -> Store:
        """A coach's, with keys and nobody in it."""
        store = open_store("sqlite://")
        with store.begin() as db:
            _kept(db, COACHES, "signing", COACH.signing.private, COACH.signing.public)
            _kept(db, COACHES, "sealing", COACH.sealing.private, COACH.sealing.public)
        return store

    @cached_property
    def phone(self) -> Store:
        """Ada's, who follows the coach."""
        store = open_store("sqlite://")
        with store.begin() as db:
            rows.add_person(db, _following(ADA), Trains.HERE, NOW)
            for kind, pair in (("signing", CLIENT.signing), ("sealing", CLIENT.sealing)):
                _kept(db, ADA.id, kind, pair.private, pair.public)
            packs.save_coach(db, packs.StoredCoach(
                COACH.signing.public.hex(), SOURCE.coach, COACH.sealing.public.hex(),
                (COACH.recovery_signing.hex(), COACH.recovery_sealing.hex()), NOW))
        people.choose_person(store, ADA.id)
        return store

    def take_return(self, data: bytes) -> None:
        """At the desk; raises what it was refused with."""
        taken = run(intake.take_in(self.desk, self.clock, [("file", data)]))[0]
        if taken.error is not None:
            raise taken.error
        del self.desk

    def take_reply(self, data: bytes) -> None:
        """On the phone."""
        run(messages.receive(self.phone, self.clock, ADA.id, data, "file"))
        del self.phone

    def take_pack(self, data: bytes) -> None:
        """On the phone, with its words compared."""
        opened = run(programmes.open_pack(self.phone, self.clock, "file", data))
        programmes.accept_pack(self.phone, self.clock, ADA.id, opened)
        del self.phone

    def desk_dump(self) -> str:
        """All that the desk holds."""
        return _dump(self.desk)

    def phone_dump(self) -> str:
        """All that the phone holds."""
        return _dump(self.phone)


def _following(person: Person) -> Person:
    return replace(person, coach_key=COACH.signing.public.hex())


def _dump(store: Store) -> str:
    with store.read() as db:
        return logical_dump(db)
