"""The one shape that everything visible is made of: the convex hull of circles."""
from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from app.domain.figure.rig.body_model import Point

Circle = tuple[float, float, float]
Circles = tuple[Circle, ...]
_DIRECTIONS = 720
_QUARTER = math.pi / 2


@dataclass(frozen=True, slots=True)
class Arc:
    """A piece of a circle on the hull's edge, counter-clockwise, radians. Arcs are joined by straight lines."""

    x: float
    y: float
    r: float
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Node:
    """A corner of a closed curve with its two handles, relative to it."""

    at: Point
    before: Point
    after: Point


def grown(circles: Circles, by: float) -> Circles:
    """The circles with larger radii."""
    return tuple((x, y, r + by) for x, y, r in circles)


@lru_cache(maxsize=8192)
def arcs(circles: Circles) -> tuple[Arc, ...]:
    """The edge of the hull. Circles without a radius above 0 are left out."""
    round_ones = [c for c in circles if c[2] > 0]
    order = _outermost(round_ones)
    if len(order) == 1:
        x, y, r = round_ones[order[0]]
        return (Arc(x, y, r, 0.0, 2 * math.pi),)
    takes_over = [_tangent(round_ones[a], round_ones[b]) for a, b in zip(order, order[1:] + order[:1], strict=True)]
    found = []
    for place, which in enumerate(order):
        start, end = takes_over[place - 1], takes_over[place]
        x, y, r = round_ones[which]
        found.append(Arc(x, y, r, start, start + (end - start + 1e-9) % (2 * math.pi) - 1e-9))
    return tuple(found)


def _outermost(circles: list[Circle]) -> list[int]:
    """Which circle lies furthest out, all the way round, without repetitions."""
    found: list[int] = []
    for step in range(_DIRECTIONS):
        a = 2 * math.pi * step / _DIRECTIONS
        c, s = math.cos(a), math.sin(a)
        reach = [x * c + y * s + r for x, y, r in circles]
        which = reach.index(max(reach))
        if not found or found[-1] != which:
            found.append(which)
    return found[:-1] if len(found) > 1 and found[0] == found[-1] else found


def _tangent(one: Circle, other: Circle) -> float:
    """The direction in which the second circle takes over from the first."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    return math.atan2(dy, dx) - math.acos(max(-1.0, min(1.0, (one[2] - other[2]) / math.hypot(dx, dy))))


@lru_cache(maxsize=8192)
def curve(circles: Circles) -> tuple[Node, ...]:
    """The edge as a closed cubic curve."""
    found: list[Node] = []
    for arc in arcs(circles):
        pieces = max(1, math.ceil((arc.end - arc.start) / _QUARTER - 1e-6))
        turn = (arc.end - arc.start) / pieces
        handle = 4 / 3 * math.tan(turn / 4) * arc.r
        for piece in range(pieces + 1):
            a = arc.start + turn * piece
            at = (arc.x + arc.r * math.cos(a), arc.y + arc.r * math.sin(a))
            along = (-math.sin(a) * handle, math.cos(a) * handle)
            node = Node(at, (-along[0], -along[1]) if piece else (0.0, 0.0), along if piece < pieces else (0.0, 0.0))
            _append(found, node)
    if len(found) > 1 and math.dist(found[0].at, found[-1].at) < 1e-4:
        found[0] = Node(found[0].at, found.pop().before, found[0].after)
    return tuple(found)


def _append(found: list[Node], node: Node) -> None:
    """Adds a node, or joins it to the last one where both are at the same place."""
    if found and math.dist(found[-1].at, node.at) < 1e-4:
        found[-1] = Node(found[-1].at, found[-1].before, node.after if node.after != (0.0, 0.0) else found[-1].after)
    else:
        found.append(node)


def outside(circles: Circles, at: Point, directions: int = 72) -> float:
    """How far a point is from the hull; negative within it."""
    found = -math.inf
    for step in range(directions):
        a = 2 * math.pi * step / directions
        c, s = math.cos(a), math.sin(a)
        found = max(found, at[0] * c + at[1] * s - max(x * c + y * s + r for x, y, r in circles))
    return found


def inside(x: float, y: float, r: float, *touching: tuple[float, float]) -> Circles:
    """Circles that touch the given one from within, each so far from its middle and in that direction, degrees."""
    return tuple((x + away * math.cos(math.radians(a)), y + away * math.sin(math.radians(a)), r - away)
                 for away, a in touching)


def bar(x0: float, y0: float, x1: float, y1: float, r: float) -> Circles:
    """A rod from one point to another, twice as thick as `r`."""
    return (x0, y0, r), (x1, y1, r)
