"""What stopped somebody, whose yes it takes to start again, and the level from which they come back step by step."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from app.domain.dosing.screening import SIGNS
from app.domain.model.diary import Symptom
from app.domain.model.level import Level
from app.domain.model.record import CheckIn, Clearance, Ending, Event, EventKind, Record, SessionDone
from app.domain.model.rules import RuleId
from app.domain.model.thresholds import FEVER_FREE

ILLNESS_CARRIES = Level.LIGHT
"""An illness that was told without a stop is left step by step, as a head cold is."""


@dataclass(frozen=True)
class Stop:
    """What stopped them, at which level, and whose yes it takes to start again."""

    id: str
    level: int
    utc: datetime
    because: str
    yes_from: str
    """`self` (48 h without fever), `coach` or `clinician`."""


def sessions_of(records: Sequence[Record]) -> tuple[SessionDone, ...]:
    """Sessions that were not taken back, oldest first."""
    kept = (r for r in records if isinstance(r, SessionDone) and not r.stamp.deleted)
    return tuple(sorted(kept, key=lambda r: (r.stamp.utc, r.stamp.id)))


def check_ins_of(records: Sequence[Record]) -> tuple[CheckIn, ...]:
    """Check-ins that were not taken back, oldest first."""
    kept = (r for r in records if isinstance(r, CheckIn) and not r.stamp.deleted)
    return tuple(sorted(kept, key=lambda r: (r.stamp.utc, r.stamp.id)))


def _session_stop(done: SessionDone) -> Stop | None:
    if done.ending is Ending.SIGN:
        return Stop(done.stamp.id, _sign_level(done.sign), done.stamp.utc, done.sign, yes_from(done.sign))
    if done.is_pain_stop:
        return Stop(done.stamp.id, Level.ASK_FIRST, done.stamp.utc, RuleId.PAIN, yes_from(RuleId.PAIN))
    return None


def _sign_level(sign: str) -> Level:
    return Level.EMERGENCY if SIGNS.get(sign) is Symptom.EMERGENCY else Level.ASK_FIRST


def yes_from(because: str) -> str:
    """Whose recorded yes a stop needs: one's own after fever, the coach's after long soreness, else a clinician's."""
    if because == Symptom.FEVER:
        return "self"
    return "coach" if because == RuleId.SORENESS else "clinician"


def _event_stop(event: Event) -> Stop | None:
    if not event.stopped_by:
        return None
    because = event.stopped_by
    return Stop(event.stamp.id, _sign_level(because), event.stamp.utc, because, yes_from(because))


def _stop_of(record: Record) -> Stop | None:
    if isinstance(record, SessionDone):
        return _session_stop(record)
    if isinstance(record, Event):
        return _event_stop(record)
    if isinstance(record, CheckIn) and record.level is not None and is_new_stop(record):
        return Stop(record.stamp.id, record.level, record.stamp.utc, record.stopped_by, yes_from(record.stopped_by))
    return None


def is_new_stop(check_in: CheckIn) -> bool:
    """Whether these answers stopped them themselves; a stop from before is told where it was."""
    return (check_in.level or 0) >= Level.ASK_FIRST and check_in.stopped_by != RuleId.CLEARANCE


def answers_stop(clearance: Clearance, stop: Stop) -> bool:
    """Whether this yes is of the kind that the stop needs, and late enough."""
    if clearance.stamp.deleted or clearance.answers != stop.id:
        return False
    if not clearance.who.strip() or not clearance.kind.strip():
        return False
    if stop.yes_from == "self":
        return clearance.kind != "self" or clearance.stamp.utc - stop.utc >= FEVER_FREE
    if stop.yes_from == "coach":
        return clearance.kind != "self"
    return clearance.kind not in ("self", "coach")


def _event_level(event: Event, stop: Stop | None) -> int:
    return stop.level if stop else ILLNESS_CARRIES if event.kind is EventKind.ILLNESS else 0


@dataclass(frozen=True)
class WayBack:
    """Where somebody is on the way back: the level last carried, and the stop that is still unanswered."""

    previous_level: int = 0
    stop: Stop | None = None


def way_back(records: Sequence[Record], until: date = date.max) -> WayBack:
    """Folds all records: check-ins and events may only raise the carried level, a session sets it anew.

    A stop stays open until its own yes, or that to a later stop for the same reason; no session closes it. What bears a
    day after `until`, from a clock that was wrong, may raise the level and sets nothing anew, and its yes is to itself
    alone.
    """
    clearances = [r for r in records if isinstance(r, Clearance)]
    level, stops = 0, list[Stop]()
    live = (r for r in records if not r.stamp.deleted and not isinstance(r, Clearance))
    for record in sorted(live, key=lambda r: (r.stamp.utc, r.stamp.id)):
        found = _stop_of(record)
        stops += [found] if found else []
        if isinstance(record, SessionDone) and record.stamp.local <= until:
            level = found.level if found else record.plan.dose.carried
        elif isinstance(record, SessionDone):
            level = max(level, found.level if found else record.plan.dose.carried)
        elif isinstance(record, CheckIn):
            level = max(level, record.carried)
        elif isinstance(record, Event):
            level = max(level, _event_level(record, found))
    has_yes = [any(answers_stop(c, s) for c in clearances) for s in stops]
    answered = {s.because: n for n, s in enumerate(stops) if has_yes[n] and s.utc.date() <= until}
    still = [s for n, s in enumerate(stops) if not has_yes[n] and n > answered.get(s.because, -1)]
    return WayBack(max(level, still[-1].level), still[-1]) if still else WayBack(level)
