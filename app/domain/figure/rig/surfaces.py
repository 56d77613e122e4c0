"""What a body may rest on: how far a point's skin is from the nearest surface around it."""
from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence

from app.domain.figure.rig.body_model import Point
from app.domain.figure.rig.figure_data import Figure, Prop
from app.domain.figure.rig.props import (
    FRONT_SEAT_HALF,
    MAT_TOP,
    PILLOW_HALF,
    SEAT_HALF,
    chair_faces_viewer,
    is_wide,
    sense,
)

Gap = Callable[[Point, float], float]
"""Gap of a point with a radius, %H, never below 0."""
_ROD, _EDGE = 1.5, 1.0
"""Radius of a chair's back and rails, and how far over an edge a point may stand."""


def floor_gap(at: Point, radius: float) -> float:
    """To the floor."""
    return abs(at[1] - radius)


def surfaces(figure: Figure) -> tuple[Gap, ...]:
    """Every surface that touch may be made with."""
    return floor_gap, *(gap for prop in figure.props for gap in _of(prop, figure))


def _of(prop: Prop, figure: Figure) -> Iterator[Gap]:
    find = _SURFACES.get(prop.kind)
    if find is not None:
        yield from find(prop, figure)
    if "pillow" in prop.values:
        x = prop.number("pillow")
        high = prop.number("top", MAT_TOP if prop.kind == "mat" else 0.0) + prop.number("pillow_h", 2.2)
        yield level(high, x - PILLOW_HALF, x + PILLOW_HALF)


def level(high: float, x0: float, x1: float) -> Gap:
    """A top at that height between two places."""
    def gap(at: Point, radius: float) -> float:
        aside = max(0.0, x0 - _EDGE - at[0], at[0] - x1 - _EDGE)
        return math.hypot(at[1] - radius - high, aside)
    return gap


def upright(x: float, s: int, high: float) -> Gap:
    """A face at that place, +1 to the right of whoever touches it."""
    def gap(at: Point, radius: float) -> float:
        return math.hypot(s * at[0] + radius - s * x, max(0.0, at[1] - high))
    return gap


def rod(points: Sequence[Point], thick: float) -> Gap:
    """Something to hold, along a line through the points."""
    def gap(at: Point, radius: float) -> float:
        return max(0.0, min(_to_line(at, a, b) for a, b in itertools.pairwise(points)) - radius - thick)
    return gap


def anywhere(at: Point, radius: float) -> float:
    """A face behind or beyond the figure, which can be touched wherever the hand is."""
    return 0.0


def _to_line(p: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    long = dx * dx + dy * dy
    u = 0.0 if long == 0 else max(0.0, min(1.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / long))
    return math.hypot(p[0] - a[0] - u * dx, p[1] - a[1] - u * dy)


def _wall(prop: Prop, figure: Figure) -> Iterator[Gap]:
    if prop.values.get("behind"):
        yield anywhere
    else:
        yield upright(prop.number("x"), sense(prop), prop.number("h", 108.0))


def _doorway(prop: Prop, figure: Figure) -> Iterator[Gap]:
    high = prop.number("h", 104.0)
    if is_wide(prop):
        a, b = prop.pair("x")
        yield from (upright(a, -1, high), upright(b, 1, high))
    else:
        x, s = prop.number("x"), sense(prop)
        yield from (upright(x, s, high), anywhere_on(x, s, high))


def anywhere_on(x: float, s: int, high: float) -> Gap:
    """The near face of a jamb seen from the side: whatever lies before its 4 %H of width."""
    def gap(at: Point, radius: float) -> float:
        return max(0.0, s * (x - at[0]) - radius, s * (at[0] - x) - 4.0, at[1] - high)
    return gap


def _door(prop: Prop, figure: Figure) -> Iterator[Gap]:
    if is_wide(prop):
        yield anywhere
    else:
        yield upright(prop.number("x"), sense(prop), prop.number("h", 104.0))


def _worktop(prop: Prop, figure: Figure) -> Iterator[Gap]:
    (x0, x1), top = prop.pair("x"), prop.number("top")
    yield from (level(top, x0, x1), upright(x0, 1, top), upright(x1, -1, top))


def _step(prop: Prop, figure: Figure) -> Iterator[Gap]:
    x0, x1 = prop.pair("x")
    yield level(prop.number("h"), x0, x1)


def _bed(prop: Prop, figure: Figure) -> Iterator[Gap]:
    x0, x1 = prop.pair("x")
    yield level(prop.number("top"), x0, x1)
    yield rod(((x0, prop.number("top") - 1.5), (x1, prop.number("top") - 1.5)), _ROD)


def _rail(prop: Prop, figure: Figure) -> Iterator[Gap]:
    (x0, x1), top, rise = prop.pair("x"), prop.number("top"), prop.number("rise")
    yield rod(((x0, top - 1), (x1, top + rise - 1)), 1.2)


def _chair(prop: Prop, figure: Figure) -> Iterator[Gap]:
    x, seat, back = prop.number("x"), prop.number("seat"), prop.number("back")
    front = chair_faces_viewer(prop, figure)
    w = FRONT_SEAT_HALF if front else SEAT_HALF
    yield level(seat + prop.number("cushion"), x - w, x + w)
    yield rod(((x - w, seat - _ROD), (x + w, seat - _ROD)), _ROD)
    if back and front:
        yield rod(((x - w + 1.5, back), (x + w - 1.5, back)), _ROD)
        yield from (rod(((x + s, seat), (x + s, back)), _ROD) for s in (1.5 - w, w - 1.5))
    elif back:
        f = -1 if prop.number("facing", 1) < 0 else 1
        yield rod(((x - f * w, seat), (x - f * (w + prop.number("rake", 2.5)), back)), _ROD)


_SURFACES: dict[str, Callable[[Prop, Figure], Iterator[Gap]]] = {
    "wall": _wall, "doorway": _doorway, "door": _door, "worktop": _worktop, "step": _step, "bed": _bed, "rail": _rail,
    "chair": _chair,
}


def solid_tops(figure: Figure) -> tuple[tuple[float, float, float], ...]:
    """Tops through which nothing may sink: from, to, height."""
    found = []
    for prop in figure.of_kind("step", "bed"):
        x0, x1 = prop.pair("x")
        found.append((x0, x1, prop.number("h") if prop.kind == "step" else prop.number("top")))
    return tuple(found)
