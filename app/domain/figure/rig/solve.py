"""Where every bone is at a moment: angles first, then the whole body from its anchor, then held feet and hands."""
from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from app.domain.figure.rig import body_model as body
from app.domain.figure.rig.body_model import FigureView, Point, Skeleton, minus, other_side, plus, turned
from app.domain.figure.rig.figure_data import Anchor, Pin

#: Channels that change their sign in a mirror.
_AXIAL_TURNS = frozenset((*body.AXIAL, "turn"))
_SLACK = 0.99999
"""Of a limb's whole length that a target may be away."""
_TOES_LIFT = 4.0
"""%H above the floor at which toes no longer lie flat."""
_ROOTS = {"feet": "r.ball", "root": "pelvis"}


@dataclass(frozen=True, slots=True)
class State:
    """The whole body at one moment. `turns` are degrees and `places` %H, both of bones in the world."""

    skeleton: Skeleton
    angles: Mapping[str, float]
    turns: Mapping[str, float]
    places: Mapping[str, Point]
    effort: float
    mirrored: bool
    miss: float
    """%H by which the worst held limb is too short."""

    def point(self, name: str) -> Point:
        """Where a named point of the body is."""
        mark = self.skeleton.landmarks[name]
        return self.local(mark.bone, mark.at)

    def local(self, bone: str, at: Point) -> Point:
        """Where a point in a bone's frame is."""
        return plus(self.places[bone], turned(at, self.turns[bone]))

    def centre_of_mass(self, loads: tuple[tuple[str, float], ...] = ()) -> Point:
        """Of body and loads, each load (hand bone, share of body mass) in a palm."""
        mass = x = y = 0.0
        for bone, share, at in (*self.skeleton.masses, *((bone, share, body.PALM) for bone, share in loads)):
            q = self.local(bone, at)
            mass, x, y = mass + share, x + share * q[0], y + share * q[1]
        return x / mass, y / mass


def mirrored(state: State) -> State:
    """The other side doing it: near and far change places, or left and right."""
    if state.skeleton.view is FigureView.SIDE:
        angles = {other_side(k): v for k, v in state.angles.items()}
        turns = {other_side(k): v for k, v in state.turns.items()}
        places = {other_side(k): p for k, p in state.places.items()}
    else:
        angles = {other_side(k): -v if k in _AXIAL_TURNS else v for k, v in state.angles.items()}
        turns = {other_side(k): -v for k, v in state.turns.items()}
        places = {other_side(k): (-p[0], p[1]) for k, p in state.places.items()}
    return State(state.skeleton, angles, turns, places, state.effort, True, state.miss)


def reach(root: Point, target: Point, upper: float, lower: float, bend: int) -> tuple[float, float, float]:
    """Two bones from a root to a target: the upper one's turn, the lower one's turn against it, and what is missing.

    `bend` +1 turns the lower bone counter-clockwise (an elbow), -1 clockwise (a knee). Degrees and %H.
    """
    dx, dy = target[0] - root[0], target[1] - root[1]
    away = math.hypot(dx, dy)
    longest = (upper + lower) * _SLACK
    miss, away = max(0.0, away - longest), max(min(away, longest), 1e-6)
    ahead = math.degrees(math.atan2(dx, -dy))
    at_root = math.degrees(math.acos(_unit((upper * upper + away * away - lower * lower) / (2 * upper * away))))
    inside = math.degrees(math.acos(_unit((upper * upper + lower * lower - away * away) / (2 * upper * lower))))
    return ahead - bend * at_root, bend * (180 - inside), miss


def _unit(value: float) -> float:
    return max(-1.0, min(1.0, value))


def wrapped(degrees: float) -> float:
    """The same direction within (-180, 180]."""
    return degrees if -180 < degrees <= 180 else 180 - (180 - degrees) % 360


class Solver:
    """One body being placed; `solve` gives the state of a moment.

    `bend` names the hands whose elbow points the other way.
    """

    def __init__(self, skeleton: Skeleton, anchor: Anchor, bend: Mapping[str, int], pointed_toes: bool) -> None:
        self.skeleton, self.anchor, self.bend, self.pointed_toes = skeleton, anchor, bend, pointed_toes
        self.knee = -1 if skeleton.view is FigureView.SIDE else 1
        self._root = skeleton.landmarks[f"{anchor.part[0]}.ball" if anchor.part.endswith("foot") else
                                        _ROOTS.get(anchor.part, anchor.part)]

    def solve(self, channels: Mapping[str, float], pins: Mapping[str, tuple[tuple[float, Pin], ...]],
              effort: float) -> State:
        """The state, from a value for every channel and the pins of held limbs, feet first."""
        self.angles, self.miss = dict(channels), 0.0
        self.turns: dict[str, float] = {}
        self.places: dict[str, Point] = {}
        self._turn(pins)
        self._root_from_anchor(pins)
        for name, shares in pins.items():
            if name not in (self.anchor.part, "root"):
                (self._foot if name.endswith("foot") else self._hand)(name[0], shares)
                self._place()
        self._toes()
        return State(self.skeleton, self.angles, self.turns, self.places, effort, False, self.miss)

    def _turn(self, pins: Mapping[str, tuple[tuple[float, Pin], ...]]) -> None:
        a, turns = self.angles, self.turns
        turns["pelvis"] = -a["lean"]
        turns["thorax"] = turns["pelvis"] - a["spine"]
        turns["head"] = turns["thorax"] - a["neck"]
        for s, k in self.skeleton.outward.items():
            turns[f"{s}.thigh"] = turns["pelvis"] + k * a[f"{s}.hip"]
            shank = turns[f"{s}.shank"] = turns[f"{s}.thigh"] + k * self.knee * a[f"{s}.knee"]
            held = pins.get(f"{s}.foot")
            if held or self.anchor.part in (f"{s}.foot", "feet"):
                pitch = sum(share * pin.pitch for share, pin in held) if held else self.anchor.pitch
                a[f"{s}.ankle"] = (pitch - shank) * k
            turns[f"{s}.foot"] = turns[f"{s}.toe"] = shank + k * a[f"{s}.ankle"]
            turns[f"{s}.upper_arm"] = turns["thorax"] + k * a[f"{s}.shoulder"]
            turns[f"{s}.forearm"] = turns[f"{s}.upper_arm"] + k * a[f"{s}.elbow"]
            turns[f"{s}.hand"] = turns[f"{s}.forearm"] + k * a[f"{s}.wrist"]
            turns[f"{s}.fingers"] = turns[f"{s}.hand"] + k * a[f"{s}.grip"]

    def _root_from_anchor(self, pins: Mapping[str, tuple[tuple[float, Pin], ...]]) -> None:
        part, target = self.anchor.part, self.anchor.at
        held = pins.get({"feet": "r.foot", "pelvis": "root"}.get(part, part))
        if held:
            target = (sum(share * pin.x for share, pin in held), sum(share * pin.y for share, pin in held))
        if part in ("feet", "r.foot", "l.foot"):
            target = (target[0] + self.skeleton.ball[0], target[1] + body.SOLE)
        self.places["pelvis"] = (0.0, 0.0)
        self._place()
        mark = self._root
        here = plus(self.places[mark.bone], turned(mark.at, self.turns[mark.bone]))
        self.places["pelvis"] = minus(target, here)
        self._place()

    def _place(self) -> None:
        places, turns = self.places, self.turns
        for bone in self.skeleton.bones[1:]:
            at = self.attached(bone.name, bone.at)
            places[bone.name] = plus(places[bone.parent], turned(at, turns[bone.parent]))

    def attached(self, bone: str, at: Point) -> Point:
        """Where a bone hangs in its parent now: heads and shoulders slide."""
        return attachment(self.skeleton, self.angles, bone, at)

    def _foot(self, s: str, shares: tuple[tuple[float, Pin], ...]) -> None:
        k, ball = self.skeleton.outward[s], self.skeleton.ball
        x, y, pitch = self._held(shares)
        ankle = minus((x + ball[0], y + body.SOLE), turned(ball, pitch))
        lengths = self.skeleton.lengths
        root = self.places[f"{s}.thigh"]
        turn, more, miss = reach(root, ankle, lengths[f"{s}.thigh"], lengths[f"{s}.shank"], -k)
        self.miss = max(self.miss, miss)
        self.turns[f"{s}.thigh"], self.turns[f"{s}.shank"] = turn, turn + more
        self.turns[f"{s}.foot"] = self.turns[f"{s}.toe"] = pitch
        self.angles[f"{s}.hip"] = wrapped((turn - self.turns["pelvis"]) * k)
        self.angles[f"{s}.knee"] = more * k * self.knee
        self.angles[f"{s}.ankle"] = wrapped((pitch - turn - more) * k)

    def _hand(self, s: str, shares: tuple[tuple[float, Pin], ...]) -> None:
        k = self.skeleton.outward[s]
        x, y, pitch = self._held(shares)
        bend = self.bend.get(f"{s}.hand", 1) * (k if self.skeleton.view is FigureView.FRONT else 1)
        wrist = minus((x, y), turned(body.PALM, pitch))
        lengths = self.skeleton.lengths
        root = self.places[f"{s}.upper_arm"]
        turn, more, miss = reach(root, wrist, lengths[f"{s}.upper_arm"], lengths[f"{s}.forearm"], bend)
        self.miss = max(self.miss, miss)
        self.turns[f"{s}.upper_arm"], self.turns[f"{s}.forearm"], self.turns[f"{s}.hand"] = turn, turn + more, pitch
        self.turns[f"{s}.fingers"] = pitch + k * self.angles[f"{s}.grip"]
        self.angles[f"{s}.shoulder"] = wrapped((turn - self.turns["thorax"]) * k)
        self.angles[f"{s}.elbow"] = more * k
        self.angles[f"{s}.wrist"] = wrapped((pitch - turn - more) * k)

    def _held(self, shares: tuple[tuple[float, Pin], ...]) -> tuple[float, float, float]:
        """Place and pitch in the world of a held limb."""
        x = y = pitch = 0.0
        for share, pin in shares:
            turn = self.turns[pin.on] if pin.on else 0.0
            at = plus(self.places[pin.on], turned((pin.x, pin.y), turn)) if pin.on else (pin.x, pin.y)
            x, y, pitch = x + share * at[0], y + share * at[1], pitch + share * (pin.pitch + turn)
        return x, y, pitch

    def _toes(self) -> None:
        """Toes lie flat while the ball is on the floor and the heel is up, and relax in the air."""
        for s in body.SIDES:
            pitch, toe = self.turns[f"{s}.foot"], self.angles[f"{s}.toe"]
            if toe == 0 and self.skeleton.view is FigureView.SIDE and -70 < pitch < 0 and not self.pointed_toes:
                low = self.places[f"{s}.foot"][1] + turned(self.skeleton.ball, pitch)[1]
                toe = -pitch * max(0.0, min(1.0, 1 - (low - body.SOLE) / _TOES_LIFT))
            self.angles[f"{s}.toe"] = toe
            self.turns[f"{s}.toe"] = pitch + toe * self.skeleton.outward[s]


def attachment(skeleton: Skeleton, angles: Mapping[str, float], bone: str, at: Point) -> Point:
    """Where a bone hangs in its parent's frame once head and shoulders have slid."""
    if bone == "head":
        return at[0] + (angles["chin"] if skeleton.view is FigureView.SIDE else 0.0), at[1]
    if bone.endswith("upper_arm"):
        s = bone[0]
        out = -1 if skeleton.view is FigureView.FRONT and s == "r" else 1
        return at[0] + out * angles[f"{s}.shoulder_x"], at[1] + angles[f"{s}.shoulder_y"]
    return at

