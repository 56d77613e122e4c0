"""A figure as somebody wrote it: poses, when each is reached, what stands around, what touches what."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from app.domain.figure.rig.body_model import FigureView, Point, Stance

Value = float | str | bool | tuple["Value", ...]


class Repeat(StrEnum):
    """What comes after one round of the keys."""

    SAME = "same"
    ALTERNATE = "alternate"
    """Once more, the other side doing it."""


class Ease(StrEnum):
    """How a key is reached."""

    STOP = "stop"
    FLOW = "flow"
    """Passed through without standing still."""


@dataclass(frozen=True)
class Pin:
    """Where a foot or a hand is held: its floor point or palm, and the pitch of foot or hand, degrees.

    In the frame of the bone `on`, or of the world where that is empty.
    """

    x: float
    y: float
    pitch: float = 0.0
    on: str = ""


@dataclass(frozen=True)
class Pose:
    """Every joint by name (`r.knee`, `lean`), degrees, and the limbs that are held somewhere instead."""

    channels: Mapping[str, float]
    pins: Mapping[str, Pin]


@dataclass(frozen=True)
class Anchor:
    """The one point from which the place of the whole body follows."""

    part: str
    at: Point
    pitch: float = 0.0


@dataclass(frozen=True)
class Key:
    """A pose and when it is reached, seconds. `effort` 0–1 lights up what works."""

    at_s: float
    name: str
    pose: Pose
    effort: float = 0.25
    ease: Ease = Ease.STOP
    cue: str = ""
    anchor: Anchor | None = None
    """From here on another anchor."""


@dataclass(frozen=True)
class Area:
    """A muscle that works; `side` is empty for both."""

    muscle: str
    side: str = ""


@dataclass(frozen=True)
class Arrow:
    """Shows a motion between two moments, seconds: along the way of `track`, moved aside, or along `line`."""

    start_s: float
    end_s: float
    track: str = ""
    shift: Point = (0.0, 0.0)
    axis: str = ""
    trim: tuple[float, float] = (0.06, 0.94)
    least: float = 15.0
    line: tuple[Point, ...] = ()


@dataclass(frozen=True)
class FigureContact:
    """Named points that stay where they are between two moments, seconds: on a surface, or on the bone `on`."""

    points: tuple[str, ...]
    start_s: float
    end_s: float
    on: str = ""


@dataclass(frozen=True)
class Prop:
    """A thing beside or in the hands of the figure. Lengths in %H."""

    kind: str
    values: Mapping[str, Value] = field(default_factory=dict)

    def number(self, key: str, otherwise: float = 0.0) -> float:
        """A length or place of it."""
        value = self.values.get(key, otherwise)
        return float(value) if isinstance(value, (int, float)) else otherwise

    def word(self, key: str, otherwise: str = "") -> str:
        """A name."""
        value = self.values.get(key, otherwise)
        return value if isinstance(value, str) else otherwise

    def pair(self, key: str, otherwise: Point = (0.0, 0.0)) -> Point:
        """Two numbers: from and to, or x and y."""
        value = self.values.get(key)
        if isinstance(value, tuple) and len(value) == 2:
            a, b = value
            if isinstance(a, (int, float)) and isinstance(b, (int, float)):
                return float(a), float(b)
        return otherwise

    def words(self, key: str) -> tuple[str, ...]:
        """Names."""
        value = self.values.get(key, ())
        return tuple(v for v in value if isinstance(v, str)) if isinstance(value, tuple) else ()

    def ends(self, key: str) -> tuple[str | Point, ...]:
        """Landmarks and places, in their order."""
        value = self.values.get(key, ())
        return tuple(_end(v) for v in value) if isinstance(value, tuple) else ()


def _end(value: Value) -> str | Point:
    if isinstance(value, tuple) and len(value) == 2:
        a, b = value
        if isinstance(a, (int, float)) and isinstance(b, (int, float)):
            return float(a), float(b)
    return str(value)


class Ground(StrEnum):
    """What a standing figure is held against when its balance is judged."""

    NONE = "none"
    STANDING = "standing"
    HAND = "hand"
    """A hand rests on something."""
    MOVING = "moving"
    """A step is taken: falling a little is part of it."""


@dataclass(frozen=True)
class ExpectedOfFigure:
    """What is expected of the figure beyond what is expected of all."""

    ground: Ground = Ground.NONE
    ground_s: tuple[float, float] | None = None
    symmetric: bool = False


@dataclass(frozen=True)
class Figure:
    """One figure. Its id is the id of the exercise that it shows."""

    id: str
    title: str
    view: FigureView
    anchor: Anchor
    keys: tuple[Key, ...]
    stance: Stance = Stance.UPRIGHT
    lengths: tuple[tuple[str, float], ...] = ()
    """Bones drawn shorter than they are, since they point at the viewer, %H."""
    repeat: Repeat = Repeat.SAME
    emphasis: tuple[Area, ...] = ()
    arrows: tuple[Arrow, ...] = ()
    props: tuple[Prop, ...] = ()
    contacts: tuple[FigureContact, ...] = ()
    asked: ExpectedOfFigure = ExpectedOfFigure()
    bend: Mapping[str, int] = field(default_factory=dict)
    """By hand, -1 where the elbow points the other way."""
    pointed_toes: bool = False
    arms_behind_head: tuple[str, ...] = ()
    across: tuple[str, ...] = ()
    """Sides whose arm may cross the chest in a front view."""
    seen_from_behind: bool = False
    near_arm_under_leg: bool = False
    mirrors: bool = True
    """Whether the picture may be turned round to show the other side."""
    hidden: str = ""
    """What the view cannot show."""
    stride: float = 0.0
    """Between the marks of a floor that goes back under a walking figure, %H; 0 for a floor that stays."""

    @property
    def round_s(self) -> float:
        """Seconds from the first key to the last."""
        return self.keys[-1].at_s

    @property
    def period_s(self) -> float:
        """Seconds until everything begins anew."""
        return self.round_s * (2 if self.repeat is Repeat.ALTERNATE else 1)

    def of_kind(self, *kinds: str) -> tuple[Prop, ...]:
        """Its props of these kinds."""
        return tuple(p for p in self.props if p.kind in kinds)
