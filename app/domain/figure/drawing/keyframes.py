"""Values over time turned into as few eased keyframes as stay within a tolerance.

A keyframe pair with its two handles is exactly a cubic Hermite piece, so what was authored survives the export.
"""
from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.solve import State

FRAMES_S = 60
"""Frames a second of an exported figure."""
_GRID_S = 1 / 50
_DT = 1e-4
_END = 1e-9
_FLAT = 1e-3

Channel = Callable[[State], float]


@dataclass(frozen=True)
class Piece:
    """One cubic piece, seconds, from value to value with a slope at each end."""

    start: float
    end: float
    a: float
    b: float
    rise_a: float
    rise_b: float

    def at(self, u: float) -> float:
        """The value at a share of the piece."""
        h, u2, u3 = self.end - self.start, u * u, u * u * u
        return ((2 * u3 - 3 * u2 + 1) * self.a + (u3 - 2 * u2 + u) * h * self.rise_a
                + (3 * u2 - 2 * u3) * self.b + (u3 - u2) * h * self.rise_b)


class Sampled:
    """The states of a motion on a grid that every channel shares, so that each is solved once."""

    def __init__(self, motion: FigureMotion) -> None:
        self.period = motion.figure.period_s
        self.knots = motion.knots_s
        times: set[float] = set()
        self._cells: list[list[float]] = []
        for a, b in zip(self.knots, self.knots[1:], strict=False):
            count = 2 ** max(2, math.ceil(math.log2((b - a) / _GRID_S)))
            cell = [a + (b - a) * i / count for i in range(count)] + [b]
            self._cells.append(cell)
            times.update(cell)
            times.update((a + _DT, b - _DT))
        self.times = sorted(times)
        self.states = [motion.at(min(t, self.period - _END)) for t in self.times]

    def pieces(self, channel: Channel, tolerance: float) -> list[Piece]:
        """The fewest halvings of the stretches between keys that stay within the tolerance."""
        values = self.values(channel)
        known = dict(zip(self.times, values, strict=True))
        found: list[Piece] = []
        for cell in self._cells:
            self._fit(cell, known, tolerance, found)
        return found

    def values(self, channel: Channel) -> list[float]:
        """The channel at every time, without jumps of a whole turn."""
        found: list[float] = []
        for state in self.states:
            value = channel(state)
            if found and abs(value - found[-1]) > 180:
                value += 360 * round((found[-1] - value) / 360)
            found.append(value)
        return found

    def _fit(self, cell: Sequence[float], known: dict[float, float], tolerance: float, found: list[Piece]) -> None:
        start, end = cell[0], cell[-1]
        piece = Piece(start, end, known[start], known[end], self._slope(known, start, 1), self._slope(known, end, -1))
        if len(cell) > 3 and _off(piece, cell, known) > tolerance:
            middle = len(cell) // 2
            self._fit(cell[: middle + 1], known, tolerance, found)
            self._fit(cell[middle:], known, tolerance, found)
        else:
            found.append(piece)

    def _slope(self, known: dict[float, float], t: float, side: int) -> float:
        """From the nearest sample on that side."""
        place = bisect_left(self.times, t)
        other = self.times[place + side]
        inner = self.times[place - side] if 0 <= place - side < len(self.times) else t
        if abs(other - t) > 2 * _DT and abs(inner - t) > 2 * _DT:
            return (known[other] - known[inner]) / (other - inner)
        return (known[other] - known[t]) / (other - t)


def _off(piece: Piece, cell: Sequence[float], known: dict[float, float]) -> float:
    flat = abs(piece.b - piece.a) < _FLAT
    long = piece.end - piece.start
    worst = 0.0
    for t in cell[1:-1]:
        u = (t - piece.start) / long
        # an easing cannot bulge between equal ends, so such a piece is played as a line
        value = piece.a + (piece.b - piece.a) * u if flat else piece.at(u)
        worst = max(worst, abs(value - known[t]))
    return worst


def keyframes(pieces: Sequence[Piece], tolerance: float, places: int = 2) -> dict[str, Any]:
    """An animatable number as Lottie writes it: one value, or keyframes with handles."""
    values = [piece.a for piece in pieces] + [pieces[-1].b]
    if max(values) - min(values) < tolerance:
        return static(short(values[0], places))
    keys: list[dict[str, Any]] = []
    still = False
    for piece in pieces:
        rests = abs(piece.b - piece.a) < max(_FLAT, tolerance * 0.1)
        key = {"t": short(piece.start * FRAMES_S, 1), "s": [short(piece.a, places)], **_handles(piece, rests)}
        if not (rests and still and keys[-1]["s"] == key["s"]):
            keys.append(key)
        still = rests
    keys.append({"t": short(pieces[-1].end * FRAMES_S, 1), "s": [short(pieces[-1].b, places)]})
    return {"a": 1, "k": keys}


def _handles(piece: Piece, rests: bool) -> dict[str, Any]:
    out, into = 0.33, 0.67
    if not rests:
        reach = (piece.end - piece.start) / (3 * (piece.b - piece.a))
        out, into = short(piece.rise_a * reach, 3), short(1 - piece.rise_b * reach, 3)
    return {"o": {"x": [0.33], "y": [out]}, "i": {"x": [0.67], "y": [into]}}


def static(value: Any) -> dict[str, Any]:
    """A value that does not change, as Lottie writes it."""
    return {"a": 0, "k": value}


def short(value: float, places: int = 2) -> float | int:
    """A number in as few signs as it takes."""
    rounded = round(value, places)
    return int(rounded) if rounded == int(rounded) else rounded
