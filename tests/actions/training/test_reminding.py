"""A notice for a session that is due: asked for, once a day, and never while something forbids a session."""
from __future__ import annotations

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from app.actions.training import reminding
from app.actions.training.planning import choose_day
from app.actions.training.reminding import choose_remind_hour, take_due
from app.actions.training.today import today
from app.device.abilities import Ability
from app.device.clock import ManualClock
from app.device.recording import RecordingDevice
from app.domain.branding.brand import EVENLOAD
from app.domain.model.person import Person
from app.storage.database import Store
from app.ui.shell.reminder import keep_reminding
from tests.actions.at_home import Home, home

MORNING = datetime(2026, 3, 2, 9, tzinfo=UTC)


@pytest.fixture
def here(tmp_path: Path) -> Iterator[Home]:
    """Somebody who follows the shipped programme and has not begun it."""
    made = home(tmp_path, ManualClock(MORNING))
    yield made
    made.store.close()
    made.desk.close()


@pytest.fixture
def person(here: Home) -> Person:
    return here.person


@pytest.fixture
def store(here: Home) -> Store:
    return here.store


def test_nobody_is_reminded_who_did_not_ask(store: Store, person: Person) -> None:
    """Off on a new device."""
    assert take_due(store, ManualClock(MORNING)) == ""


def test_it_comes_once_a_day_from_the_hour_that_was_chosen(store: Store, person: Person) -> None:
    """Not before it, not twice, and on the next day again."""
    choose_remind_hour(store, 10)
    clock = ManualClock(MORNING)
    assert take_due(store, clock) == ""
    asyncio.run(clock.advance(3_600))
    card = today(store, clock, person.id)
    assert card.session
    assert take_due(store, clock) == card.session.name
    assert take_due(store, clock) == ""
    asyncio.run(clock.advance(24 * 3_600))
    assert take_due(store, clock)


def test_a_day_that_was_chosen_is_waited_for(store: Store, person: Person) -> None:
    """The day after tomorrow means: not today."""
    choose_remind_hour(store, 8)
    clock = ManualClock(MORNING)
    card = today(store, clock, person.id)
    assert card.programme and card.due
    choose_day(store, person, card.programme.id, card.due, card.day + timedelta(days=2))
    assert take_due(store, clock) == ""
    asyncio.run(clock.advance(48 * 3_600))
    assert take_due(store, clock)


def test_the_hour_is_that_of_the_place_where_one_is(store: Store, person: Person) -> None:
    """9:00 in London is 11:00 two hours further east."""
    choose_remind_hour(store, 10)
    assert take_due(store, ManualClock(MORNING, offset_min=120))


@pytest.mark.parametrize("lacks", [set(), {Ability.NOTICES}])
def test_the_recording_device_is_shown_one_notice_and_a_lack_of_notices_is_no_fault(
    store: Store, person: Person, device: RecordingDevice, lacks: set[Ability], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Recording twin: shown once in three hours of looking each minute; where it lacks, nothing happens at all."""
    choose_remind_hour(store, 8)
    device.record.lacks |= lacks
    clock = ManualClock(MORNING)

    class Wired:
        def __init__(self) -> None:
            self.store, self.clock, self.device, self.brand = store, clock, device, EVENLOAD

    async def story() -> None:
        task = asyncio.create_task(keep_reminding(Wired()))  # type: ignore[arg-type]
        await clock.advance(3 * 3_600)
        task.cancel()

    asyncio.run(story())
    assert len(device.asked(Ability.NOTICES)) == (0 if lacks else 1)
    assert reminding.remind_hour(store) == 8
