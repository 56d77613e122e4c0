"""A still picture of a figure: one moment as SVG, its colours left open as `@role` for `colours`."""
from __future__ import annotations

import math
from collections.abc import Iterator

from app.domain.figure.drawing.arrow import WIDTH, arrow_head, arrow_line, arrow_strength, turned_over
from app.domain.figure.drawing.display import Display, floor
from app.domain.figure.drawing.picture_frame import SIZE, fit, frame
from app.domain.figure.rig.body_model import Point
from app.domain.figure.rig.figure_data import Figure
from app.domain.figure.rig.hull import Circles, arcs
from app.domain.figure.rig.links import way
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.shapes import Shape
from app.domain.figure.rig.solve import State


class Stills:
    """Draws moments of one figure, all in the same square."""

    def __init__(self, motion: FigureMotion) -> None:
        self.motion, self.figure = motion, motion.figure
        self.shapes = Display(motion.figure).shapes
        self.fit = fit(motion, self.shapes)
        self._arrows = [(arrow, arrow_line(motion, arrow)) for arrow in self.figure.arrows]

    def svg(self, at_s: float) -> str:
        """The moment as SVG, `SIZE` px square, y downwards."""
        state, place = self.motion.at(at_s), self.fit
        inner = "".join(self._parts(state, at_s))
        k = _n(place.scale, 4)
        move = f"matrix({k} 0 0 -{k} {_n(place.ox)} {_n(place.oy)})"
        return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {SIZE} {SIZE}"><g stroke-linecap="round" '
                f'stroke-linejoin="round" transform="{move}">{inner}</g></svg>')

    def _parts(self, state: State, at_s: float) -> Iterator[str]:
        yield hull_svg(floor(self.fit.left, self.fit.right).circles, "floor", 1.0)
        bone = ""
        run: list[str] = []
        for shape in self.shapes:
            drawn = self._shape(shape, state)
            if drawn and shape.bone != bone:
                yield _grouped(self.figure, state, bone, run)
                bone, run = shape.bone, []
            run.append(drawn)
        yield _grouped(self.figure, state, bone, run)
        yield from self._arrow_parts(state, at_s)

    def _shape(self, shape: Shape, state: State) -> str:
        alpha = shape.alpha
        if shape.lights:
            here = shape.half is None or shape.half == int(state.mirrored)
            alpha *= max(0.0, min(1.0, state.effort)) if here else 0.0
        if alpha < 0.01:
            return ""
        if shape.ends:
            return _line(way(self.figure, shape, state), shape.role, shape.width, alpha)
        if shape.line:
            return _line(shape.line, shape.role, shape.width, alpha)
        return hull_svg(shape.circles, shape.role, alpha)

    def _arrow_parts(self, state: State, at_s: float) -> Iterator[str]:
        within = at_s - self.figure.round_s if state.mirrored else at_s
        for arrow, line in self._arrows:
            strength = arrow_strength(arrow, within)
            if strength > 0.01:
                drawn = turned_over(self.figure.view, line) if state.mirrored else line
                yield _line(drawn, "arrow", WIDTH, strength)
                yield hull_svg(arrow_head(drawn), "arrow", strength)


def moments(figure: Figure) -> tuple[float, float]:
    """The start, and the turn: where the pose differs most from the first one, seconds."""
    return 0.0, _furthest(figure)


def _furthest(figure: Figure) -> float:
    """When the pose differs most from the first one."""
    def apart(number: int) -> float:
        one, other = figure.keys[0].pose, figure.keys[number].pose
        angles = sum(abs(v - one.channels[k]) for k, v in other.channels.items() if k != "travel")
        return angles + sum(abs(pin.x - one.pins[k].x) + abs(pin.y - one.pins[k].y) for k, pin in other.pins.items())
    return figure.keys[max(range(len(figure.keys)), key=apart)].at_s


def _grouped(figure: Figure, state: State, bone: str, run: list[str]) -> str:
    inner = "".join(run)
    if not inner:
        return ""
    (x, y), turn = frame(figure, state, bone)
    if (x, y, turn) == (0.0, 0.0, 0.0):
        return inner
    a = math.radians(turn)
    c, s = _n(math.cos(a), 4), _n(math.sin(a), 4)
    return f'<g transform="matrix({c} {s} {_n(-math.sin(a), 4)} {c} {_n(x)} {_n(y)})">{inner}</g>'


def hull_svg(circles: Circles, role: str, alpha: float) -> str:
    """A filled hull as it stands in a file."""
    found = arcs(circles)
    if len(found) == 1:
        one = found[0]
        return f'<circle cx="{_n(one.x)}" cy="{_n(one.y)}" r="{_n(one.r)}" {_fill(role, alpha)}/>'
    way = []
    for number, arc in enumerate(found):
        a, b = _rim(arc.x, arc.y, arc.r, arc.start), _rim(arc.x, arc.y, arc.r, arc.end)
        large = int(arc.end - arc.start > math.pi)
        way.append(f"{'L' if number else 'M'}{a}A{_n(arc.r)} {_n(arc.r)} 0 {large} 1 {b}")
    return f'<path d="{"".join(way)}Z" {_fill(role, alpha)}/>'


def _rim(x: float, y: float, r: float, a: float) -> str:
    return f"{_n(x + r * math.cos(a))} {_n(y + r * math.sin(a))}"


def _fill(role: str, alpha: float) -> str:
    return f'fill="@{role}"' + ("" if alpha > 0.995 else f' fill-opacity="{_n(alpha)}"')


def _line(points: tuple[Point, ...], role: str, width: float, alpha: float) -> str:
    way = "".join(f"{'L' if i else 'M'}{_n(x)} {_n(y)}" for i, (x, y) in enumerate(points))
    faint = "" if alpha > 0.995 else f' stroke-opacity="{_n(alpha)}"'
    return f'<path d="{way}" fill="none" stroke="@{role}" stroke-width="{_n(width)}"{faint}/>'


def _n(value: float, places: int = 2) -> str:
    """A number in as few signs as it takes."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def still_pair(motion: FigureMotion) -> tuple[str, str]:
    """Start and turn as SVG."""
    stills = Stills(motion)
    start, turn = moments(motion.figure)
    return stills.svg(start), stills.svg(turn)

