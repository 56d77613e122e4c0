"""The stop questions: answered, waiting for a yes, or answered by one; and the yes after a stop."""
from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace

from app.actions.new_stamp import new_stamp
from app.actions.training.check_in import keep_yes
from app.device.clock import Clock
from app.domain.dosing.screening import LIST_NOW, may_start, outcome, settings_of, stopping
from app.domain.dosing.way_back import Stop
from app.domain.model.person import Person
from app.domain.model.record import Clearance
from app.storage import people, records
from app.storage.database import Store

#: What a yes answers that lets somebody begin, where no check-in or session stopped them.
SCREENING = "screening"
NOT_A_CLINICIAN = ("", "self", "coach")


def screened_person(person: Person, clock: Clock, ticked: Collection[str]) -> Person:
    """The person with every stop question answered: free to start, or waiting for a clinician's yes.

    What the ticks set is set either way, so that a yes finds it there.
    """
    answered = replace(_with_settings(person, ticked), answered_list=LIST_NOW)
    if may_start(outcome(ticked)):
        return replace(answered, screened=clock.local(clock.now()).day, waiting=frozenset())
    return replace(answered, screened=None, waiting=stopping(ticked))


def _with_settings(person: Person, ticked: Collection[str]) -> Person:
    conditions = person.body.conditions | frozenset(settings_of(ticked))
    return replace(person, body=replace(person.body, conditions=conditions))


def answer_stop_questions(store: Store, clock: Clock, person_id: str, ticked: Collection[str]) -> Person:
    """Keeps the answers to all of them.

    Raises:
        KeyError: nobody of that id.
    """
    return _keep(store, person_id, lambda person: screened_person(person, clock, ticked))


def answer_new_questions(store: Store, person_id: str, ticked: Collection[str]) -> Person:
    """Keeps the answers to what an older list lacked. The day of the older answers stays; a tick waits for a yes.

    Raises:
        KeyError: nobody of that id.
    """
    def answered(person: Person) -> Person:
        told = replace(_with_settings(person, ticked), answered_list=LIST_NOW)
        if may_start(outcome(ticked)):
            return told
        return replace(told, screened=None, waiting=person.waiting | stopping(ticked))
    return _keep(store, person_id, answered)


def _keep(store: Store, person_id: str, change: Callable[[Person], Person]) -> Person:
    with store.begin() as db:
        person = people.person(db, person_id)
        if person is None:
            raise KeyError(person_id)
        changed = change(person)
        people.save_person(db, changed)
    return changed


def record_starting_yes(store: Store, clock: Clock, person_id: str, who: str, kind: str) -> Person:
    """Keeps a clinician's yes to what was ticked, so that Start opens.

    Raises:
        KeyError: nobody of that id.
        ValueError: nobody said it, or no clinician.
    """
    if not who.strip() or kind.strip() in NOT_A_CLINICIAN:
        raise ValueError("it takes a clinician's yes")
    stamp = new_stamp(clock, person_id)
    with store.begin() as db:
        person = people.person(db, person_id)
        if person is None:
            raise KeyError(person_id)
        records.save_record(db, Clearance(stamp, SCREENING, who.strip(), kind.strip()))
        cleared = replace(person, screened=stamp.local, waiting=frozenset())
        people.save_person(db, cleared)
    return cleared


def record_stop_yes(store: Store, clock: Clock, person_id: str, stop: Stop, who: str, kind: str) -> None:
    """Keeps a yes to a stop. After one that took a clinician's, the stop questions are due again."""
    with store.begin() as db:
        keep_yes(db, clock, person_id, stop.id, who, kind)
        person = people.person(db, person_id)
        if person is not None and stop.yes_from == "clinician":
            people.save_person(db, replace(person, screened=None))
