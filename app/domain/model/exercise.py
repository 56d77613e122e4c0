"""An exercise: what it trains, what it asks of each joint, what one is told, and what is easier or harder."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from app.domain.model.kit import ALWAYS_AT_HAND
from app.domain.model.omit_defaults import LATE


class Axis(StrEnum):
    """The demands an exercise is rated on, each 0–3. Anchors: `app/domain/model/anchors.py`.

    Those from `SPINAL_ROUNDING` on came later: an exercise without one is taken to ask for it as `later_axes` says.
    """

    WRIST_WEIGHT_BEARING = "wrist_weight_bearing"
    OVERHEAD_SHOULDER = "overhead_shoulder"
    SHOULDER_LOAD = "shoulder_load"
    ELBOW_LOAD = "elbow_load"
    GRIP = "grip"
    NECK_LOAD = "neck_load"
    LOADED_SPINAL_FLEXION = "loaded_spinal_flexion"
    LOADED_TWIST = "loaded_twist"
    DEEP_HIP_FLEXION = "deep_hip_flexion"
    DEEP_KNEE_FLEXION = "deep_knee_flexion"
    KNEELING = "kneeling"
    ANKLE_LOAD = "ankle_load"
    SINGLE_LEG_BALANCE = "single_leg_balance"
    IMPACT = "impact"
    FLOOR_TRANSFER = "floor_transfer"
    HEAD_BELOW_HEART = "head_below_heart"
    SPINAL_ROUNDING = "spinal_rounding"
    SPINAL_EXTENSION = "spinal_extension"
    HEAD_TURNING = "head_turning"
    TURNING_ROUND = "turning_round"
    BEARING_DOWN = "bearing_down"
    HARD_HOLD = "hard_hold"
    UNHELD_BALANCE = "unheld_balance"
    LEG_CROSSING = "leg_crossing"


class Pattern(StrEnum):
    """The movement trained, in the trade's words."""

    SQUAT = "squat"
    HINGE = "hinge"
    LUNGE = "lunge_split"
    HORIZONTAL_PUSH = "horizontal_push"
    HORIZONTAL_PULL = "horizontal_pull"
    VERTICAL_PUSH = "vertical_push"
    VERTICAL_PULL = "vertical_pull"
    CARRY = "carry"
    ROTATION_CONTROL = "rotation_control"
    TRUNK_BRACE = "trunk_brace"
    GAIT = "gait_locomotion"
    BALANCE = "balance"
    MOBILITY = "mobility"
    ISOLATION = "isolation"


#: Patterns whose work needs a day of rest after it; the others may be done daily.
STRENGTH_PATTERNS = frozenset(Pattern) - {Pattern.MOBILITY, Pattern.BALANCE, Pattern.GAIT}


class Position(StrEnum):
    """How the body is placed; a change to or from the floor takes time."""

    STANDING = "standing"
    SEATED = "seated"
    KNEELING = "kneeling"
    QUADRUPED = "quadruped"
    SUPINE = "supine"
    PRONE = "prone"
    SIDE_LYING = "side_lying"
    ON_BED = "on_bed"


FLOOR_POSITIONS = frozenset(
    {Position.KNEELING, Position.QUADRUPED, Position.SUPINE, Position.PRONE, Position.SIDE_LYING}
)


class Sides(StrEnum):
    """Both at once, each on its own, or in turn within the same stretch of work."""

    BOTH = "both"
    EACH = "each"
    ALTERNATING = "alternating"


class Limb(StrEnum):
    """An arm or a leg as an exercise names it: of the side that is trained, or the one across."""

    ARM = "arm"
    LEG = "leg"
    OTHER_ARM = "other_arm"
    OTHER_LEG = "other_leg"


class Mode(StrEnum):
    """Counted movements or a position held."""

    REPS = "reps"
    HOLD = "hold"


class Support(StrEnum):
    """Whether a hand holds on to something steady."""

    NONE = "none"
    OPTIONAL = "optional"
    REQUIRED = "required"


class Space(StrEnum):
    """Floor area needed: a mat's length, or some steps each way."""

    SMALL = "small"
    LARGE = "large"



@dataclass(frozen=True)
class Option:
    """A neighbouring exercise and the axes on which it asks less."""

    to: str
    relieves: tuple[Axis, ...] = ()


@dataclass(frozen=True)
class Cues:
    """What one is told, in layers, each line readable in two seconds."""

    set_up: tuple[str, ...] = ()
    action: tuple[str, ...] = ()
    breath: str = ""
    safety: tuple[str, ...] = ()


@dataclass(frozen=True)
class Exercise:
    """One movement. `demand` maps every axis to 0–3; times are whole milliseconds."""

    id: str
    name: str
    pattern: Pattern
    position: Position
    equipment: tuple[str, ...]
    sides: Sides
    mode: Mode
    rep_ms: int
    """One repetition at its tempo, ms; 0 for a hold."""
    hold_s: int
    """Usual length of a hold, s; 0 for counted movements."""
    set_up_s: int
    muscles: tuple[str, ...]
    """Primary movers."""
    muscles_too: tuple[str, ...] = ()
    demand: Mapping[Axis, int] = field(default_factory=dict, hash=False)
    support: Support = Support.NONE
    space: Space = Space.SMALL
    self_explanatory: bool = False
    """May be put in for someone alone who was never shown it."""
    cues: Cues = Cues()
    easier: tuple[Option, ...] = ()
    harder: tuple[Option, ...] = ()
    swaps: tuple[Option, ...] = ()
    """Approved by the coach as a sideways change."""
    loaded: bool = False
    """Carries a weight that is chosen, so a load can be prescribed."""
    figure: str = ""
    loads: tuple[Limb, ...] | None = field(default=None, metadata=LATE)
    """The limbs that it works; None: not said, so all that it may work. What follows: `app/domain/model/limbs.py`."""
    leans_on: tuple[Limb, ...] | None = field(default=None, metadata=LATE)
    """The limbs that carry or hold on without being trained; None: not said."""
    sits_forward: bool = field(default=False, metadata=LATE)
    """Done at the front of the seat or away from its back."""
    rises_briskly: bool = field(default=False, metadata=LATE)
    """One is told to do it briskly on the feet: to stand up, to rise on to the toes, to step."""
    stretches_hip_front: bool = field(default=False, metadata=LATE)
    """A thigh is taken behind the body and held there, so that the front of the hip is stretched."""

    def asks(self, axis: Axis) -> int:
        """The demand on one axis, 0–3; on a later axis that nobody rated, the most that its older ratings allow."""
        rated = self.demand.get(axis)
        return unrated(self, axis) if rated is None else rated

    def needs(self) -> frozenset[str]:
        """Kit that must be at hand, without what every room has."""
        return frozenset(self.equipment) - ALWAYS_AT_HAND

    @property
    def is_strength(self) -> bool:
        """Whether a day of rest should follow."""
        return self.pattern in STRENGTH_PATTERNS

    @property
    def is_chair_stand(self) -> bool:
        """Whether one stands up from a seat and sits down again; begun from the stand, it is rated for getting up."""
        seated = self.position is Position.SEATED or (
            self.position is Position.STANDING and bool(self.asks(Axis.FLOOR_TRANSFER)))
        return self.pattern is Pattern.SQUAT and seated

    @property
    def lies(self) -> bool:
        """Whether it is done lying, on the floor or on a bed; on a bed one lies where it is so rated."""
        if self.position is Position.ON_BED:
            return bool(self.asks(Axis.FLOOR_TRANSFER) or self.asks(Axis.HEAD_BELOW_HEART))
        return self.position in (Position.SUPINE, Position.PRONE, Position.SIDE_LYING)

    @property
    def takes_thigh_back(self) -> bool:
        """Whether a thigh goes behind the body and stays there, or carries it from there."""
        return self.stretches_hip_front or self.pattern is Pattern.LUNGE

    @property
    def bends_in_stride(self) -> bool:
        """Whether the knee ahead bends while that foot carries: a lunge, or a stretch in the same stand."""
        is_stretch = self.stretches_hip_front and bool(self.asks(Axis.DEEP_KNEE_FLEXION))
        return self.position in (Position.STANDING, Position.KNEELING) and (self.pattern is Pattern.LUNGE or is_stretch)

    @property
    def on_floor(self) -> bool:
        """Whether one gets down to do it."""
        return self.position in FLOOR_POSITIONS


# ------------------------------------------------------------------ what nobody rated yet

#: Axes that came after the first programmes were handed out.
LATER_AXES = (
    Axis.SPINAL_ROUNDING, Axis.SPINAL_EXTENSION, Axis.HEAD_TURNING, Axis.TURNING_ROUND, Axis.BEARING_DOWN,
    Axis.HARD_HOLD, Axis.UNHELD_BALANCE, Axis.LEG_CROSSING,
)
FIRST_AXES = tuple(axis for axis in Axis if axis not in LATER_AXES)
MOST = 3
CLEAR = 2
#: How long work is done and not what a joint has to bear: an easier option may well be held.
MANNER_AXES = frozenset({Axis.HARD_HOLD})
_COMPARED = tuple((axis, axis in FIRST_AXES) for axis in Axis if axis not in MANNER_AXES)


def asks_more(other: Exercise, than: Exercise) -> tuple[Axis, ...]:
    """Axes on which `other` asks more than the exercise it eases or replaces.

    On the later axes a light demand counts as none, and only what a coach rated on both is compared.
    """
    asked, borne = other.demand, than.demand
    return tuple([
        axis for axis, is_first in _COMPARED
        if (other.asks(axis) > than.asks(axis) if is_first
            else axis in asked and asked[axis] >= CLEAR and axis in borne and asked[axis] > borne[axis])])


def unrated(exercise: Exercise, axis: Axis) -> int:
    """What an exercise rated on the first axes alone is taken to ask on a later one: rather too much than too little.

    0 on the first axes. Each later axis was a part of an older one, so that it is taken to be all of it.
    """
    asks = exercise.demand.get
    one_more = {Axis.SPINAL_ROUNDING: Axis.LOADED_SPINAL_FLEXION, Axis.HEAD_TURNING: Axis.NECK_LOAD}
    if axis in one_more:
        older = asks(one_more[axis], 0)
        return min(MOST, older + 1) if older else 0
    match axis:
        case Axis.SPINAL_EXTENSION:
            return 2 if exercise.position is Position.PRONE else int(asks(Axis.OVERHEAD_SHOULDER, 0) > 1)
        case Axis.TURNING_ROUND:
            return min(2, max(asks(Axis.IMPACT, 0), asks(Axis.SINGLE_LEG_BALANCE, 0)))
        case Axis.BEARING_DOWN:
            heavy = exercise.loaded or exercise.pattern is Pattern.TRUNK_BRACE
            return max(2 * heavy, asks(Axis.LOADED_SPINAL_FLEXION, 0), min(2, asks(Axis.SHOULDER_LOAD, 0)))
        case Axis.HARD_HOLD:
            return 2 if exercise.mode is Mode.HOLD else 0
        case Axis.UNHELD_BALANCE:
            return max(0, asks(Axis.SINGLE_LEG_BALANCE, 0) - (exercise.support is Support.REQUIRED))
        case Axis.LEG_CROSSING:
            return 2 if asks(Axis.DEEP_HIP_FLEXION, 0) > 1 and exercise.pattern is Pattern.MOBILITY else 0
        case _:
            return 0
