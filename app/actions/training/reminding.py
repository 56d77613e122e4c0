"""A notice for a session that is due: once a day, from the hour that was chosen, never while something forbids it."""
from __future__ import annotations

from app.actions.people import current_person
from app.actions.training.planning import chosen_day_in
from app.actions.training.today import Today, card_in
from app.device.clock import Clock
from app.domain.dosing.events import pause_on
from app.domain.dosing.way_back import sessions_of
from app.domain.model.thresholds import STRENGTH_GAP_DAYS
from app.storage import settings
from app.storage.database import Connection, Store

#: Settings of this device: the hour from which, 0 for never; and for a person the day on which the last notice came.
HOUR, TOLD = "remind_at", "reminded"


def remind_hour(store: Store) -> int:
    """From which hour of the day; 0: never."""
    with store.read() as db:
        return int(settings.setting(db, HOUR, 0))


def choose_remind_hour(store: Store, hour: int) -> None:
    """From now on."""
    with store.begin() as db:
        settings.save_setting(db, HOUR, hour)


def take_due(store: Store, clock: Clock) -> str:
    """The name of the session to remind of now, and notes that it was told; empty where there is none."""
    hour, person = remind_hour(store), current_person(store)
    if not hour or person is None:
        return ""
    now = clock.now()
    local = clock.local(now)
    minutes = (now.hour * 60 + now.minute + local.offset_min) % (24 * 60)
    told = f"{TOLD}:{person.id}"
    if minutes < hour * 60:
        return ""
    with store.begin() as db:
        if settings.setting(db, told, "") == local.day.isoformat():
            return ""
        card = card_in(db, clock, person.id)
        if not _is_due(db, card):
            return ""
        settings.save_setting(db, told, local.day.isoformat())
    return card.session.name if card.session else ""


def _is_due(db: Connection, card: Today) -> bool:
    if card.session is None or card.programme is None or card.done or card.stop or card.is_running:
        return False
    if card.ask_again or card.person.waiting or pause_on(card.records, card.day):
        return False
    if card.check_in is not None and card.timeline is not None and not card.timeline.dose.allows_session:
        return False
    chosen = chosen_day_in(db, card.person, card.programme.id, card.due)
    if chosen is not None:
        return chosen <= card.day
    done = [s for s in sessions_of(card.records) if s.stamp.local <= card.day]
    return not done or (card.day - done[-1].stamp.local).days >= STRENGTH_GAP_DAYS
