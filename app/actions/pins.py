"""A PIN is chosen, asked for, changed and removed: one for each person on this device, and one for the desk."""
from __future__ import annotations

from datetime import datetime
from typing import Any

from app.actions.pin_locks import setting_of
from app.device.clock import Clock
from app.domain.errors import PinWaits, WrongPin
from app.exchange.crypto.pin import ASKED_BEFORE, LONGEST_WAIT, KeptPin, fits, kept_pin, wait_after
from app.storage import settings
from app.storage.codec import parse_utc, utc_text
from app.storage.database import Store

WRONG, UNTIL, ASKED = "wrong", "until", "asked"


async def choose_pin(store: Store, owner: str, pin: str) -> None:
    """From now on it is asked for.

    Raises:
        EasyPin: no PIN, or one that is tried first.
    """
    kept = (await kept_pin(pin)).as_json()
    with store.begin() as db:
        settings.save_setting(db, setting_of(owner), kept)


async def check_pin(store: Store, clock: Clock, owner: str, pin: str) -> datetime | None:
    """Does nothing where it is right, or where none is kept. What was asked for in its place is called off then.

    Returns:
        When somebody asked to do without it since it was last given, or None.

    Raises:
        WrongPin: it is not the one.
        PinWaits: too many were wrong; nothing was tried.
    """
    with store.begin() as db:
        kept = settings.setting(db, setting_of(owner))
        if kept is None:
            return None
        _require_no_wait(kept, clock.now())
        # counted before it is tried, so that ending the program gives no further try
        settings.save_setting(db, setting_of(owner), _one_more_wrong(kept, clock.now()))
    right = await fits(KeptPin.from_json(kept), pin)
    if not right:
        raise WrongPin()
    with store.begin() as db:
        settings.save_setting(db, setting_of(owner), {k: v for k, v in kept.items() if k not in (WRONG, UNTIL, ASKED)})
    return _asked_on(kept)


async def remove_pin(store: Store, clock: Clock, owner: str, pin: str) -> None:
    """Nothing is asked for any more.

    Raises:
        WrongPin, PinWaits: as `check_pin`.
    """
    await check_pin(store, clock, owner, pin)
    with store.begin() as db:
        settings.forget_setting(db, setting_of(owner))


def ask_without(store: Store, clock: Clock, owner: str) -> None:
    """Somebody has forgotten it. A first asking counts, not a later one."""
    with store.begin() as db:
        kept = settings.setting(db, setting_of(owner))
        asked = _asked_on(kept or {})
        if kept and (asked is None or asked > clock.now()):
            settings.save_setting(db, setting_of(owner), {**kept, ASKED: utc_text(clock.now())})


def may_go_without(store: Store, owner: str) -> datetime | None:
    """From when a forgotten one may be removed, or None where nobody asked."""
    with store.read() as db:
        asked = _asked_on(settings.setting(db, setting_of(owner)) or {})
    return asked + ASKED_BEFORE if asked else None


def go_without(store: Store, clock: Clock, owner: str) -> bool:
    """Removes a forgotten one whose time has come; gives whether it did."""
    with store.begin() as db:
        asked = _asked_on(settings.setting(db, setting_of(owner)) or {})
        if asked is None or clock.now() < asked + ASKED_BEFORE:
            return False
        settings.forget_setting(db, setting_of(owner))
    return True


def _asked_on(kept: dict[str, Any]) -> datetime | None:
    return parse_utc(kept[ASKED]) if ASKED in kept else None


def _require_no_wait(kept: dict[str, Any], now: datetime) -> None:
    until = parse_utc(kept[UNTIL]) if kept.get(UNTIL) else now
    if now < until <= now + LONGEST_WAIT:  # beyond it the clock was set back: nobody is kept out for a year
        raise PinWaits(minutes=-(-int((until - now).total_seconds()) // 60))


def _one_more_wrong(kept: dict[str, Any], now: datetime) -> dict[str, Any]:
    wrong = int(kept.get(WRONG, 0)) + 1
    return {**kept, WRONG: wrong, UNTIL: utc_text(now + wait_after(wrong))}
