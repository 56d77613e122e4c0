"""What the answers after a session mean for the next one: the real rules, with a morning on which all is well."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.actions.new_stamp import new_stamp
from app.device.clock import Clock
from app.domain.dosing.dose import decide_dose
from app.domain.dosing.history import diary_today
from app.domain.dosing.way_back import Stop, sessions_of, way_back
from app.domain.model.misdated import AHEAD
from app.domain.model.person import Person
from app.domain.model.plan import Dose
from app.domain.model.record import CheckIn, Ending, Record, SessionDone
from app.domain.model.rules import rule_table
from app.domain.model.thresholds import STRENGTH_GAP_DAYS
from app.storage import packs, people, records
from app.storage.database import Store

REST = timedelta(days=STRENGTH_GAP_DAYS)
"""The gap assumed before the next session: one that no rule objects to."""


@dataclass(frozen=True)
class Outlook:
    """The next session's dose if the morning is good; the stop that waits for a yes, if one does."""

    dose: Dose
    stop: Stop | None = None


def outlook(store: Store, clock: Clock, person_id: str) -> Outlook:
    """How the next session would be after what is written down now.

    Raises:
        KeyError: nobody of that id.
    """
    with store.read() as db:
        person = people.person(db, person_id)
        everything = records.all_records(db, person_id)
        pack = packs.newest_pack(db, person.coach_key) if person and person.coach_key else None
    if person is None:
        raise KeyError(person_id)
    choice = pack.source.rules if pack else None
    table = choice.table() if choice else rule_table("usual", {})
    morning = _good_morning(clock, person, everything)
    diary = diary_today(morning, everything, person.body, table=table)
    # a stop is told apart from the dose, which it would hide
    dose = decide_dose(replace(diary, cleared=True), person.body, 1, morning.stamp.local, strength=True, table=table)
    return Outlook(dose, way_back(everything, clock.local(clock.now()).day + AHEAD).stop)


def _good_morning(clock: Clock, person: Person, everything: Sequence[Record]) -> CheckIn:
    """A check-in some days on with nothing the matter."""
    stamp = new_stamp(clock, person.id)
    stamp = replace(stamp, utc=stamp.utc + REST, local=stamp.local + REST)
    return CheckIn(stamp, symptoms=frozenset(), pain={}, morning_after={}, soreness={}, slept=5, energy=5, calm=5)


def unanswered(everything: Sequence[Record], since: date) -> tuple[SessionDone, ...]:
    """Sessions from that training day on of which nobody has said how hard they were, newest first."""
    return tuple(d for d in reversed(sessions_of(everything)) if d.rpe is None and d.stamp.local >= since)


def undo_sign(store: Store, done: SessionDone, mark: str) -> SessionDone:
    """The session as cut short by something else, after its stop sign was pressed by mistake.

    `mark` goes into the note, so that it can be seen that one was pressed.
    """
    note = f"{mark} {done.note}".strip()
    with store.begin() as db:
        return records.save_record(db, replace(done, ending=Ending.INTERRUPTED, sign="", note=note))
