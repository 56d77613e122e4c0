"""What a compiled session is: steps on a ruler of whole milliseconds, with today's dose and every change explained."""
from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from app.domain.model.level import Level
from app.domain.model.omit_defaults import LATE
from app.domain.model.rules import RuleId


class StepKind(StrEnum):
    """What a stretch of time is for."""

    SETUP = "setup"
    WORK = "work"
    REST = "rest"
    ROUND_REST = "round_rest"
    CHANGE = "change"
    HOLD = "hold"


class ChangeStage(StrEnum):
    """A part of a change of position that is neither down to the floor nor up from it."""

    SIT = "sit"
    """Up to a sit after lying, and sitting still for a while."""
    STAND = "stand"
    """Standing still for a while after lying, a hand on something steady."""
    UP = "up"
    """From the edge of a bed to a stand, after lying on it."""
    RISE = "rise"
    """From a seat to a stand."""
    TURN = "turn"
    """Up to the knees or to hands and knees, on the floor."""
    LIE = "lie"
    """Down on a bed, to lie."""


#: Changes of no more account than any getting ready: nobody has to be up or down at their end to go on.
LIGHT_STAGES = frozenset({ChangeStage.RISE, ChangeStage.TURN})


class Part(StrEnum):
    """The part of the session that a step belongs to."""

    WARM_UP = "warm_up"
    MAIN = "main"
    COOL_DOWN = "cool_down"


class StepSide(StrEnum):
    """The side a step trains."""

    BOTH = "both"
    LEFT = "left"
    RIGHT = "right"
    ALTERNATING = "alternating"


#: Steps in which the body works; only these count as done or not done.
EFFORT_KINDS = frozenset({StepKind.WORK, StepKind.HOLD})


@dataclass(frozen=True)
class Step:
    """One stretch of time. What does not apply is None. `exercise` of a rest is the one that comes next."""

    kind: StepKind
    part: Part
    start_ms: int
    length_ms: int
    exercise: str | None = None
    side: StepSide | None = None
    round: int | None = None
    reps: int | None = None
    load_g: int | None = None
    written: str | None = None
    """The exercise that the coach wrote here, where another stands in."""
    to_floor: bool | None = None
    """For a change: down to the floor (True) or up from it (False)."""
    stage: ChangeStage | None = field(default=None, metadata=LATE)
    """For a change: which other part of one it is."""

    @property
    def end_ms(self) -> int:
        """The first millisecond after it."""
        return self.start_ms + self.length_ms

    @property
    def is_effort(self) -> bool:
        """Whether the body works in it."""
        return self.kind in EFFORT_KINDS

    @property
    def is_level_change(self) -> bool:
        """Whether it belongs to getting down, to the floor or to bed, or to getting up again."""
        return self.kind is StepKind.CHANGE and self.stage not in LIGHT_STAGES

    @property
    def awaits_tap(self) -> bool:
        """Whether it lasts until somebody says that they are down, or up."""
        return self.is_level_change and self.stage not in (ChangeStage.SIT, ChangeStage.STAND)


@dataclass(frozen=True)
class Reason:
    """One vote above 0, or a change that no vote made. `data` words it: `app/words/text.py`."""

    rule: RuleId
    level: int
    data: tuple[tuple[str, str | int], ...] = ()

    @property
    def missing(self) -> str:
        """The question that was left unanswered, as `data` names it; empty: this comes of an answer."""
        return next((str(value) for key, value in self.data if key == "missing"), "")


@dataclass(frozen=True)
class Dose:
    """Today's amount. `work`, `rest`, `load` in percent of the prescription; `rounds` of the main block."""

    level: int
    rounds: int
    work: int
    rest: int
    load: int
    reasons: tuple[Reason, ...] = ()
    rules_version: int = 1
    carried: int = 0
    """The part of the level that pain, soreness, illness or effort caused; eased off one by one."""

    @property
    def allows_session(self) -> bool:
        """Whether there is a session today at all."""
        return self.level <= Level.GENTLE


@dataclass(frozen=True)
class Substitution:
    """`to` stands in for `written`.

    `because` names axes, or `kit`, `floor`, `noise`, `space`, `weight`, `support`, `seated`, `side`, `choice`.
    """

    written: str
    to: str
    because: tuple[str, ...]
    asked: tuple[str, ...] = field(default=(), metadata=LATE)
    """What the written exercise asks of each, in detail: `deep_knee_flexion:2`, `kit:band`, `weight:day`."""
    side: str = field(default="", metadata=LATE)
    """`left` or `right`, where it stands in on that side alone and the other is done as written."""


@dataclass(frozen=True)
class LeftOut:
    """A station that is not done today, and why: as for Substitution, or `minutes`, `side`."""

    exercise: str
    because: tuple[str, ...]
    asked: tuple[str, ...] = field(default=(), metadata=LATE)
    """As for Substitution."""


@dataclass(frozen=True)
class OneSided:
    """A station that is done on one side alone today, so that left and right are not equal.

    `because` as for Substitution, of the side that is spared.
    """

    exercise: str
    spared: str
    """`left` or `right`."""
    because: tuple[str, ...]
    asked: tuple[str, ...] = field(default=(), metadata=LATE)
    """As for Substitution."""


class MoveKind(StrEnum):
    """What one step beyond the written amount adds, in the order in which it comes."""

    SECONDS = "seconds"
    REPS = "reps"
    HARDER = "harder"
    LOAD = "load"


class StepReason(StrEnum):
    """Why a station stands at its step. The ids stand in plans and returns and never change."""

    CLEAN = "clean"
    """Two clean sessions running."""
    HURT = "hurt"
    EASED = "eased"
    SKIPPED = "skipped"
    CUT_SHORT = "cut_short"
    TOO_HARD = "too_hard"
    GAP = "gap"
    """It was not done for a while."""
    PAIN = "pain"
    """It would move on, but it loads a region that hurts."""
    HELD = "held"
    """It would move on, but the coach holds it."""
    UNTOLD = "untold"
    """A reason that the person does not send."""


@dataclass(frozen=True)
class Move:
    """A station that stands `step` steps beyond what was written, or came back to it (step 0)."""

    exercise: str
    """As written."""
    step: int
    what: MoveKind
    because: StepReason
    written: int
    """Seconds or repetitions of one bout as written; for a load grams."""
    amount: int
    """The same today."""
    to: str = ""
    """The harder exercise that is done instead, if it is one."""


@dataclass(frozen=True)
class Timeline:
    """A session ready to be done. Steps touch, never overlap and sum to `total_ms`."""

    session: str
    steps: tuple[Step, ...]
    dose: Dose
    substitutions: tuple[Substitution, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    target_rpe: int = 5
    strength: bool = False
    """Whether strength work is done, so that a day of rest should follow."""
    moves: tuple[Move, ...] = field(default=(), metadata=LATE)
    """Stations that stand beyond what was written, or came back to it, each with its reason."""
    one_sided: tuple[OneSided, ...] = field(default=(), metadata=LATE)
    """Stations done on one side alone, each with its reason."""
    week_again: int = field(default=0, metadata=LATE)
    """So often its week of the programme had been begun once more, for having been much too hard."""

    @property
    def total_ms(self) -> int:
        """The whole length."""
        return self.steps[-1].end_ms if self.steps else 0
