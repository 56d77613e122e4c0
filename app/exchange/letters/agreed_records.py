"""What of a person's records may leave the device: no more than they agreed to send."""
from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from app.domain.model.person import Person
from app.domain.model.plan import Reason, StepReason, Timeline
from app.domain.model.record import CheckDone, CheckIn, Clearance, Event, EventKind, Record, SessionDone
from app.domain.model.rules import RuleId

SESSIONS, PAIN, CHECK_INS, NOTES = "sessions", "pain", "check_ins", "notes"
#: Any one of these lets a record of that kind go; a kind that is not named here is never sent.
_OF_KINDS: Mapping[type[Record], frozenset[str]] = {
    CheckIn: frozenset({CHECK_INS}), SessionDone: frozenset({SESSIONS}), CheckDone: frozenset({SESSIONS}),
    Clearance: frozenset({SESSIONS, CHECK_INS}),
}
#: The same of an event, by what it is.
_OF_EVENTS: Mapping[EventKind, frozenset[str]] = {
    EventKind.FALL: frozenset({CHECK_INS}), EventKind.ILLNESS: frozenset({CHECK_INS}),
    EventKind.MEDICINE: frozenset({CHECK_INS}), EventKind.ACTIVITY: frozenset({SESSIONS}),
    EventKind.GOAL: frozenset({NOTES}), EventKind.PAUSE: frozenset({SESSIONS, CHECK_INS}),
}
#: The question after a fall that is about pain.
_HURTS = "hurts"
_HURTING = frozenset({StepReason.HURT, StepReason.PAIN})
_OF_PAIN = frozenset({RuleId.PAIN, RuleId.PAIN_RISE, RuleId.SORENESS})
_OF_CHECK_INS = _OF_PAIN | {RuleId.SYMPTOMS, RuleId.READINESS}


def agreed_person(person: Person) -> Person:
    """The person without pain where pain is not sent, and without own words where notes are not.

    Conditions, limits and areas to spare always travel: without them the coach could not write a safe session.
    """
    if PAIN not in person.sends:
        person = replace(person, body=replace(person.body, usual_pain={}))
    return person if NOTES in person.sends else replace(person, goals="")


def agreed_records(person: Person, records: Sequence[Record]) -> tuple[Record, ...]:
    """The records that they agreed to send, without the parts that they did not.

    What was taken back travels in any case, as a stamp, so that it is taken back at the coach's as well. A clearance
    goes with check-ins or sessions, a functional check with sessions. How a session ended is part of the session.
    """
    return tuple(_agreed(record, person.sends) for record in records if _is_agreed(record, person.sends))


def _is_agreed(record: Record, sends: frozenset[str]) -> bool:
    if record.stamp.deleted:
        return True
    needed = _OF_EVENTS[record.kind] if isinstance(record, Event) else _OF_KINDS.get(type(record), frozenset())
    return bool(needed & sends)


def _agreed(record: Record, sends: frozenset[str]) -> Record:
    for cut in _cuts(sends):
        record = cut(record)
    return record


def _cuts(sends: frozenset[str]) -> Iterator[Callable[[Record], Record]]:
    if PAIN not in sends:
        yield _without_pain
    if CHECK_INS not in sends:
        yield _without_check_in
    if NOTES not in sends:
        yield _without_note


def _without_pain(record: Record) -> Record:
    if isinstance(record, CheckIn):
        stopped_by = "" if record.stopped_by in _OF_PAIN else record.stopped_by
        return replace(record, pain=None, morning_after=None, soreness=None, stopped_by=stopped_by)
    if isinstance(record, SessionDone):
        plan = _without_reasons(record.plan, _OF_PAIN)
        moves = tuple(replace(m, because=StepReason.UNTOLD) if m.because in _HURTING else m for m in plan.moves)
        return replace(record, pain=None, hurts=(), plan=replace(plan, moves=moves))
    if isinstance(record, Event):
        return replace(record, answers={key: yes for key, yes in record.answers.items() if key != _HURTS})
    return record


def _without_check_in(record: Record) -> Record:
    if isinstance(record, SessionDone):
        return replace(record, plan=_without_reasons(record.plan, _OF_CHECK_INS))
    return record


def _without_note(record: Record) -> Record:
    return record if isinstance(record, Clearance) else replace(record, note="")


def _without_reasons(plan: Timeline, rules: frozenset[RuleId]) -> Timeline:
    kept: tuple[Reason, ...] = tuple(reason for reason in plan.dose.reasons if reason.rule not in rules)
    return replace(plan, dose=replace(plan.dose, reasons=kept))
