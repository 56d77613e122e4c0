"""The body of a moving figure: bones, lengths, masses, limits and named points.

Lengths are percent of body height. World: x to the figure's front (side view, near side = right) or to its own left
(front view, it faces the viewer), y up, floor 0. Angles are degrees, counter-clockwise; every bone's frame is the
world's when the figure stands straight. Lengths: Drillis and Contini 1966, masses: Dempster, both in Winter 2009.
The head is drawn large on purpose; half-widths of hip and shoulder are a choice.
"""
from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache

Point = tuple[float, float]

ANKLE_HEIGHT, SHANK, THIGH, LUMBAR, THORAX = 3.9, 24.6, 24.5, 10.5, 18.3
UPPER_ARM, FOREARM = 18.6, 14.6
NECK_BASE, HEAD_CENTRE, HEAD_RADIUS = 19.5, 9.3, 7.2
SHOULDER_HALF, HIP_HALF = 10.6, 5.0
SEATED_THIGH = 8.0
"""Length of a thigh that points at the viewer."""
BALL_SIDE, BALL_FRONT = (6.6, -2.7), (0.0, -2.7)
"""The toe joint in the frame of the foot; its radius is `SOLE`."""
SOLE = 1.2
PALM = (0.0, -3.6)
KNUCKLES = (0.0, -4.3)
"""Where the fingers begin, in the frame of the hand."""


class FigureView(StrEnum):
    """From where the figure is seen."""

    SIDE = "side"
    FRONT = "front"


class Stance(StrEnum):
    """Whether the thighs of a front view point at the viewer."""

    UPRIGHT = "upright"
    SEATED = "seated"


SIDES = ("r", "l")
AXIAL = ("lean", "spine", "neck")
LIMB = ("hip", "knee", "ankle", "toe", "shoulder", "elbow", "wrist")
AXIAL_MORE = ("turn", "chin", "travel")
"""Head turned to the own left (degrees), slid forward (%H), and how far the floor has gone back (%H)."""
LIMB_MORE = ("shoulder_x", "shoulder_y", "grip")
"""Shoulder joint slid forward or outward and up (%H), and how far the fingers are curled (degrees)."""

_SIDE_LIMITS = {
    "lean": (-180, 180), "spine": (-25, 60), "neck": (-50, 45), "hip": (-20, 120), "knee": (0, 135),
    "ankle": (-50, 30), "toe": (-30, 60), "shoulder": (-60, 180), "elbow": (0, 145), "wrist": (-80, 85),
    "turn": (-70, 70), "chin": (-3, 3), "shoulder_x": (-6, 6), "shoulder_y": (-6, 6), "grip": (0, 90),
}
_FRONT_LIMITS = {
    **_SIDE_LIMITS, "lean": (-100, 100), "spine": (-35, 35), "neck": (-40, 40), "hip": (-25, 45), "knee": (-5, 5),
    "ankle": (-30, 30), "toe": (-5, 5), "shoulder": (-20, 180), "elbow": (-145, 145), "wrist": (-45, 45),
}
_SEATED_LIMITS = {**_FRONT_LIMITS, "hip": (-25, 75), "knee": (-160, 160), "ankle": (-60, 60)}
ACROSS = (-110, 180)
"""Shoulder limits, front view, of an arm that may cross the chest."""


@dataclass(frozen=True)
class Bone:
    """One rigid part, hung into its parent at `at` of the parent's frame."""

    name: str
    parent: str
    at: Point


@dataclass(frozen=True)
class Landmark:
    """A named point of the body, and how thick the body is there."""

    bone: str
    at: Point
    radius: float


@dataclass(frozen=True)
class Skeleton:
    """Everything that is fixed about a body in one view. `bones` come parents first; the first is the root."""

    view: FigureView
    lengths: Mapping[str, float]
    """Of thigh, shank, upper arm and forearm by bone, as drawn: shorter where they point at the viewer."""
    bones: tuple[Bone, ...]
    limits: Mapping[str, tuple[float, float]]
    masses: tuple[tuple[str, float, Point], ...]
    landmarks: Mapping[str, Landmark] = field(repr=False)
    ball: Point
    """The toe joint in the frame of the foot."""

    @property
    def outward(self) -> Mapping[str, int]:
        """By side, the sense in which + turns its limbs."""
        return {"r": -1 if self.view is FigureView.FRONT else 1, "l": 1}

    def shrink(self, bone: str) -> float:
        """How much shorter a bone is drawn than it is, as a factor."""
        length = self.lengths.get(bone)
        return 1.0 if length is None else length / LENGTHS[bone[2:]]


LENGTHS = {"thigh": THIGH, "shank": SHANK, "upper_arm": UPPER_ARM, "forearm": FOREARM}


@lru_cache(maxsize=64)
def skeleton(view: FigureView, stance: Stance = Stance.UPRIGHT, drawn: tuple[tuple[str, float], ...] = ()) -> Skeleton:
    """The skeleton of a view; `drawn` are lengths by bone that differ from the body's own."""
    seated = view is FigureView.FRONT and stance is Stance.SEATED
    lengths = {f"{s}.{part}": length for s in SIDES for part, length in LENGTHS.items()}
    if seated:
        lengths.update({f"{s}.thigh": SEATED_THIGH for s in SIDES})
    lengths.update(dict(drawn))
    upright = _FRONT_LIMITS if view is FigureView.FRONT else _SIDE_LIMITS
    return Skeleton(
        view, lengths, tuple(_bones(view, lengths)), _SEATED_LIMITS if seated or (view is FigureView.FRONT and drawn)
        else upright, tuple(_masses(view, lengths)), _landmarks(view, lengths),
        BALL_FRONT if view is FigureView.FRONT else BALL_SIDE,
    )


def _bones(view: FigureView, lengths: Mapping[str, float]) -> list[Bone]:
    found = [Bone("pelvis", "", (0, 0)), Bone("thorax", "pelvis", (0, LUMBAR)),
             Bone("head", "thorax", (0, NECK_BASE))]
    for s, x in (("r", -1), ("l", 1)):
        front = view is FigureView.FRONT
        hip = (x * HIP_HALF, 0.0) if front else (0.0, 0.0)
        shoulder = (x * SHOULDER_HALF, THORAX - 1) if front else (0.0, THORAX)
        found += [Bone(f"{s}.thigh", "pelvis", hip)]
        found += [Bone(f"{s}.{part}", f"{s}.{of}", (0, -lengths[f"{s}.{of}"]))
                  for part, of in (("shank", "thigh"), ("foot", "shank"))]
        found += [Bone(f"{s}.toe", f"{s}.foot", (x * 0.4, -2.7) if front else BALL_SIDE)]
        found += [Bone(f"{s}.upper_arm", "thorax", shoulder)]
        found += [Bone(f"{s}.{part}", f"{s}.{of}", (0, -lengths[f"{s}.{of}"]))
                  for part, of in (("forearm", "upper_arm"), ("hand", "forearm"))]
        found += [Bone(f"{s}.fingers", f"{s}.hand", KNUCKLES)]
    return found


def _masses(view: FigureView, lengths: Mapping[str, float]) -> list[tuple[str, float, Point]]:
    """Bone, share of the body's mass, and where in the bone's frame its centre lies."""
    front = view is FigureView.FRONT
    found = [("pelvis", 0.281, (0.0, 5.2)), ("thorax", 0.216, (0.0, 9.5)),
             ("head", 0.081, (0.0 if front else 0.6, 7.5))]
    for s in SIDES:
        found += [(f"{s}.{part}", share, (0, -along * lengths[f"{s}.{part}"])) for part, share, along in _ALONG]
        found += [(f"{s}.foot", 0.0145, (0.0 if front else 2.5, -2.3)), (f"{s}.hand", 0.006, (0, -4.0))]
    return found


#: Limb, its share of the body's mass, and where along it its centre lies.
_ALONG = (("thigh", 0.100, 0.433), ("shank", 0.0465, 0.433), ("upper_arm", 0.028, 0.436), ("forearm", 0.016, 0.430))
_LIMB_POINTS: dict[str, tuple[str, Point, float]] = {
    "ball": ("foot", BALL_SIDE, SOLE), "heel": ("foot", (-2.6, -2.0), 1.9), "ankle": ("foot", (0, 0), 2.3),
    "sole": ("foot", (2.5, -3.6), 0.3), "toetip": ("toe", (3.2, -0.1), 1.1),
    "knee": ("shank", (0, 0), 3.6), "shin": ("shank", (0, -15), 2.9),
    "thigh": ("thigh", (0, -19), 4.0), "hip": ("thigh", (0, 0), 5.0), "palm": ("hand", PALM, 1.9),
    "wrist": ("hand", (0, 0), 1.9), "fingertips": ("hand", (0.3, -5.6), 1.6), "forearm": ("forearm", (0, -9), 2.3),
    "elbow": ("forearm", (0, 0), 2.6), "shoulder": ("upper_arm", (0, -0.4), 3.6),
}
_FRONT_POINTS: dict[str, Point] = {"ball": BALL_FRONT, "heel": (0, -2.0), "sole": (0, -3.6), "toetip": (0, 0)}
_AXIAL_POINTS: dict[str, tuple[str, Point, float]] = {
    "pelvis": ("pelvis", (0, 0), 5.6), "seat": ("pelvis", (0, 0), 5.6), "shoulders": ("thorax", (0, THORAX), 5.4),
    "chest": ("thorax", (0, 10), 6.2), "head": ("head", (0.8, HEAD_CENTRE), HEAD_RADIUS),
    "back": ("thorax", (-5.0, 11), 0.8),
}


def _landmarks(view: FigureView, lengths: Mapping[str, float]) -> dict[str, Landmark]:
    front = view is FigureView.FRONT
    found = {name: Landmark(bone, (0, at[1]) if front else at, r) for name, (bone, at, r) in _AXIAL_POINTS.items()}
    for s, x in (("r", -1), ("l", 1)):
        for name, (bone, at, r) in _LIMB_POINTS.items():
            at = _FRONT_POINTS.get(name, at) if front else at
            shrink = lengths[f"{s}.{bone}"] / LENGTHS[bone] if bone in LENGTHS else 1.0
            found[f"{s}.{name}"] = Landmark(f"{s}.{bone}", (at[0], at[1] * shrink), r)
        if front:
            found[f"{s}.rib"] = Landmark("thorax", (x * 5.6, 9), 4.3)
    return found


def turned(p: Point, degrees: float) -> Point:
    """The point after a turn about the origin."""
    a = math.radians(degrees)
    c, s = math.cos(a), math.sin(a)
    return p[0] * c - p[1] * s, p[0] * s + p[1] * c


def plus(a: Point, b: Point) -> Point:
    """The sum of two vectors."""
    return a[0] + b[0], a[1] + b[1]


def minus(a: Point, b: Point) -> Point:
    """The first vector without the second."""
    return a[0] - b[0], a[1] - b[1]


def distance(a: Point, b: Point) -> float:
    """Between two points."""
    return math.hypot(a[0] - b[0], a[1] - b[1])


def other_side(name: str) -> str:
    """`r.knee` for `l.knee`, and the same the other way; anything else as it is."""
    return {"r.": "l.", "l.": "r."}.get(name[:2], name[:2]) + name[2:]
