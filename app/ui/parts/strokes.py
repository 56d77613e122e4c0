"""Strokes and fills for canvases: as few shapes as can be, since each travels to the screen."""
from __future__ import annotations

from collections.abc import Iterable, Sequence

import flet as ft
import flet.canvas as cv

Point = tuple[float, float]
Box = tuple[float, float, float, float]
"""x0, y0, x1, y1, px."""


def fill(colour: str) -> ft.Paint:
    """A full tone."""
    return ft.Paint(color=colour, style=ft.PaintingStyle.FILL)


def stroke(colour: str, width: float, dash: Sequence[float] | None = None) -> ft.Paint:
    """A line; `dash` gives the lengths of its dashes and gaps."""
    pattern = list(dash) if dash else None
    return ft.Paint(color=colour, stroke_width=width, style=ft.PaintingStyle.STROKE, stroke_dash_pattern=pattern)


def boxes(of: Iterable[Box], paint: ft.Paint) -> list[cv.Shape]:
    """Any number of boxes as one shape, or none."""
    elements: list[cv.Path.PathElement] = [cv.Path.Rect(x0, y0, x1 - x0, y1 - y0) for x0, y0, x1, y1 in of]
    return [cv.Path(elements, paint=paint)] if elements else []


def lines(of: Iterable[tuple[Point, Point]], paint: ft.Paint) -> list[cv.Shape]:
    """Any number of separate lines as one shape, or none."""
    elements: list[cv.Path.PathElement] = []
    for (x0, y0), (x1, y1) in of:
        elements += [cv.Path.MoveTo(x0, y0), cv.Path.LineTo(x1, y1)]
    return [cv.Path(elements, paint=paint)] if elements else []


def polyline(points: Sequence[Point], paint: ft.Paint) -> list[cv.Shape]:
    """One line through all points."""
    if len(points) < 2:
        return []
    start: list[cv.Path.PathElement] = [cv.Path.MoveTo(*points[0])]
    return [cv.Path(start + [cv.Path.LineTo(*p) for p in points[1:]], paint=paint)]


def polygon(points: Sequence[Point], paint: ft.Paint) -> cv.Shape:
    """A closed outline."""
    start: list[cv.Path.PathElement] = [cv.Path.MoveTo(*points[0])]
    return cv.Path([*start, *(cv.Path.LineTo(*p) for p in points[1:]), cv.Path.Close()], paint=paint)


def hatch(of: Iterable[Box], colour: str, width: float = 2, pitch: float = 6) -> list[cv.Shape]:
    """45 degree lines cut to each box, all as one shape; their places depend on x alone, so neighbours join up."""
    return lines((line for box in of for line in _slants(box, pitch)), stroke(colour, width))


def _slants(box: Box, pitch: float) -> Iterable[tuple[Point, Point]]:
    x0, y0, x1, y1 = box
    rise = y1 - y0
    foot = (x0 - rise) // pitch * pitch
    while foot < x1:
        a, b = max(foot, x0), min(foot + rise, x1)
        if b > a:
            yield (a, y1 - (a - foot)), (b, y1 - (b - foot))
        foot += pitch
