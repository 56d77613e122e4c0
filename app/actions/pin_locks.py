"""Whose PIN stands before what this device shows. Asked at every page, so nothing of cryptography is loaded for it."""
from __future__ import annotations

from app.actions.people import CHOSEN
from app.storage import journal, settings
from app.storage.database import Store

#: The owner of the PIN of the coach's desk; of a person's it is their id.
DESK = "desk"


def setting_of(owner: str) -> str:
    """Under which name a PIN is kept. Erasing a person takes all settings that end so along."""
    return f"pin:{owner}"


def has_pin(store: Store, owner: str) -> bool:
    """Whether one was chosen."""
    with store.read() as db:
        return settings.setting(db, setting_of(owner)) is not None


def locked_person(store: Store) -> str:
    """The id of whose turn it is where a PIN stands before their pages; else empty."""
    with store.read() as db:
        chosen = str(settings.setting(db, CHOSEN) or "")
        return chosen if chosen and settings.setting(db, setting_of(chosen)) is not None else ""


def is_training(store: Store, person_id: str) -> bool:
    """Whether they are in a session: nobody has to look for a PIN to go on with it, or to stop."""
    with store.read() as db:
        return journal.running(db, person_id) is not None
