"""Something that happened around the sessions: written down with what follows from it, and undone."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.actions.new_stamp import new_stamp
from app.device.clock import Clock
from app.domain.dosing import events as rules
from app.domain.model.client import Condition
from app.domain.model.diary import AnsweredBy
from app.domain.model.person import Person
from app.domain.model.record import Event, EventKind
from app.storage import people, records
from app.storage.database import Store

#: What a medicine says about a body.
MEDICINE_CONDITIONS: Mapping[str, Condition] = {
    "slows_heart": Condition.BETA_BLOCKER, "insulin": Condition.INSULIN,
}


@dataclass(frozen=True)
class Noted:
    """What was written down, and the person before it and since."""

    event: Event
    before: Person
    person: Person


def _blank(clock: Clock, person: Person, kind: EventKind) -> Event:
    by = AnsweredBy.LEADER if person.led_by else AnsweredBy.SELF
    return Event(new_stamp(clock, person.id), kind, answered_by=by)


def _kept(store: Store, event: Event, before: Person, person: Person) -> Noted:
    with store.begin() as db:
        saved = records.save_record(db, event)
        if person != before:
            people.save_person(db, person)
    return Noted(saved, before, person)


def _with_conditions(person: Person, *more: Condition) -> Person:
    return replace(person, body=replace(person.body, conditions=person.body.conditions | set(more)))


def note_fall(
    store: Store, clock: Clock, person: Person, day: date, answers: Mapping[str, bool], note: str = ""
) -> Noted:
    """A fall with its answers; stops what has to be asked about first. Who could not get up gets no floor work."""
    event = replace(_blank(clock, person, EventKind.FALL), since=day, answers=dict(answers), note=note.strip(),
                    stopped_by=rules.stop_after_fall(answers))
    after = person
    if answers.get(rules.ROSE) is False:
        after = _with_conditions(person, Condition.CANNOT_RISE)
        after = replace(after, body=replace(after.body, rises_unaided=False))
    return _kept(store, event, person, after)


def hold_on(store: Store, noted: Noted) -> Noted:
    """From now on balance only with a hand on something, as after any fall in the last year."""
    person = _with_conditions(noted.person, Condition.FALLS)
    with store.begin() as db:
        people.save_person(db, person)
    return replace(noted, person=person)


def note_illness(store: Store, clock: Clock, person: Person, what: str, *, fever: bool) -> Noted:
    """An illness; a fever stops until it has been gone for two days."""
    answers = {rules.FEVER: fever}
    event = replace(_blank(clock, person, EventKind.ILLNESS), what=what, answers=answers,
                    stopped_by=rules.stop_after_illness(answers))
    return _kept(store, replace(event, since=event.stamp.local), person, person)


def note_medicine(store: Store, clock: Clock, person: Person, what: str) -> Noted:
    """A medicine that is new or changed, with what it says about the body."""
    event = replace(_blank(clock, person, EventKind.MEDICINE), what=what)
    condition = MEDICINE_CONDITIONS.get(what)
    return _kept(store, event, person, _with_conditions(person, condition) if condition else person)


def note_activity(store: Store, clock: Clock, person: Person, what: str, minutes: int, day: date) -> Noted:
    """Moving about other than in a session, on a day."""
    event = replace(_blank(clock, person, EventKind.ACTIVITY), what=what, minutes=minutes, since=day)
    return _kept(store, event, person, person)


def note_pause(store: Store, clock: Clock, person: Person, first: date, days: int) -> Noted:
    """No sessions for so many days on purpose, at most `rules.LONGEST_PAUSE`."""
    last = first + min(timedelta(days=days), rules.LONGEST_PAUSE) - timedelta(days=1)
    event = replace(_blank(clock, person, EventKind.PAUSE), since=first, until=last)
    return _kept(store, event, person, person)


def end_pause(store: Store, clock: Clock, pause: Event) -> None:
    """They are back: the pause ended yesterday; one that began today, or not yet, is taken back."""
    today = clock.local(clock.now()).day
    first = pause.since or pause.stamp.local
    with store.begin() as db:
        if first >= today:
            records.take_back(db, pause.stamp.person, pause.stamp.id)
        else:
            records.save_record(db, replace(pause, until=today - timedelta(days=1)))


def note_goal(store: Store, clock: Clock, person: Person, what: str, goal: str) -> Noted:
    """Goals written down (`set`, `changed`) or looked at again (`kept`, `reached`)."""
    event = replace(_blank(clock, person, EventKind.GOAL), what=what, note=goal.strip())
    changed = what in (rules.SET, rules.CHANGED)
    return _kept(store, event, person, replace(person, goals=goal.strip()) if changed else person)


def undo(store: Store, noted: Noted) -> None:
    """Takes the event back, and from the person what it changed; anything else that was changed since stays."""
    before = noted.before
    with store.begin() as db:
        records.take_back(db, before.id, noted.event.stamp.id)
        now = people.person(db, before.id)
        if now is not None and noted.person != before:
            body = replace(now.body, conditions=before.body.conditions, rises_unaided=before.body.rises_unaided)
            people.save_person(db, replace(now, goals=before.goals, body=body))
