"""Where a session stands still for a tap: counted movements if it was set so, and "all right?" of who is alone."""
from __future__ import annotations

from enum import StrEnum

from app.domain.model.record import Person
from app.domain.player.tap_gates import Wait
from app.storage import settings
from app.storage.database import Store

COUNTED = "counted_movements"
"""Name of the setting."""


class Counting(StrEnum):
    """How counted movements end."""

    TIME = "time"
    """After the time that they take at their tempo."""
    TAP = "tap"
    """When it is said that they are done."""


def counting(store: Store) -> Counting:
    """As set on this device."""
    with store.read() as db:
        return Counting(settings.setting(db, COUNTED, Counting.TIME))


def choose_counting(store: Store, chosen: Counting) -> None:
    """From the next session on."""
    with store.begin() as db:
        settings.save_setting(db, COUNTED, chosen)


def waits_of(store: Store, person: Person) -> frozenset[Wait]:
    """What a session of this person waits for."""
    found = {Wait.COUNT} if counting(store) is Counting.TAP else set()
    if person.body.alone and not person.led_by:
        found.add(Wait.ALL_RIGHT)
    return frozenset(found)
