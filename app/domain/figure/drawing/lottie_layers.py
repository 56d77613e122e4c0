"""The pieces of a Lottie file: layers, paths, paints. Format: lottie.github.io, version 5.7 of the data."""
from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.domain.figure.drawing.keyframes import short, static
from app.domain.figure.rig.body_model import Point
from app.domain.figure.rig.hull import Circles, curve

Json = dict[str, Any]
NULL, SHAPE = 3, 4


def transform(place: Json | None = None, turn: Json | None = None, scale: Json | None = None,
              strength: Json | None = None) -> Json:
    """A layer's transform; what is left out stays as it is."""
    stated = {"p": place, "r": turn, "s": scale, "o": strength}
    same = {"p": static([0, 0]), "r": static(0)}
    return {key: value for key, value in stated.items() if value is not None and value != same.get(key)}


def layer(number: int, kind: int, ends: float | int, moves: Json, parent: int | None = None, name: str = "",
          shapes: Sequence[Json] = ()) -> Json:
    """A layer: a frame to hang others on, or shapes. `ends` is its last frame."""
    found: Json = {"ind": number, "ty": kind, "ks": moves, "ip": 0, "op": ends, "st": 0}
    if name:
        found["nm"] = name
    if parent is not None:
        found["parent"] = parent
    if kind == SHAPE:
        found["shapes"] = list(shapes)
    return found


def hull_path(circles: Circles) -> Json:
    """The edge of a hull, y downwards."""
    nodes = curve(circles)
    return {"ty": "sh", "ks": static({"c": True, "v": [_down(n.at) for n in nodes],
                                      "i": [_down(n.before) for n in nodes], "o": [_down(n.after) for n in nodes]})}


def line_path(points: Sequence[Point]) -> Json:
    """An open line, y downwards."""
    return {"ty": "sh", "ks": static(line_value(points))}


def line_value(points: Sequence[Point]) -> Json:
    """An open line as the value of a path."""
    flat = [[0, 0]] * len(points)
    return {"c": False, "v": [_down(p) for p in points], "i": flat, "o": flat}


def _down(p: Point) -> list[float | int]:
    return [short(p[0]), short(-p[1])]


def group(path: Json, *paints: Json) -> Json:
    """A path with its paints."""
    return {"ty": "gr", "it": [path, *paints]}


def fill(role: str, alpha: float) -> Json:
    """A fill in the colour of a role."""
    return {"ty": "fl", "c": static(f"@{role}"), "o": static(short(alpha * 100)), "r": 1}


def stroke(role: str, width: float, alpha: float = 1.0) -> Json:
    """A rounded line in the colour of a role."""
    return {"ty": "st", "c": static(f"@{role}"), "o": static(short(alpha * 100)), "w": static(short(width)),
            "lc": 2, "lj": 2}


def linear(t: float, value: Any) -> Json:
    """A keyframe that is left at an even pace."""
    return {"t": short(t, 1), "s": [value], "o": {"x": [0.33], "y": [0.33]}, "i": {"x": [0.67], "y": [0.67]}}


def held(t: float, value: Any) -> Json:
    """A keyframe whose value stays until the next one."""
    return {"t": short(t, 1), "s": value if isinstance(value, list) else [value], "h": 1}
