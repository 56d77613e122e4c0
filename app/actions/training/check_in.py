"""This morning's answers, kept with the level that they led to."""
from __future__ import annotations

from dataclasses import replace

from app.actions.new_stamp import new_stamp
from app.actions.training.today import Today, today
from app.device.clock import Clock
from app.domain.dosing.history import yes_from
from app.domain.dosing.screening import symptoms_of
from app.domain.model.plan import Dose
from app.domain.model.record import CheckIn, Clearance
from app.domain.model.rules import RuleId
from app.storage import people, records
from app.storage.database import Store

STOPPED_FROM = 7
#: Whose yes is the stronger, weakest first.
YES_ORDER = ("self", "coach", "clinician")


def stopped_by(dose: Dose) -> str:
    """At level 7 or 8, what stopped them: the symptom or the rule whose yes is the hardest to get."""
    found = []
    for reason in dose.reasons:
        if reason.level >= STOPPED_FROM:
            data = dict(reason.data)
            found.append(str(data["symptom"]) if reason.rule is RuleId.SYMPTOMS else reason.rule.value)
    return max(found, key=lambda because: YES_ORDER.index(yes_from(because)), default="")


def blank_check_in(clock: Clock, person_id: str) -> CheckIn:
    """A check-in with nothing answered."""
    return CheckIn(new_stamp(clock, person_id))


def with_signs(check_in: CheckIn, signs: tuple[str, ...]) -> CheckIn:
    """The check-in with "anything new or worrying?" answered: the signs ticked, or none."""
    return replace(check_in, signs=signs, symptoms=symptoms_of(signs))


def save_check_in(store: Store, clock: Clock, answers: CheckIn) -> Today:
    """Keeps the answers, decides today's amount, and returns today's card."""
    with store.begin() as db:
        saved = records.save_record(db, answers)
    card = today(store, clock, answers.stamp.person)
    if card.timeline is None or card.check_in is None:
        return card
    dose = card.timeline.dose
    decided = replace(saved, level=dose.level, carried=dose.carried, stopped_by=stopped_by(dose))
    with store.begin() as db:
        records.save_record(db, decided)
    return today(store, clock, answers.stamp.person)


def record_yes(store: Store, clock: Clock, person_id: str, answers: str, who: str, kind: str) -> None:
    """Keeps a yes to a stop: who said it and of what kind (`self`, `coach` or a clinician's profession)."""
    with store.begin() as db:
        records.save_record(db, Clearance(new_stamp(clock, person_id), answers, who.strip(), kind.strip()))


def record_screening(store: Store, clock: Clock, person_id: str) -> None:
    """The stop questions were answered with "no" today."""
    with store.begin() as db:
        person = people.person(db, person_id)
        if person is not None:
            people.save_person(db, replace(person, screened=clock.local(clock.now()).day))


