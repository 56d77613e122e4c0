"""Noting something around the sessions, what follows from it, and undoing it."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from app.actions.training import events
from app.actions.training.checks import keep_check, tell_sex
from app.device.clock import ManualClock
from app.domain.dosing.events import pause_on
from app.domain.dosing.way_back import way_back
from app.domain.model.client import Client, Condition
from app.domain.model.diary import AnsweredBy
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, Event, EventKind, FunctionalCheck
from app.storage import people, records
from app.storage.database import Store
from app.storage.people import Trains

WELL = {"head": False, "thinners": False, "hurts": False, "rose": True}


@pytest.fixture
def ada(store: Store, clock: ManualClock) -> Person:
    """Somebody who trains here."""
    person = Person("ada", "Ada", body=Client(conditions=frozenset({Condition.VERTIGO})), goals="reach the top shelf")
    with store.begin() as db:
        people.add_person(db, person, Trains.HERE, clock.now())
    return person


def kept(store: Store) -> Person:
    """As she is kept now."""
    with store.read() as db:
        found = people.person(db, "ada")
    assert found is not None
    return found


def told(store: Store) -> tuple[Event, ...]:
    """Her events that count."""
    with store.read() as db:
        return records.records(db, "ada", Event)


def test_a_fall_without_harm_stops_nobody_and_changes_nothing(store: Store, clock: ManualClock, ada: Person) -> None:
    """It is written down, on its day."""
    day = clock.local(clock.now()).day - timedelta(days=1)
    noted = events.note_fall(store, clock, ada, day, WELL, " on the step ")
    assert told(store) == (noted.event,) and kept(store) == ada
    assert (noted.event.since, noted.event.stopped_by, noted.event.note) == (day, "", "on the step")
    assert noted.event.answered_by is AnsweredBy.SELF


def test_a_knock_to_the_head_stops_and_getting_up_alone_is_remembered(
    store: Store, clock: ManualClock, ada: Person
) -> None:
    """Nothing on the floor from now on; undone, all is as before."""
    noted = events.note_fall(store, clock, ada, clock.local(clock.now()).day, {**WELL, "head": True, "rose": False})
    assert way_back(told(store)).stop is not None
    body = kept(store).body
    assert Condition.CANNOT_RISE in body.conditions and not body.rises_unaided
    events.undo(store, noted)
    assert kept(store) == ada and told(store) == () and way_back(told(store)).stop is None


def test_balance_with_a_hold_comes_only_when_it_is_said(store: Store, clock: ManualClock, ada: Person) -> None:
    """And goes with the fall when that is undone; what else changed since stays."""
    noted = events.note_fall(store, clock, ada, clock.local(clock.now()).day, WELL)
    assert Condition.FALLS not in kept(store).body.conditions
    noted = events.hold_on(store, noted)
    assert kept(store).body.conditions == {Condition.VERTIGO, Condition.FALLS}
    with store.begin() as db:
        people.save_person(db, replace(kept(store), name="Ada B."))
    events.undo(store, noted)
    assert kept(store) == replace(ada, name="Ada B.")


def test_whoever_leads_answers_as_the_leader(store: Store, clock: ManualClock, ada: Person) -> None:
    """So that nobody moves on by another's guess."""
    led = replace(ada, led_by="Jo")
    assert events.note_illness(store, clock, led, "cold", fever=False).event.answered_by is AnsweredBy.LEADER
    assert keep_check(store, clock, led, FunctionalCheck.CHAIR_STAND, stands=8).answered_by is AnsweredBy.LEADER


def test_a_fever_stops_and_a_cold_does_not(store: Store, clock: ManualClock, ada: Person) -> None:
    """Each with its day."""
    assert events.note_illness(store, clock, ada, "cold", fever=False).event.stopped_by == ""
    assert events.note_illness(store, clock, ada, "cold", fever=True).event.stopped_by == "fever"
    assert {e.since for e in told(store)} == {clock.local(clock.now()).day}


@pytest.mark.parametrize(("what", "condition"), [
    ("slows_heart", Condition.BETA_BLOCKER), ("insulin", Condition.INSULIN), ("thins_blood", None)])
def test_a_medicine_says_what_it_says_about_the_body(
    store: Store, clock: ManualClock, ada: Person, what: str, condition: Condition | None
) -> None:
    """And nothing else."""
    noted = events.note_medicine(store, clock, ada, what)
    assert kept(store).body.conditions == {Condition.VERTIGO, *([condition] if condition else [])}
    events.undo(store, noted)
    assert kept(store) == ada


def test_a_pause_has_an_end_and_may_end_before(store: Store, clock: ManualClock, ada: Person) -> None:
    """Never longer than eight weeks; ended on its first day it is as if there had been none."""
    today = clock.local(clock.now()).day
    pause = events.note_pause(store, clock, ada, today, 14).event
    assert (pause.since, pause.until) == (today, today + timedelta(days=13))
    assert events.note_pause(store, clock, ada, today, 400).event.until == today + timedelta(days=55)
    events.end_pause(store, clock, pause)
    assert pause.stamp.id not in {e.stamp.id for e in told(store)}


def test_a_pause_that_is_under_way_ended_yesterday(store: Store, clock: ManualClock, ada: Person) -> None:
    """Its record says so, as its next revision."""
    today = clock.local(clock.now()).day
    pause = events.note_pause(store, clock, ada, today - timedelta(days=3), 14).event
    assert pause_on(told(store), today) is not None
    events.end_pause(store, clock, pause)
    assert pause_on(told(store), today) is None
    ended, = told(store)
    assert (ended.until, ended.stamp.revision) == (today - timedelta(days=1), pause.stamp.revision + 1)


def test_goals_are_kept_in_own_words_and_come_back(store: Store, clock: ManualClock, ada: Person) -> None:
    """Looking at them again changes nothing; a new one replaces the old; undone, the old one stands."""
    assert events.note_goal(store, clock, ada, "reached", ada.goals).person == ada
    noted = events.note_goal(store, clock, ada, "changed", "  row across the harbour ")
    assert kept(store).goals == "row across the harbour" == noted.event.note
    events.undo(store, noted)
    assert kept(store) == ada
    assert {e.kind for e in told(store)} == {EventKind.GOAL}


def test_moving_about_is_kept_with_its_day(store: Store, clock: ManualClock, ada: Person) -> None:
    """Minutes and what it was."""
    yesterday = clock.local(clock.now()).day - timedelta(days=1)
    event = events.note_activity(store, clock, ada, "walk", 45, yesterday).event
    assert (event.what, event.minutes, event.since) == ("walk", 45, yesterday)


def test_a_check_is_kept_as_it_was_done(store: Store, clock: ManualClock, ada: Person) -> None:
    """With the leg, the stick and the hands."""
    keep_check(store, clock, ada, FunctionalCheck.ONE_LEG, time_ms=8_300, side="left")
    keep_check(store, clock, ada, FunctionalCheck.CHAIR_STAND, stands=7, hands_used=True)
    keep_check(store, clock, ada, FunctionalCheck.WALK, time_ms=9_900, aid=True)
    with store.read() as db:
        found = {c.check: c for c in records.records(db, "ada", CheckDone)}
    assert (found[FunctionalCheck.ONE_LEG].side, found[FunctionalCheck.ONE_LEG].time_ms) == ("left", 8_300)
    assert (found[FunctionalCheck.CHAIR_STAND].stands, found[FunctionalCheck.CHAIR_STAND].hands_used) == (7, True)
    assert found[FunctionalCheck.WALK].aid is True
    assert tell_sex(store, ada, "woman") == kept(store)
