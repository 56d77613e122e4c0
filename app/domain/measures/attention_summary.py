"""What the attention list is made from and made of: a person's records in brief, and the flags that they give."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import NamedTuple

from app.domain.model.client import Condition
from app.domain.model.record import CheckDone


class AttentionReason(StrEnum):
    """Why somebody is on the list, the first call first."""

    SIGN = "sign"
    FALL = "fall"
    PAIN = "pain"
    RISING = "rising"
    VERY_HARD = "very_hard"
    TOO_MUCH = "too_much"
    EFFORT = "effort"
    SORENESS = "soreness"
    ILLNESS = "illness"
    CHECK_FELL = "check_fell"
    WELLBEING = "wellbeing"
    STOPS_EARLY = "stops_early"
    SWAPPED = "swapped"
    DATES = "dates"
    WEEK_AGAIN = "week_again"
    STALLED = "stalled"
    TOO_EASY = "too_easy"
    FORTNIGHT = "fortnight"
    NOTHING_BACK = "nothing_back"
    HALVED = "halved"


#: Somebody trains and it leads nowhere, or asks too little: neither harm nor silence.
PROGRESS: tuple[AttentionReason, ...] = (AttentionReason.WEEK_AGAIN, AttentionReason.STALLED, AttentionReason.TOO_EASY)
SILENCE: tuple[AttentionReason, ...] = (AttentionReason.FORTNIGHT, AttentionReason.NOTHING_BACK, AttentionReason.HALVED)
HARM: tuple[AttentionReason, ...] = tuple(r for r in AttentionReason if r not in (*PROGRESS, *SILENCE))


class RecordSummary(NamedTuple):
    """The few numbers of one record that the list needs, as light as can be. `kind`: check_in, session or event."""

    record: str
    kind: str
    local: date
    pain: int | None = None
    rpe: int | None = None
    target_rpe: int | None = None
    completed: int | None = None
    sign: str = ""
    by_hand: tuple[tuple[str, str], ...] = ()
    what: str = ""
    """Of an event: its kind."""
    aside: bool = False
    """Its date cannot be. It may show harm, and hides none: nothing takes it for what was told last."""
    spots: tuple[tuple[str, int], ...] = ()
    """Where it hurt and how much; empty where nothing did, or where it is not known."""
    ending: str = ""
    """How a session ended; empty: not known."""
    strength: bool | None = None
    """Of a session: whether it held strength work; None is "not known", which counts as if it did."""
    slept: int | None = None
    energy: int | None = None
    calm: int | None = None
    soreness: int | None = None
    """The worst of a check-in, 0–10."""
    steps: tuple[tuple[str, int], ...] = ()
    """Of a session: the step at which each station was planned."""
    week_again: int = 0
    """Of a session: so often its week had been begun once more."""
    session: str = ""
    """Of a session: its id."""

    @property
    def over(self) -> int | None:
        """Effort above what was meant, points; None where either is not told."""
        return None if self.rpe is None or self.target_rpe is None else self.rpe - self.target_rpe


@dataclass(frozen=True)
class AgreedPain:
    """A usual pain that was agreed with a clinician: no harm up to its level, until its day."""

    spot: str
    """`left knee`, or `knee` for both."""
    level: int
    until: date


@dataclass(frozen=True)
class PersonSummary:
    """One person's recent records, oldest first, and when something last came back."""

    person: str
    name: str
    told: tuple[RecordSummary, ...]
    last_return: datetime | None = None
    since: date | None = None
    """When the coach first heard of them."""
    pauses: tuple[tuple[date, date], ...] = ()
    """(first day, last day) of every pause that they told."""
    open_stop: RecordSummary | None = None
    """A stop from before these records that nobody has answered."""
    sessions_before: int = 0
    """Sessions in the four weeks before these records."""
    usual: tuple[AgreedPain, ...] = ()
    checks: tuple[CheckDone, ...] = ()
    """Their functional checks, oldest first, where one was done lately."""
    conditions: frozenset[Condition] = frozenset()
    """What they ticked, where a check was done lately: how much a check must change depends on it."""
    sends: frozenset[str] = frozenset()
    """What they agreed to send."""


@dataclass(frozen=True)
class Course:
    """What came before a pain, and beside it: the rest of the evidence, for the same line."""

    spot: str = ""
    """`left knee`; empty where it is not known."""
    low: int | None = None
    """The lowest that it was in the weeks before; None: nothing lower."""
    low_on: date | None = None
    """The last day on which it was so low."""
    ended: str = ""
    """How the last session ended, where it was not as planned."""
    completed: int | None = None
    """The share of it that was done, percent."""
    efforts: tuple[int, ...] = ()
    """Effort of the last strength sessions running that were harder than meant."""
    target: int = 0
    """The effort that was meant in the last of them."""


@dataclass(frozen=True)
class Flag:
    """One reason with its evidence: records, their days and their numbers. `weight` orders within a part."""

    person: str
    name: str
    because: AttentionReason
    on: date
    records: tuple[str, ...]
    numbers: tuple[int, ...] = ()
    words: tuple[str, ...] = ()
    weight: int = 0
    course: Course | None = None

    @property
    def is_harm(self) -> bool:
        """Whether it belongs to the first part."""
        return self.because in HARM

    @property
    def key(self) -> str:
        """The same evidence has the same key, so that "seen" stays seen. What goes on for weeks is one thing."""
        if self.because in PROGRESS:
            return f"{self.because}:running"
        return f"{self.because}:{self.records[-1] if self.records else self.on.isoformat()}"
