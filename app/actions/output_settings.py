"""How a session is told on this device and where it waits: sound, vibration, speech, taps for counted movements."""
from __future__ import annotations

from enum import StrEnum

from app.actions.appearance import is_american
from app.device.abilities import Device
from app.domain.model.person import Person
from app.domain.player.tap_gates import Wait
from app.storage import settings
from app.storage.database import Connection, Store


class Sense(StrEnum):
    """What a session is told by, besides the screen. The values are names of settings."""

    SOUND = "sound"
    HAPTICS = "haptics"
    SPEECH = "speech"


#: On a new device.
USUAL = {Sense.SOUND: True, Sense.HAPTICS: True, Sense.SPEECH: True}
HEARD = "sound_heard"
"""Name of the setting: somebody has said that they hear it across the room."""


def senses(store: Store) -> dict[Sense, bool]:
    """Which are on."""
    with store.read() as db:
        return {sense: bool(settings.setting(db, sense, usual)) for sense, usual in USUAL.items()}


def apply_senses(store: Store, device: Device) -> None:
    """Sets the machine as chosen; at start and after each change.

    The machine's own voice speaks only for who has switched it on; recorded lines are heard unless switched off.
    """
    on = senses(store)
    with store.read() as db:
        asked_for = bool(settings.setting(db, Sense.SPEECH, False))
    device.sounds.on, device.haptics.on, device.speech.on = on[Sense.SOUND], on[Sense.HAPTICS], asked_for
    device.speech.language = "en-US" if is_american(store) else "en-GB"


def switch_on(store: Store, device: Device, sense: Sense) -> None:
    """From now on."""
    _keep(store, device, sense, True)


def switch_off(store: Store, device: Device, sense: Sense) -> None:
    """From now on."""
    _keep(store, device, sense, False)


def is_heard(store: Store) -> bool:
    """Whether the loudness was checked on this device, or there is nothing to be heard."""
    on = senses(store)
    with store.read() as db:
        return bool(settings.setting(db, HEARD, False)) or not (on[Sense.SOUND] or on[Sense.SPEECH])


def confirm_heard(store: Store) -> None:
    """It is loud enough; it is not asked again before a session."""
    with store.begin() as db:
        settings.save_setting(db, HEARD, True)


def _keep(store: Store, device: Device, sense: Sense, value: object) -> None:
    with store.begin() as db:
        settings.save_setting(db, sense, value)
    apply_senses(store, device)


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
        return _counting_in(db)


def _counting_in(db: Connection) -> Counting:
    return Counting(settings.setting(db, COUNTED, Counting.TIME))


def choose_counting(store: Store, chosen: Counting) -> None:
    """From the next session on."""
    with store.begin() as db:
        settings.save_setting(db, COUNTED, chosen)


def waits_in(db: Connection, person: Person) -> frozenset[Wait]:
    """What a session of this person waits for, as set on this device."""
    found = {Wait.COUNT} if _counting_in(db) is Counting.TAP else set()
    if person.body.alone and not person.led_by:
        found.add(Wait.ALL_RIGHT)
    return frozenset(found)
