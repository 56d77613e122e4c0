"""Sound, vibration and speech: on or off on this device."""
from __future__ import annotations

from enum import StrEnum

from app.device.abilities import Device
from app.storage import settings
from app.storage.database import Store


class Sense(StrEnum):
    """What a session is told by, besides the screen. The values are names of settings."""

    SOUND = "sound"
    HAPTICS = "haptics"
    SPEECH = "speech"


#: On a new device.
USUAL = {Sense.SOUND: True, Sense.HAPTICS: True, Sense.SPEECH: False}


def senses(store: Store) -> dict[Sense, bool]:
    """Which are on."""
    with store.read() as db:
        return {sense: bool(settings.setting(db, sense, usual)) for sense, usual in USUAL.items()}


def apply_senses(store: Store, device: Device) -> None:
    """Sets the machine as chosen; at start and after each change."""
    on = senses(store)
    device.sounds.on, device.haptics.on, device.speech.on = (
        on[Sense.SOUND], on[Sense.HAPTICS], on[Sense.SPEECH])


def switch_on(store: Store, device: Device, sense: Sense) -> None:
    """From now on."""
    _keep(store, device, sense, True)


def switch_off(store: Store, device: Device, sense: Sense) -> None:
    """From now on."""
    _keep(store, device, sense, False)


def _keep(store: Store, device: Device, sense: Sense, value: object) -> None:
    with store.begin() as db:
        settings.save_setting(db, sense, value)
    apply_senses(store, device)
