"""What the client said today and about the last session: the evidence from which the dose is taken."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from app.domain.model.body import Spot


class Symptom(StrEnum):
    """Answers to "anything new or worrying today?"."""

    EMERGENCY = "emergency"
    STOP_AND_ASK = "stop_and_ask"
    FEVER = "fever"
    HEAD_COLD = "head_cold"


class AnsweredBy(StrEnum):
    """Who answered: the person, or somebody who leads them and can only guess."""

    SELF = "self"
    LEADER = "leader"


@dataclass(frozen=True)
class Last:
    """A session done before. Whatever is None was not answered, save `pain`."""

    days_ago: int | None = None
    """Days since then."""
    rpe: int | None = None
    target_rpe: int | None = None
    completed: int | None = None
    """Share of planned work done, whole percent."""
    pain: int | None = None
    """Worst pain during it, 0–10; None: none recorded."""
    pain_at: Mapping[Spot, int] = field(default_factory=dict, hash=False)
    """The same by spot, where it is known; stands in for `pain`."""
    interrupted: bool = False
    """Cut short by something outside, such as the doorbell, and named as such."""


@dataclass(frozen=True)
class Fall:
    """A fall, and whether anything hurt or looked wrong after it."""

    days_ago: int
    hurt: bool


@dataclass(frozen=True)
class Diary:
    """One check-in with its history. None means unanswered; an empty mapping means "nothing hurts"."""

    symptoms: frozenset[Symptom] | None = None
    pain: Mapping[Spot, int] | None = field(default=None, hash=False)
    """Joint pain now, 0–10."""
    pain_rise: Mapping[Spot, int] | None = field(default=None, hash=False)
    """Pain the morning after the last session minus before it, points."""
    pain_hours: Mapping[Spot, int] = field(default_factory=dict, hash=False)
    """How long a rise has lasted, hours."""
    soreness: Mapping[Spot, int] | None = field(default=None, hash=False)
    """Muscle soreness, 0–10."""
    soreness_hours: Mapping[Spot, int] = field(default_factory=dict, hash=False)
    slept: int | None = None
    """1 badly – 5 well."""
    energy: int | None = None
    """1 low – 5 high."""
    calm: int | None = None
    """1 unsettled – 5 settled."""
    last: Last = Last()
    """The last session with strength work."""
    last_light: Last | None = None
    """The last session without; None: there was none."""
    first_session: bool = False
    """Nothing was done before, so questions about the last session do not apply."""
    previous_level: int = 0
    """The last level that pain, soreness, illness or effort caused."""
    cleared: bool = True
    """A recorded yes after a level 7 or 8."""
    clean_sessions: int = 2
    """Clean sessions running."""
    answered_by: AnsweredBy = AnsweredBy.SELF
    fall: Fall | None = None
    """The last fall that is known of."""
    flare_days: int | None = None
    """So many days after the last session it got clearly worse, as it may after a virus; None: it did not."""
    flare_unsaid: bool = False
    """Whether it matters to them if it got worse later, and was not said."""
