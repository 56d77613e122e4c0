"""This morning's answers, kept with the level that they led to."""
from __future__ import annotations

from dataclasses import replace

from app.actions.new_stamp import new_stamp
from app.actions.training.today import Today, card_in
from app.device.clock import Clock
from app.domain.dosing.screening import symptoms_of
from app.domain.dosing.way_back import yes_from
from app.domain.model.level import Level
from app.domain.model.plan import Dose
from app.domain.model.record import CheckIn, Clearance
from app.domain.model.rules import RuleId
from app.storage import people, records
from app.storage.database import Connection, Store

#: Whose yes is the stronger, weakest first.
YES_ORDER = ("self", "coach", "clinician")


def stopped_by(dose: Dose) -> str:
    """Where there is a stop, what stopped them: the symptom or the rule whose yes is the hardest to get."""
    found = []
    for reason in dose.reasons:
        if reason.level >= Level.ASK_FIRST:
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
    """Keeps the answers with the amount that they led to, and returns today's card."""
    with store.begin() as db:
        return decided_in(db, clock, answers)


def decided_in(db: Connection, clock: Clock, answers: CheckIn) -> Today:
    """The same within a transaction: answers without their level would be a stop that nothing knows of."""
    saved = records.save_record(db, answers)
    card = card_in(db, clock, answers.stamp.person)
    if card.timeline is None or card.check_in is None:
        return card
    dose = card.timeline.dose
    decided = replace(saved, level=dose.level, carried=dose.carried, stopped_by=stopped_by(dose))
    records.save_record(db, decided)
    return card_in(db, clock, answers.stamp.person)


def record_yes(store: Store, clock: Clock, person_id: str, answers: str, who: str, kind: str) -> None:
    """Keeps a yes to a stop: who said it and of what kind (`self`, `coach` or a clinician's profession)."""
    with store.begin() as db:
        keep_yes(db, clock, person_id, answers, who, kind)


def keep_yes(db: Connection, clock: Clock, person_id: str, answers: str, who: str, kind: str) -> None:
    """The same within a transaction."""
    records.save_record(db, Clearance(new_stamp(clock, person_id), answers, who.strip(), kind.strip()))


def record_screening(store: Store, clock: Clock, person_id: str) -> None:
    """The stop questions were answered with "no" today."""
    with store.begin() as db:
        person = people.person(db, person_id)
        if person is not None:
            people.save_person(db, replace(person, screened=clock.local(clock.now()).day))


