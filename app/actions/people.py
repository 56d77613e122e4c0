"""Somebody new on this device, what is known of them, and whose turn it is."""
from __future__ import annotations

import uuid
from dataclasses import replace

from app.device.clock import Clock
from app.domain.branding.brand import Role as Role
from app.domain.model.client import Place
from app.domain.model.person import Person
from app.storage import people, settings
from app.storage.database import Connection, Store
from app.storage.people import Trains

ROLE, CHOSEN = "role", "person"


def register(store: Store, clock: Clock, person: Person) -> Person:
    """Adds somebody who trains here, with an id of their own, and makes it their turn."""
    with store.begin() as db:
        return register_in(db, clock, person)


def register_in(db: Connection, clock: Clock, person: Person) -> Person:
    """The same within a transaction."""
    added = replace(person, id=uuid.uuid4().hex)
    people.add_person(db, added, Trains.HERE, clock.now())
    settings.save_setting(db, CHOSEN, added.id)
    settings.save_setting(db, ROLE, Role.HELPER if added.led_by else Role.CLIENT)
    return added


def choose_role(store: Store, role: Role) -> None:
    """Which side of the app this device shows at start."""
    with store.begin() as db:
        settings.save_setting(db, ROLE, role)


def choose_person(store: Store, person_id: str) -> None:
    """Whose turn it is."""
    with store.begin() as db:
        person = people.person(db, person_id)
        settings.save_setting(db, CHOSEN, person_id)
        settings.save_setting(db, ROLE, Role.HELPER if person and person.led_by else Role.CLIENT)


def current_role(store: Store) -> Role | None:
    """The side shown at start, or None on a fresh device."""
    with store.read() as db:
        role = settings.setting(db, ROLE)
    return Role(role) if role else None


def chosen_id(store: Store) -> str:
    """The id of whose turn it is; empty for nobody."""
    with store.read() as db:
        return str(settings.setting(db, CHOSEN) or "")


def current_person(store: Store) -> Person | None:
    """Whose turn it is, or None."""
    with store.read() as db:
        chosen = settings.setting(db, CHOSEN)
        return people.person(db, chosen) if chosen else None


def change_person(store: Store, person: Person) -> Person:
    """Keeps what was changed about somebody."""
    with store.begin() as db:
        people.save_person(db, person)
    return person


def choose_place(store: Store, person: Person, name: str) -> Person:
    """Where they are today."""
    return change_person(store, replace(person, place=name))


def change_place(store: Store, person: Person, place: Place) -> Person:
    """Keeps a place, new or changed, under its name."""
    others = tuple(p for p in person.places if p.name != place.name)
    kept = tuple(place if p.name == place.name else p for p in person.places)
    return change_person(store, replace(person, places=kept if len(others) < len(person.places) else (*kept, place)))


def leave(store: Store) -> None:
    """Nobody's turn: the next start asks who is here."""
    with store.begin() as db:
        settings.forget_setting(db, CHOSEN)
        settings.forget_setting(db, ROLE)
