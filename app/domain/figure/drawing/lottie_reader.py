"""Reads an exported figure as a player would: easing, parents, and where each bone then is.

It shares nothing with the export but the names of the frames, so that what is checked is what will be seen.
"""
from __future__ import annotations

import json
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from app.domain.figure.rig.body_model import Point, minus, plus, turned
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.shapes import far_shift
from app.domain.figure.rig.solve import State

_STEPS = 24
_NULL = 3


class ExportedFigure:
    """An exported figure that can be asked where its frames are at a moment."""

    def __init__(self, text: str) -> None:
        self.document: Mapping[str, Any] = json.loads(text)
        layers = self.document["layers"]
        self._by_number = {layer["ind"]: layer for layer in layers}
        self.frames = {layer["nm"]: layer for layer in layers if layer["ty"] == _NULL}
        self.rate = float(self.document["fr"])

    def at(self, t: float) -> dict[str, tuple[Point, float]]:
        """Every frame's place, %H, and turn, degrees, at that second; the room is the origin."""
        found: dict[str, tuple[Point, float]] = {"world": ((0.0, 0.0), 0.0)}
        for name in self.frames:
            self._frame(name, t * self.rate, found)
        return found

    def _frame(self, name: str, at: float, found: dict[str, tuple[Point, float]]) -> tuple[Point, float]:
        if name not in found:
            layer = self.frames[name]
            place, turn = self._frame(self._by_number[layer["parent"]]["nm"], at, found)
            moves = layer["ks"]
            x, y = _place(moves["p"], at) if "p" in moves else (0.0, 0.0)
            found[name] = plus(place, turned((x, -y), turn)), turn - (value_at(moves["r"], at) if "r" in moves else 0.0)
        return found[name]

    def states(self, motion: FigureMotion, solved: list[tuple[float, State]]) -> list[tuple[float, State]]:
        """The same moments with every bone where the file puts it; what no file says is taken from the solved ones."""
        found = []
        for t, state in solved:
            frames = self.at(t)
            places = {bone: minus(frames[bone][0], far_shift(motion.figure.view, bone)) for bone in state.places}
            turns = {bone: frames[bone][1] for bone in state.turns}
            found.append((t, replace(state, places=places, turns=turns)))
        return found


def _place(prop: Mapping[str, Any], at: float) -> Point:
    if prop.get("s") is True:
        return value_at(prop["x"], at), value_at(prop["y"], at)
    if not prop["a"]:
        return prop["k"][0], prop["k"][1]
    keys = prop["k"]
    place = max(0, bisect_right([key["t"] for key in keys], at) - 1)
    x, y = keys[place]["s"]
    return x, y


def value_at(prop: Mapping[str, Any], at: float) -> float:
    """An animated number at that frame."""
    if not prop["a"]:
        return float(prop["k"])
    keys = prop["k"]
    place = bisect_right([key["t"] for key in keys], at) - 1
    if place < 0:
        return float(keys[0]["s"][0])
    key = keys[place]
    if place == len(keys) - 1 or key.get("h"):
        return float(key["s"][0])
    after = keys[place + 1]
    u = (at - key["t"]) / (after["t"] - key["t"])
    return float(key["s"][0] + (after["s"][0] - key["s"][0]) * _eased(key["o"], key["i"], u))


def _eased(out: Mapping[str, Any], into: Mapping[str, Any], u: float) -> float:
    """Where the curve with these handles is when its x is `u`."""
    x1, y1, x2, y2 = out["x"][0], out["y"][0], into["x"][0], into["y"][0]
    lo, hi = 0.0, 1.0
    for _ in range(_STEPS):
        middle = (lo + hi) / 2
        lo, hi = (middle, hi) if _cubic(x1, x2, middle) < u else (lo, middle)
    return _cubic(y1, y2, (lo + hi) / 2)


def _cubic(a: float, b: float, p: float) -> float:
    return 3 * (1 - p) ** 2 * p * a + 3 * (1 - p) * p * p * b + p**3
