"""Bands and towels: lines that run from hands and feet through places, and follow them."""
from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

from app.domain.figure.rig.body_model import FigureView, Point, plus
from app.domain.figure.rig.figure_data import Figure, Prop
from app.domain.figure.rig.shapes import FAR_ARM, WORLD, Shape, far_shift
from app.domain.figure.rig.solve import State

WIDTHS = {"band": 1.6, "towel": 2.6}
End = str | Point


def runs(prop: Prop) -> tuple[tuple[End, ...], ...]:
    """The ways that a band takes: one from each hand to where it is tied, or one along its path."""
    for key in ("path", "ends"):
        if prop.ends(key):
            return (prop.ends(key),)
    to = prop.values.get("to", (0.0, 0.0))
    end: End = to if isinstance(to, str) else prop.pair("to")
    return tuple((f"{hand}.palm", end) for hand in prop.words("hands"))


def plane(figure: Figure, prop: Prop, run: Sequence[End]) -> str:
    """`back`, `mid` (over the trunk, behind the near arm) or `front`."""
    stated = prop.word("plane")
    far = figure.view is FigureView.SIDE and any(isinstance(e, str) and e.startswith("l.") for e in run) and (
        not any(isinstance(e, str) and e.startswith("r.") for e in run))
    return stated or ("back" if far else "mid")


def links(figure: Figure, where: str) -> Iterator[Shape]:
    """The bands and towels of a plane."""
    for prop in figure.of_kind("band", "towel"):
        for run in runs(prop):
            if plane(figure, prop, run) == where:
                width = prop.number("width", WIDTHS[prop.kind])
                far = where == "back" and not prop.word("plane") and figure.view is FigureView.SIDE
                if prop.kind == "towel":
                    yield Shape(WORLD, "outline", width=width + 0.9, ends=run)
                yield Shape(WORLD, f"far:{prop.kind}" if far else prop.kind, width=width, ends=run)


def way(figure: Figure, shape: Shape, state: State) -> tuple[Point, ...]:
    """The points that a band runs through now, as drawn."""
    return tuple(_drawn(figure, end, state, shape.is_far) for end in shape.ends)


def _drawn(figure: Figure, end: End, state: State, far: bool) -> Point:
    if isinstance(end, str):
        return plus(state.point(end), far_shift(figure.view, state.skeleton.landmarks[end].bone))
    return plus(end, FAR_ARM) if far else end


def length(run: Sequence[End], state: State) -> float:
    """How long a band is now, %H."""
    points = [state.point(e) if isinstance(e, str) else e for e in run]
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))
