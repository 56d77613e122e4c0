"""A PIN on a shared device: given, wrong, changed, forgotten."""
from __future__ import annotations

from datetime import timedelta

import pytest

from app.actions import pins
from app.actions.erasing import erase
from app.actions.pin_locks import DESK, has_pin, is_training, locked_person
from app.domain.errors import AppError, EasyPin, PinWaits, WrongPin
from app.exchange.crypto.pin import FREE_TRIES
from app.storage import settings
from tests.actions.at_home import Home
from tests.exchange.fixed import run

PIN = "4719"


@pytest.fixture
def locked(at_home: Home) -> Home:
    """Whoever trains here has one."""
    run(pins.choose_pin(at_home.store, at_home.person.id, PIN))
    return at_home


def give(home: Home, pin: str) -> object:
    """What comes of giving it: an error, or what `check_pin` gives."""
    try:
        return run(pins.check_pin(home.store, home.clock, home.person.id, pin))
    except AppError as error:
        return error


def test_it_stands_before_its_owners_pages_alone(locked: Home) -> None:
    """The desk has one of its own, and a person without one is not asked."""
    assert locked_person(locked.store) == locked.person.id
    assert has_pin(locked.store, locked.person.id) and not has_pin(locked.store, DESK)
    run(pins.remove_pin(locked.store, locked.clock, locked.person.id, PIN))
    assert locked_person(locked.store) == "" and give(locked, "anything") is None


def test_a_session_under_way_is_known_without_it(locked: Home) -> None:
    """So that nobody looks for a PIN in order to stop."""
    assert not is_training(locked.store, locked.person.id)
    locked.answer()
    locked.begin()
    assert is_training(locked.store, locked.person.id)


def test_too_many_wrong_ones_wait_and_the_right_one_begins_anew(locked: Home) -> None:
    """While it waits not even the right one is tried; afterwards the count starts from nothing."""
    for _ in range(FREE_TRIES + 1):
        assert isinstance(give(locked, "4718"), WrongPin)
    told = give(locked, PIN)
    assert isinstance(told, PinWaits) and told.what == {"minutes": 1}
    run(locked.clock.advance(61))
    assert give(locked, PIN) is None
    assert isinstance(give(locked, "4718"), WrongPin) and give(locked, PIN) is None


def test_a_clock_that_was_set_back_keeps_nobody_out_for_long(locked: Home) -> None:
    """A wait that would last longer than any is none."""
    for _ in range(FREE_TRIES + 1):
        give(locked, "4718")
    run(locked.clock.advance(-timedelta(days=1).total_seconds()))
    assert give(locked, PIN) is None


def test_a_change_that_is_refused_leaves_the_old_one(locked: Home) -> None:
    """Too easy, or removed with the wrong one."""
    with pytest.raises(EasyPin):
        run(pins.choose_pin(locked.store, locked.person.id, "1111"))
    with pytest.raises(WrongPin):
        run(pins.remove_pin(locked.store, locked.clock, locked.person.id, "1112"))
    assert give(locked, PIN) is None


def test_a_forgotten_one_goes_after_a_day_and_its_owner_is_told(locked: Home) -> None:
    """Asking twice makes it no sooner; the right PIN calls it off and says that somebody asked."""
    asked = locked.clock.now()
    def until() -> object:
        return pins.may_go_without(locked.store, locked.person.id)

    pins.ask_without(locked.store, locked.clock, locked.person.id)
    assert until() == asked + timedelta(hours=24)
    assert give(locked, PIN) == asked
    assert until() is None and give(locked, PIN) is None
    pins.ask_without(locked.store, locked.clock, locked.person.id)
    first = until()
    run(locked.clock.advance(3600))
    pins.ask_without(locked.store, locked.clock, locked.person.id)
    assert until() == first
    assert not pins.go_without(locked.store, locked.clock, locked.person.id)
    run(locked.clock.advance(23 * 3600))
    assert pins.go_without(locked.store, locked.clock, locked.person.id)
    assert locked_person(locked.store) == ""


def test_erasing_somebody_erases_their_pin(locked: Home) -> None:
    """With every other setting of theirs."""
    erase(locked.store, locked.person.id)
    with locked.store.read() as db:
        assert not [name for name in settings.settings(db) if name.startswith("pin:")]
