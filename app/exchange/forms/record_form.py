"""Records as a return carries them, told apart by the key `record`."""
from __future__ import annotations

from datetime import date
from typing import Annotated, Any

from pydantic import AfterValidator, Discriminator, Field, Tag

from app.domain.model.diary import AnsweredBy, Symptom
from app.domain.model.plan import Timeline
from app.domain.model.record import (
    CheckDone,
    CheckIn,
    Clearance,
    DoneStep,
    Ending,
    Event,
    EventKind,
    FunctionalCheck,
    Hurt,
    HurtKind,
    Record,
    SessionDone,
    Stamp,
)
from app.domain.model.record_kinds import BY_SENT, KIND_OF
from app.domain.model.session import MOST_STEPS
from app.exchange.forms.field_types import (
    BODY_SPOTS,
    HIGHEST,
    DoseLevel,
    Form,
    Hash,
    Id,
    Instant,
    PainBySpot,
    Text,
    Word,
    ZeroToTen,
    becomes,
    refuse,
    whole,
)
from app.exchange.forms.to_json import cleaned, plain

_DAY_MS = 24 * 3600 * 1000
#: Records whose own kinds may grow: the key that names them, and those that are known here.
_GROWING = {"check_done": ("check", frozenset(FunctionalCheck)), "event": ("kind", frozenset(EventKind))}
_TAKEN_BACK, _UNREAD = "taken_back", "unread"
Milliseconds = Annotated[int, whole(0, _DAY_MS)]
FromOneToFive = Annotated[int, whole(1, 5)]


class StampForm(Form):
    """When, whose and which revision."""

    id: Id
    person: Id
    utc: Instant
    local: date
    offset_min: Annotated[int, whole(-900, 900)]
    revision: Annotated[int, whole(1, 1_000_000)] = 1
    deleted: bool = False


StampValue = Annotated[StampForm, becomes(Stamp)]


class CheckInForm(Form):
    """A morning's answers; a key that is absent was not answered."""

    stamp: StampValue
    symptoms: frozenset[Symptom] | None = None
    signs: Annotated[tuple[Word, ...], Field(max_length=100)] = ()
    pain: PainBySpot | None = None
    morning_after: PainBySpot | None = None
    soreness: PainBySpot | None = None
    slept: FromOneToFive | None = None
    energy: FromOneToFive | None = None
    calm: FromOneToFive | None = None
    answered_by: AnsweredBy = AnsweredBy.SELF
    note: Text = ""
    level: DoseLevel | None = None
    carried: DoseLevel = 0
    stopped_by: Text = ""
    flare_days: Annotated[int, whole(0, 3)] | None = None


class HurtForm(Form):
    """"That hurts"."""

    spot: str
    level: ZeroToTen
    gave_way: bool = False
    exercise: Word | None = None
    at_ms: Milliseconds = 0
    kind: HurtKind = HurtKind.UNSAID
    answered_by: AnsweredBy = AnsweredBy.SELF
    wants_look: bool = False


def _hurt(form: HurtForm) -> Hurt:
    stated = form.stated()
    spots = BODY_SPOTS.func({stated.pop("spot"): 0})  # type: ignore[call-arg]
    return Hurt(spot=next(iter(spots)), **stated)


def _possible(plan: Timeline) -> Timeline:
    """Steps that touch from 0 on, and a dose within the table."""
    at = 0
    for step in plan.steps:
        if step.start_ms != at or step.length_ms < 0 or step.end_ms > _DAY_MS:
            refuse("steps that touch, from 0 on")
        at = step.end_ms
    if not all(0 <= m.step <= MOST_STEPS and min(m.written, m.amount) >= 0 and m.amount <= _DAY_MS
               for m in plan.moves):
        refuse("steps beyond what was written, within the coach's ceiling")
    dose = plan.dose
    within = ((dose.level, HIGHEST), (dose.carried, HIGHEST), (dose.work, 100), (dose.load, 100), (dose.rest, 1000),
              (dose.rounds, 100), (plan.target_rpe, 10), (plan.week_again, 1000))
    if not all(0 <= value <= most for value, most in within):
        refuse("a dose of the rule table")
    return plan


def _done(steps: tuple[DoneStep, ...]) -> tuple[DoneStep, ...]:
    """Checked all at once, since there are many."""
    if not all(0 <= step.index <= 5000 and 0 <= step.done_ms <= _DAY_MS for step in steps):
        refuse("steps of the plan, each done for a day at most")
    return steps


class SessionDoneForm(Form):
    """A session as planned and as done."""

    stamp: StampValue
    name: Text
    plan: Annotated[Timeline, AfterValidator(_possible)]
    pack: Hash
    ending: Ending
    done: Annotated[tuple[DoneStep, ...], AfterValidator(_done)]
    took_s: Annotated[int, whole(0, _DAY_MS // 1000)]
    rpe: ZeroToTen | None = None
    pain: PainBySpot | None = None
    hurts: Annotated[tuple[Annotated[HurtForm, AfterValidator(_hurt)], ...], Field(max_length=200)] = ()
    sign: Text = ""
    note: Text = ""
    names: Annotated[dict[Word, Text], Field(max_length=5000)] = Field(default_factory=dict)
    by_hand: Annotated[tuple[tuple[Word, Word], ...], Field(max_length=500)] = ()
    answered_by: AnsweredBy = AnsweredBy.SELF
    active_s: Annotated[int, whole(0, _DAY_MS // 1000)] | None = None


class ClearanceForm(Form):
    """A recorded yes."""

    stamp: StampValue
    answers: Id
    who: Text
    kind: Text


class CheckDoneForm(Form):
    """A functional check."""

    stamp: StampValue
    check: FunctionalCheck
    stands: Annotated[int, whole(0, 100)] | None = None
    time_ms: Annotated[int, whole(0, 600_000)] | None = None
    side: Annotated[str, Field(pattern="^(left|right)?$")] = ""
    hands_used: bool = False
    aid: bool = False
    answered_by: AnsweredBy = AnsweredBy.SELF
    note: Text = ""
    seat_cm: Annotated[int, whole(10, 150)] | None = None


class EventForm(Form):
    """Something that happened around the sessions."""

    stamp: StampValue
    kind: EventKind
    what: Annotated[str, Field(pattern="^[a-z0-9_-]{0,64}$")] = ""
    minutes: Annotated[int, whole(1, 1440)] | None = None
    since: date | None = None
    until: date | None = None
    answers: Annotated[dict[Word, bool], Field(max_length=50)] = Field(default_factory=dict)
    stopped_by: Text = ""
    answered_by: AnsweredBy = AnsweredBy.SELF
    note: Text = ""


class TakenBackForm(Form):
    """A record that was taken back: its kind and stamp, and nothing of what it said."""

    record: str
    stamp: StampValue


class UnreadForm(Form):
    """A kind of record, of check or of event that came after this version."""

    record: str


def _tag(table: Any) -> str:
    kind = table.get("record") if isinstance(table, dict) else None
    if not isinstance(kind, str) or kind not in BY_SENT:
        return _UNREAD
    stamp = table.get("stamp")
    if isinstance(stamp, dict) and stamp.get("deleted") is True:
        return _TAKEN_BACK
    key, known = _GROWING.get(str(kind), ("", frozenset[str]()))
    named = table.get(key)
    return _UNREAD if isinstance(named, str) and named not in known else str(kind)


def _taken_back(form: TakenBackForm) -> Record:
    stamp: Stamp = form.stated()["stamp"]
    return BY_SENT[form.record].blank(stamp)


RecordValue = Annotated[
    Annotated[CheckInForm, becomes(CheckIn), Tag("check_in")]
    | Annotated[SessionDoneForm, becomes(SessionDone), Tag("session_done")]
    | Annotated[ClearanceForm, becomes(Clearance), Tag("clearance")]
    | Annotated[CheckDoneForm, becomes(CheckDone), Tag("check_done")]
    | Annotated[EventForm, becomes(Event), Tag("event")]
    | Annotated[TakenBackForm, AfterValidator(_taken_back), Tag(_TAKEN_BACK)]
    | Annotated[UnreadForm, AfterValidator(lambda _: None), Tag(_UNREAD)],
    Discriminator(_tag),
]


def record_table(record: Record) -> dict[str, Any]:
    """The keys that give this record back; of one that was taken back only its stamp."""
    named = {"record": KIND_OF[type(record)].sent}
    return named | ({"stamp": plain(record.stamp)} if record.stamp.deleted else cleaned(plain(record)))


