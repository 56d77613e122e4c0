"""Which sealed messages a coach has said to have sent: sealing and saving one does not send it."""
from __future__ import annotations

from datetime import datetime

from app.device.clock import Clock
from app.storage import settings
from app.storage.codec import parse_utc, utc_text
from app.storage.database import Store


def confirm_reply_sent(store: Store, clock: Clock, person_id: str, number: int) -> None:
    """The coach says that this message went out. The first time said stands."""
    with store.begin() as db:
        known = settings.setting(db, _name(person_id), {})
        settings.save_setting(db, _name(person_id), {str(number): utc_text(clock.now()), **known})


def replies_sent(store: Store, person_id: str) -> dict[int, datetime]:
    """When each message was said to be sent, by its number."""
    with store.read() as db:
        known = settings.setting(db, _name(person_id), {})
    return {int(number): parse_utc(utc) for number, utc in known.items()}


def _name(person_id: str) -> str:
    """Erased with the person, as every setting that ends so."""
    return f"replies_sent:{person_id}"
