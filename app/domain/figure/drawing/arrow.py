"""Arrows that show a motion: the way of a point, moved aside, as one clean curve with a head."""
from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from app.domain.figure.rig.body_model import FigureView, Point
from app.domain.figure.rig.figure_data import Arrow
from app.domain.figure.rig.hull import Circles
from app.domain.figure.rig.motion import FigureMotion

WIDTH = 2.3
FADE_S = 0.18
_SAMPLES, _CURVE = 24, 16
_HEAD, _ROUND = 4.6, 0.55


def arrow_line(motion: FigureMotion, arrow: Arrow) -> tuple[Point, ...]:
    """The middle line of an arrow, from its tail to its head."""
    if arrow.line:
        (x0, y0), (x1, y1) = arrow.line[0], arrow.line[-1]
        return tuple((x0 + (x1 - x0) * i / _CURVE, y0 + (y1 - y0) * i / _CURVE) for i in range(_CURVE + 1))
    points = _straightened(_tracked(motion, arrow), arrow.axis)
    total = _length(points)
    if total < 1e-6:
        return tuple(points)
    if total < arrow.least:
        points = _lengthened(points, arrow.least)
    lo, hi = arrow.trim
    return _curve(_along(points, lo), _along(points, (lo + hi) / 2), _along(points, hi))


def _tracked(motion: FigureMotion, arrow: Arrow) -> list[Point]:
    step = (arrow.end_s - arrow.start_s - 1e-6) / _SAMPLES
    states = (motion.at(arrow.start_s + step * i) for i in range(_SAMPLES + 1))
    return [(p[0] + arrow.shift[0], p[1] + arrow.shift[1]) for p in (s.point(arrow.track) for s in states)]


def _straightened(points: list[Point], axis: str) -> list[Point]:
    """The points along one axis alone, where one is named."""
    if axis == "y":
        mean = sum(x for x, _ in points) / len(points)
        return [(mean, y) for _, y in points]
    if axis == "x":
        mean = sum(y for _, y in points) / len(points)
        return [(x, mean) for x, _ in points]
    return points


def _length(points: Sequence[Point]) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def _lengthened(points: list[Point], least: float) -> list[Point]:
    """A short motion as a straight line about its middle."""
    a, b = points[0], points[-1]
    away = math.dist(a, b) or 1.0
    ux, uy = (b[0] - a[0]) / away * least / 2, (b[1] - a[1]) / away * least / 2
    x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    return [(x - ux, y - uy), (x + ux, y + uy)]


def _along(points: Sequence[Point], share: float) -> Point:
    left = _length(points) * share
    for a, b in itertools.pairwise(points):
        here = math.dist(a, b)
        if left <= here and here > 0:
            return a[0] + (b[0] - a[0]) * left / here, a[1] + (b[1] - a[1]) * left / here
        left -= here
    return points[-1]


def _curve(a: Point, b: Point, c: Point) -> tuple[Point, ...]:
    """One curve through start, middle and end."""
    q = (2 * b[0] - (a[0] + c[0]) / 2, 2 * b[1] - (a[1] + c[1]) / 2)
    return tuple(((1 - u) ** 2 * a[0] + 2 * u * (1 - u) * q[0] + u * u * c[0],
                  (1 - u) ** 2 * a[1] + 2 * u * (1 - u) * q[1] + u * u * c[1])
                 for u in (i / _CURVE for i in range(_CURVE + 1)))


def arrow_head(line: Sequence[Point]) -> Circles:
    """The head at the end of a line."""
    (x0, y0), (x, y) = line[-4], line[-1]
    a = math.atan2(y - y0, x - x0)
    c, s = math.cos(a) * _HEAD, math.sin(a) * _HEAD
    return ((x + c * 0.75, y + s * 0.75, _ROUND), (x - c * 0.35 - s * 0.72, y - s * 0.35 + c * 0.72, _ROUND),
            (x - c * 0.35 + s * 0.72, y - s * 0.35 - c * 0.72, _ROUND))


def arrow_strength(arrow: Arrow, within_s: float) -> float:
    """0–1 at that second of the round."""
    return max(0.0, min(1.0, (within_s - arrow.start_s) / FADE_S, (arrow.end_s - within_s) / FADE_S))


def turned_over(view: FigureView, line: tuple[Point, ...]) -> tuple[Point, ...]:
    """The line when the other side does it."""
    return tuple((-x, y) for x, y in line) if view is FigureView.FRONT else line
