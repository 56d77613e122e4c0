"""The person who trains: body, limits, kit and circumstances; and the places where they train."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from app.domain.model.body import Spot
from app.domain.model.exercise import Axis, Space
from app.domain.model.omit_defaults import LATE


class Condition(StrEnum):
    """Ticked at welcome, each with who said so and until when. What each limits: `app/domain/dosing/conditions.py`."""

    OSTEOPOROSIS = "osteoporosis"
    VERTIGO = "vertigo"
    PELVIC_FLOOR = "pelvic_floor"
    HIP_REPLACEMENT = "hip_replacement"
    KNEE_REPLACEMENT = "knee_replacement"
    FALLS = "falls"
    CANNOT_RISE = "cannot_rise"
    HIGH_BLOOD_PRESSURE = "high_blood_pressure"
    HEART_CONDITION = "heart_condition"
    BETA_BLOCKER = "beta_blocker"
    PACEMAKER = "pacemaker"
    INSULIN = "insulin"
    ONE_SIDE = "one_side"
    COPD = "copd"
    PARKINSONS = "parkinsons"
    NEUROPATHY = "neuropathy"
    CANCER_TREATMENT = "cancer_treatment"
    HERNIA = "hernia"
    MEMORY_LOSS = "memory_loss"
    WALKING_AID = "walking_aid"
    WHEELCHAIR = "wheelchair"
    POSTURAL_DIZZINESS = "postural_dizziness"
    BLOOD_THINNER = "blood_thinner"
    SHOULDER_REPLACEMENT = "shoulder_replacement"
    SPINAL_SURGERY = "spinal_surgery"
    GLAUCOMA = "glaucoma"
    EPILEPSY = "epilepsy"
    SPINE_FRACTURE = "spine_fracture"


@dataclass(frozen=True)
class UsualPain:
    """A long-standing level agreed with a named kind of clinician, until a date.

    At most `USUAL_PAIN_MOST`.
    """

    level: int
    agreed_with: str
    until: date


@dataclass(frozen=True)
class ConditionTerms:
    """When a condition began, who said so and until when, and whose yes ended its first, stricter limits."""

    since: date | None = None
    """The operation, or when it began."""
    said_by: str = ""
    until: date | None = None
    """From then on it is asked about again; nothing is lifted by the calendar."""
    cleared_by: str = ""
    """The clinician who said that the first limits may go, with their profession; empty: nobody yet."""
    cleared: date | None = None


@dataclass(frozen=True)
class AxisLimit:
    """A limit that no condition names: the highest demand allowed on one axis, who said so and until when."""

    axis: Axis
    at_most: int
    said_by: str
    until: date | None = None
    """From then on it is asked about again; nothing is lifted by the calendar."""


@dataclass(frozen=True)
class Place:
    """What today's room allows. `noise` True means that noise is allowed; `kit` None means the client's own."""

    name: str = ""
    kit: frozenset[str] | None = None
    floor: bool = True
    noise: bool = True
    space: Space = Space.LARGE
    minutes: int | None = None
    bed: bool = field(default=True, metadata=LATE)
    """Whether there is a bed to lie or sit on."""


@dataclass(frozen=True)
class Client:
    """What a session is compiled for. Everything optional; unknown kit is None: all that the session needs."""

    spare: Mapping[Spot, int] = field(default_factory=dict, hash=False)
    """Highest demand allowed on a region's axes, 0–3."""
    conditions: frozenset[Condition] = frozenset()
    limits: Mapping[Axis, int] = field(default_factory=dict, hash=False)
    """Highest demand allowed on single axes, 0–3."""
    usual_pain: Mapping[Spot, UsualPain] = field(default_factory=dict, hash=False)
    alone: bool = False
    rises_unaided: bool = True
    shown: frozenset[str] = frozenset()
    """Exercises that somebody has shown them."""
    same_as_always: bool = False
    kit: frozenset[str] | None = None
    weights_g: tuple[int, ...] | None = None
    """Weights owned, grams; None: whatever is prescribed."""
    chosen: Mapping[str, str] = field(default_factory=dict, hash=False)
    """Changes made by hand: this exercise instead of that one."""
    rest_side: str = ""
    """`left` or `right`: not to be trained, with its reason in `rest_side_because`."""
    rest_side_because: str = ""
    rest_limb: str = field(default="", metadata=LATE)
    """`arm` or `leg` of that side; empty: both."""
    held: frozenset[str] = field(default=frozenset(), metadata=LATE)
    """Exercises that the coach holds: wherever they are written they stay where they are."""
    terms: Mapping[Condition, ConditionTerms] = field(default_factory=dict, hash=False, metadata=LATE)
    """What is known of a condition beside its name."""
    told_limits: tuple[AxisLimit, ...] = field(default=(), metadata=LATE)
    """Limits of their own, each by somebody and until some day."""


STARTER_PLACES: tuple[Place, ...] = (
    Place("Home", None, floor=True, noise=True, space=Space.LARGE),
    Place("Hotel room", frozenset({"chair"}), floor=True, noise=False, space=Space.SMALL),
    Place("Garage", None, floor=False, noise=True, space=Space.LARGE, bed=False),
)
