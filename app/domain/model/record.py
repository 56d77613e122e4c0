"""What is kept of a person's days: check-ins, sessions, checks and events, each revised and never silently lost."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from app.domain.model.body import Spot
from app.domain.model.diary import AnsweredBy, Symptom
from app.domain.model.omit_defaults import LATE
from app.domain.model.plan import Timeline
from app.domain.model.thresholds import PAIN_ENDS, WHOLE_FROM


class How(StrEnum):
    """How a step of work went."""

    FULL = "full"
    EASIER = "easier"
    PART = "part"
    SKIPPED = "skipped"
    STOPPED = "stopped"


class Ending(StrEnum):
    """How a session ended."""

    FINISHED = "finished"
    INTERRUPTED = "interrupted"
    """Cut short by something outside."""
    TOO_MUCH = "too_much"
    PAIN = "pain"
    SIGN = "sign"
    """A stop sign: a symptom from the list."""


@dataclass(frozen=True)
class DoneStep:
    """One step of work as it was done. `index` points into the plan; `exercise` is what was really done."""

    index: int
    exercise: str
    done_ms: int
    how: How


class HurtKind(StrEnum):
    """What a pain is like, in the words of who has it."""

    UNSAID = ""
    SHARP = "sharp"
    DULL = "dull"
    PULLING = "pulling"
    BURNING = "burning"
    """A muscle that tires."""
    NUMB = "numb"
    """Numbness or tingling: a stop sign."""


@dataclass(frozen=True)
class Hurt:
    """"That hurts", answered once seated."""

    spot: Spot
    level: int
    gave_way: bool = False
    exercise: str | None = None
    at_ms: int = 0
    kind: HurtKind = field(default=HurtKind.UNSAID, metadata=LATE)
    answered_by: AnsweredBy = field(default=AnsweredBy.SELF, metadata=LATE)
    wants_look: bool = field(default=False, metadata=LATE)
    """Whether somebody was to look at it before anything went on, and it therefore ended the session."""


@dataclass(frozen=True)
class Stamp:
    """When and whose. `local` is the training day where the person was; `offset_min` east of UTC."""

    id: str
    person: str
    utc: datetime
    local: date
    offset_min: int
    revision: int = 1
    deleted: bool = False


@dataclass(frozen=True)
class CheckIn:
    """A morning's answers. None is "not answered"; an empty mapping is "nothing"."""

    stamp: Stamp
    symptoms: frozenset[Symptom] | None = None
    signs: tuple[str, ...] = ()
    """The ids of the signs that were ticked, as listed in `app/domain/dosing/screening.py`."""
    pain: Mapping[Spot, int] | None = field(default=None, hash=False)
    morning_after: Mapping[Spot, int] | None = field(default=None, hash=False)
    """Pain on the morning after the last session, 0–10, where it hurt before or since."""
    soreness: Mapping[Spot, int] | None = field(default=None, hash=False)
    slept: int | None = None
    energy: int | None = None
    calm: int | None = None
    answered_by: AnsweredBy = AnsweredBy.SELF
    note: str = ""
    level: int | None = None
    """The level it led to; None before it was decided."""
    carried: int = 0
    """The part of that level which pain, soreness, illness or effort caused."""
    stopped_by: str = ""
    """Where they were stopped: the rule that stopped them, or the symptom; says whose yes is needed."""
    flare_days: int | None = field(default=None, metadata=LATE)
    """So many days after the last session they felt clearly worse; 0: asked, and they did not; None: not asked."""


@dataclass(frozen=True)
class SessionDone:
    """A session as planned and as done, with what was said afterwards."""

    stamp: Stamp
    name: str
    plan: Timeline
    pack: str
    """SHA-256 of the pack that it came from, hex."""
    ending: Ending
    done: tuple[DoneStep, ...]
    took_s: int
    """Where it ended on the plan, s; the time trained is `app/domain/model/trained_time.py`."""
    rpe: int | None = None
    pain: Mapping[Spot, int] | None = field(default=None, hash=False)
    hurts: tuple[Hurt, ...] = ()
    sign: str = ""
    """The stop sign that ended it."""
    note: str = ""
    names: Mapping[str, str] = field(default_factory=dict, hash=False)
    """Exercise id → name at that time, for every exercise in the plan or done."""
    by_hand: tuple[tuple[str, str], ...] = ()
    """Exercises that the client changed by hand: (from, to)."""
    answered_by: AnsweredBy = AnsweredBy.SELF
    active_s: int | None = field(default=None, metadata=LATE)
    """Seconds trained, as the player counted them; None in a record of before it did."""

    @property
    def planned_ms(self) -> int:
        """Work that was planned, ms."""
        return sum(s.length_ms for s in self.plan.steps if s.is_effort)

    @property
    def completed(self) -> int:
        """Share of the planned work that was done, whole percent, rounded down; 100 where none was planned."""
        planned = self.planned_ms
        return min(100, sum(d.done_ms for d in self.done) * 100 // planned) if planned else 100

    @property
    def is_left_early(self) -> bool:
        """Whether somebody ended it of their own accord well before its end."""
        return self.ending is Ending.FINISHED and self.completed < WHOLE_FROM

    @property
    def hurt_at(self) -> Mapping[Spot, int]:
        """The highest pain told of each spot during or after it, 1–10."""
        told: dict[Spot, int] = {spot: level for spot, level in (self.pain or {}).items() if level}
        for hurt in self.hurts:
            told[hurt.spot] = max(hurt.level, told.get(hurt.spot, 0))
        return told

    @property
    def is_pain_stop(self) -> bool:
        """Whether what hurt has to be looked at before the next session."""
        return any(h.gave_way or h.wants_look for h in self.hurts) or (self.worst_pain or 0) >= PAIN_ENDS

    @property
    def worst_pain(self) -> int | None:
        """The highest pain told during or after it, 0–10; None where nothing was said."""
        told = list((self.pain or {}).values()) + [h.level for h in self.hurts]
        return max(told) if told else (0 if self.pain is not None else None)


@dataclass(frozen=True)
class Clearance:
    """A recorded yes after a stop: who said it, of what kind, and which stop it answers."""

    stamp: Stamp
    answers: str
    """Id of the check-in or session that stopped them."""
    who: str
    kind: str
    """`self`, `coach` or the clinician's profession."""


class FunctionalCheck(StrEnum):
    """A functional check. How each is done: `app/words/client/checks.py`; how it is read: `functional_checks.py`."""

    CHAIR_STAND = "chair_stand"
    """Stands from a chair in 30 s."""
    ONE_LEG = "one_leg"
    """How long on one leg, eyes open."""
    WALK = "walk"
    """Up from a chair, 3 m there and back, down again."""
    CHAIR_STAND_HIGH = "chair_stand_high"
    """Stands in 30 s from a higher seat; a series of its own."""
    ONE_LEG_HELD = "one_leg_held"
    """How long on one leg with a hand on something; a series of its own."""
    WALK_4M = "walk_4m"
    """4 m at the everyday pace, with a run-up and a run-out."""


@dataclass(frozen=True)
class CheckDone:
    """A functional check as it was done, after a try that does not count."""

    stamp: Stamp
    check: FunctionalCheck
    stands: int | None = None
    """Full stands in 30 s, as counted; only of the chair stand."""
    time_ms: int | None = None
    """How long: on one leg, or there and back."""
    side: str = ""
    """The leg stood on, `left` or `right`; only of the one-leg stand."""
    hands_used: bool = False
    """The hands pushed off to stand, so no stand counts."""
    aid: bool = False
    """Walked with a stick or a frame."""
    answered_by: AnsweredBy = AnsweredBy.SELF
    note: str = ""
    seat_cm: int | None = field(default=None, metadata=LATE)
    """Height of the seat above the floor; only of the stands from a chair. None: not measured."""


class EventKind(StrEnum):
    """What may happen around the sessions."""

    FALL = "fall"
    ILLNESS = "illness"
    MEDICINE = "medicine"
    """A new medicine, or one that was changed."""
    ACTIVITY = "activity"
    """Moving about other than in a session."""
    GOAL = "goal"
    """Goals written down or looked at again."""
    PAUSE = "pause"
    """No sessions for a while, on purpose."""


@dataclass(frozen=True)
class Event:
    """Something that happened around the sessions."""

    stamp: Stamp
    kind: EventKind
    what: str = ""
    """Which illness, medicine or activity, or what became of the goals; ids worded in `app/words/client/events.py`."""
    minutes: int | None = None
    """How long an activity took."""
    since: date | None = None
    """The day of a fall; the first day of an illness or a pause."""
    until: date | None = None
    """The last day of a pause."""
    answers: Mapping[str, bool] = field(default_factory=dict, hash=False)
    """Answers to the next questions, by the id of the question; one that is not in it was not answered."""
    stopped_by: str = ""
    """Where no session may follow without a yes: the sign, or `fall`; says whose yes is needed."""
    answered_by: AnsweredBy = AnsweredBy.SELF
    note: str = ""


Record = CheckIn | SessionDone | Clearance | CheckDone | Event
