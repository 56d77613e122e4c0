"""Days chosen for sessions, and what comes after a programme."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from app.actions import people
from app.actions.erasing import erase
from app.actions.files import programmes
from app.actions.new_stamp import new_stamp
from app.actions.training import planning
from app.actions.training.today import Today, today
from app.device.clock import ManualClock
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.programme import Programme, Week
from app.domain.model.record import DoneStep, Ending, How, SessionDone
from app.exchange.packs.pack import build_pack
from app.storage import records, settings
from app.storage.database import Store
from tests.exchange.fixed import COACH, SOURCE, run

TWO = replace(SOURCE, programmes=(
    Programme("month", "A month", (Week(("short", "short")),)), Programme("next", "The next one", (Week(("short",)),))))
PLAN = Timeline("short", (Step(StepKind.WORK, Part.MAIN, 0, 30_000, "rise", StepSide.BOTH, 1),),
                Dose(0, 2, 100, 100, 100), strength=True)


@pytest.fixture
def ada(store: Store, clock: ManualClock) -> Person:
    """Somebody who follows the first of two programmes."""
    person = people.register(store, clock, Person("", "Ada"))
    data = run(build_pack(TWO, coach=COACH))
    opened = run(programmes.open_pack(store, clock, "quay.evenload-pack", data))
    return programmes.accept_pack(store, clock, person.id, opened)


def train(store: Store, clock: ManualClock, person: Person) -> Today:
    """A whole session now."""
    done = SessionDone(new_stamp(clock, person.id), "Ten minutes", PLAN, "ab" * 32, Ending.FINISHED,
                       (DoneStep(0, "rise", 30_000, How.FULL),), 600, rpe=5, pain={})
    with store.begin() as db:
        records.save_record(db, done)
    return today(store, clock, person.id)


def later(clock: ManualClock, days: int) -> None:
    """So many days on."""
    clock.jump(days * 86_400)


def test_a_day_is_kept_until_it_is_changed(store: Store, clock: ManualClock, ada: Person) -> None:
    """For one session of one programme; erasing the person erases it."""
    card = today(store, clock, ada.id)
    assert card.due is not None
    assert planning.chosen_day(store, ada, "month", card.due) is None
    planning.choose_day(store, ada, "month", card.due, card.day + timedelta(days=2))
    assert planning.chosen_day(store, ada, "month", card.due) == card.day + timedelta(days=2)
    assert planning.chosen_day(store, ada, "next", card.due) is None
    planning.choose_day(store, ada, "month", card.due, None)
    assert planning.chosen_day(store, ada, "month", card.due) is None
    planning.choose_day(store, ada, "month", card.due, card.day)
    erase(store, ada.id)
    with store.read() as db:
        assert not [name for name in settings.settings(db) if ada.id in name]


def test_at_the_end_of_a_programme_it_is_asked_what_comes_next(store: Store, clock: ManualClock, ada: Person) -> None:
    """Not before; and no longer once the last week is to go round."""
    assert not planning.is_block_open(store, today(store, clock, ada.id))
    later(clock, 1)
    assert not planning.is_block_open(store, train(store, clock, ada))
    later(clock, 2)
    card = train(store, clock, ada)
    assert card.due is not None and card.due.repeats and planning.is_block_open(store, card)
    planning.stay_in_block(store, card)
    assert not planning.is_block_open(store, card)


@pytest.mark.parametrize(("wait", "starts_in"), [(0, 1), (2, 0)])
def test_another_programme_begins_at_its_beginning(
    store: Store, clock: ManualClock, ada: Person, wait: int, starts_in: int
) -> None:
    """What was done before does not count; a session of the same day does not either."""
    for _ in range(2):
        later(clock, 2)
        train(store, clock, ada)
    later(clock, wait)
    card = today(store, clock, ada.id)
    person = planning.take_block(store, clock, card, "next")
    assert (person.programme, person.started) == ("next", card.day + timedelta(days=starts_in))
    card = today(store, clock, ada.id)
    assert card.programme is not None and card.programme.id == "next"
    assert card.due is not None and not card.due.repeats and card.due.week == 1
    later(clock, 2)
    card = train(store, clock, ada)
    assert card.due is not None and card.due.repeats and planning.is_block_open(store, card)
