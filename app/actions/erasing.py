"""Erasing: one person with all that is kept of them, or everything on this device."""
from __future__ import annotations

from app.actions.people import CHOSEN, ROLE
from app.data_folder import LOCK, WAY_IN
from app.storage import settings
from app.storage.database import Store
from app.storage.erasing import erase_everything, erase_person, sweep_after_erasing


def erase(store: Store, person_id: str) -> None:
    """Erases a person: body, diary, keys, messages, and the copies of the store that they are in. No way back.

    Raises:
        EraseUnfinished: another program reads the store; the rest is when it is opened next.
    """
    with store.begin() as db:
        erase_person(db, person_id)
        for name in settings.settings(db):
            if name.endswith(f":{person_id}"):
                settings.forget_setting(db, name)
        if settings.setting(db, CHOSEN) == person_id:
            settings.forget_setting(db, CHOSEN)
            settings.forget_setting(db, ROLE)
    sweep_after_erasing(store)


def not_ours(store: Store) -> tuple[str, ...]:
    """What lies in the data directory and was not put there by the program, by name: it stays."""
    if store.path is None:
        return ()
    ours = (store.path.name, LOCK, WAY_IN)
    found = (place.name for place in store.path.parent.iterdir())
    return tuple(sorted(name for name in found if name not in ours and not name.startswith(f"{store.path.name}")))


def erase_device(store: Store) -> None:
    """Leaves this device as if it had never been used: records, keys, copies, and what lies beside them.

    Raises:
        EraseUnfinished: another program reads the store; the rest is when it is opened next.
        NoAccess: something that lies beside cannot be deleted.
    """
    with store.begin() as db:
        erase_everything(db)
    sweep_after_erasing(store)
