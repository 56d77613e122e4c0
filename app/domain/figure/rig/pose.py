"""A pose read from its table, and poses joined to a motion: a smooth way through each channel's keys."""
from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.domain.errors import UnknownName, WrongValue
from app.domain.figure.rig import body_model as body
from app.domain.figure.rig.figure_data import Ease, Figure, Key, Pin, Pose

AXIAL = (*body.AXIAL, *body.AXIAL_MORE)
LIMB = (*body.LIMB, *body.LIMB_MORE)
CHANNELS = (*AXIAL, *(f"{s}.{joint}" for s in body.SIDES for joint in LIMB))
PINNED = ("foot", "hand")
ROOT = "root"
"""A pin that moves the pelvis and the whole body with it, where the anchor is `root`."""
FREE = ("feet", "r.foot", "l.foot", ROOT)
"""Anchors that are no named point: feet flat on the floor, and the pelvis where each pose has it."""
_BONES = frozenset(bone.name for bone in body.skeleton(body.FigureView.SIDE, body.Stance.UPRIGHT).bones)


def read_pose(table: Mapping[str, Any], where: str) -> Pose:
    """A whole pose: what is not named is 0, a name without a side sets both, one with a side wins.

    Raises:
        UnknownName: a joint that there is not.
        WrongValue: a pin that is not [x, y, pitch] or [x, y, pitch, bone].
    """
    channels = dict.fromkeys(CHANNELS, 0.0)
    pins: dict[str, Pin] = {}
    for name in sorted(table, key=lambda n: n[:2] in ("r.", "l.")):
        value = table[name]
        name = ROOT if name == "pelvis" else name
        bare = name[2:] if name[:2] in ("r.", "l.") else name
        names = [name] if bare != name or name in (*AXIAL, ROOT) else [f"{s}.{name}" for s in body.SIDES]
        if name in (*AXIAL,) or bare in LIMB:
            channels.update(dict.fromkeys(names, float(value)))
        elif bare in PINNED or name == ROOT:
            pins.update(dict.fromkeys(names, _pin(value, f"{where}, {name}")))
        else:
            raise UnknownName(kind="joint", name=name, known=(*AXIAL, *LIMB, *PINNED, ROOT), where=where)
    return Pose(channels, pins)


def _pin(value: Any, where: str) -> Pin:
    if not isinstance(value, list) or not 2 <= len(value) <= 4:
        raise WrongValue(where=where, value=value, expected="[x, y, pitch]")
    on = str(value[3]) if len(value) == 4 else ""
    if on and on not in _BONES:
        raise UnknownName(kind="bone", name=on, known=tuple(sorted(_BONES)), where=where)
    return Pin(float(value[0]), float(value[1]), float(value[2]) if len(value) > 2 else 0.0, on)


@dataclass(frozen=True)
class Track:
    """One value over time: cubic Hermite, standing still at stops and without overshoot where it flows.

    Source of the slopes: Fritsch and Carlson 1980.
    """

    times: tuple[float, ...]
    values: tuple[float, ...]
    slopes: tuple[float, ...]

    def __call__(self, t: float) -> float:
        """The value at that second; the first before, the last after."""
        times, values = self.times, self.values
        if t <= times[0]:
            return values[0]
        if t >= times[-1]:
            return values[-1]
        i = bisect_right(times, t) - 1
        a, b = values[i], values[i + 1]
        h = times[i + 1] - times[i]
        u = (t - times[i]) / h
        if a == b and self.slopes[i] == self.slopes[i + 1] == 0:
            return a
        u2, u3 = u * u, u * u * u
        return ((2 * u3 - 3 * u2 + 1) * a + (u3 - 2 * u2 + u) * h * self.slopes[i]
                + (3 * u2 - 2 * u3) * b + (u3 - u2) * h * self.slopes[i + 1])


def track(keys: Sequence[Key], values: Sequence[float]) -> Track:
    """The way through these values, one for each key."""
    times = [key.at_s for key in keys]
    rises = [(b - a) / (u - t) for a, b, t, u in zip(values, values[1:], times, times[1:], strict=False)]
    slopes = [0.0] * len(keys)
    for i in range(1, len(keys) - 1):
        if keys[i].ease is Ease.FLOW and rises[i - 1] * rises[i] > 0:
            before, after = times[i] - times[i - 1], times[i + 1] - times[i]
            one, two = 2 * after + before, after + 2 * before
            slopes[i] = (one + two) / (one / rises[i - 1] + two / rises[i])
    return Track(tuple(times), tuple(values), tuple(slopes))


@dataclass(frozen=True)
class PinnedLimb:
    """A pinned limb over time: in one frame, or on its way from one frame to the next."""

    frames: tuple[str, ...]
    """The bone of each key, or the world's empty name."""
    times: tuple[float, ...]
    x: Track
    y: Track
    pitch: Track

    def at(self, t: float) -> tuple[tuple[float, Pin], ...]:
        """The pins at that second with their shares: one, or the two that it is between."""
        i = min(max(bisect_right(self.times, t) - 1, 0), len(self.times) - 2)
        if self.frames[i] == self.frames[i + 1]:
            return ((1.0, Pin(self.x(t), self.y(t), self.pitch(t), self.frames[i])),)
        u = min(1.0, max(0.0, (t - self.times[i]) / (self.times[i + 1] - self.times[i])))
        share = u * u * (3 - 2 * u)
        return (1 - share, self._key(i)), (share, self._key(i + 1))

    def _key(self, i: int) -> Pin:
        return Pin(self.x.values[i], self.y.values[i], self.pitch.values[i], self.frames[i])


def holds(figure: Figure) -> dict[str, PinnedLimb]:
    """Every pinned limb, feet before hands, since hands may rest on the legs.

    Raises:
        WrongValue: a limb that is held in one pose and not in another.
    """
    keys = figure.keys
    names = sorted({name for key in keys for name in key.pose.pins}, key=lambda n: (n.endswith("hand"), n))
    for key in keys:
        for name in names:
            if name not in key.pose.pins:
                raise WrongValue(where=figure.id, value=f"{key.name} without {name}", expected="it held in every pose")
    return {name: _hold(keys, [key.pose.pins[name] for key in keys]) for name in names}


def _hold(keys: Sequence[Key], pins: Sequence[Pin]) -> PinnedLimb:
    return PinnedLimb(tuple(p.on for p in pins), tuple(k.at_s for k in keys), track(keys, [p.x for p in pins]),
                track(keys, [p.y for p in pins]), track(keys, [p.pitch for p in pins]))
