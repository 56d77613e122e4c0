"""Where things stand on the picture: the frame of each bone as drawn, and the square that holds a whole round."""
from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.domain.figure.drawing.arrow import arrow_head, arrow_line, turned_over
from app.domain.figure.rig.body_model import FigureView, Point, plus
from app.domain.figure.rig.figure_data import Figure, Repeat
from app.domain.figure.rig.links import way
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.shapes import FACE, FLOOR, MASK, NECK, OTHER_EYE, WORLD, Shape, far_shift
from app.domain.figure.rig.solve import State

SIZE = 400
"""Width and height of a picture, px of its own."""
PAD = 5.0
LEAST_SPAN = 84.0
"""A picture is never closer than this, %H, so that a small thing is not drawn huge."""
_SAMPLES = 36
_LOWEST = -2.4
_EYE_REACH, _MASK_REACH = 4.6, 1.6
_EYE_AT = 42.6
"""Where an eye sits on a head in profile, degrees from the viewer."""
#: Roles that may reach over the edge.
_BEYOND = ("glow", "patch", "floor", "wall", "far:chair2")


def frame(figure: Figure, state: State, bone: str) -> tuple[Point, float]:
    """Place and turn of a bone's frame as drawn, far limbs moved aside."""
    if bone == WORLD:
        return (0.0, 0.0), 0.0
    if bone == FLOOR:
        return (-(state.angles["travel"] % figure.stride) if figure.stride else 0.0, 0.0), 0.0
    if bone == NECK:
        return state.places["head"], (state.turns["head"] + state.turns["thorax"]) / 2
    if bone in (FACE, MASK, OTHER_EYE):
        return state.local("head", face_shift(figure, state, bone)), state.turns["head"]
    return plus(state.places[bone], far_shift(figure.view, bone)), state.turns[bone]


def face_shift(figure: Figure, state: State, bone: str) -> Point:
    """How far the face has gone aside on a head that turns."""
    turn = state.angles["turn"]
    if figure.view is FigureView.FRONT:
        reach = _EYE_REACH if bone == FACE else _MASK_REACH
        return reach * math.sin(math.radians(turn)), 0.0
    return _profile_shift(turn, bone) if turn else 0.0, 0.0


def _profile_shift(turn: float, bone: str) -> float:
    """The same in side view: towards the viewer (below 0) the face comes round, away from them it goes to the rim."""
    if bone == MASK:
        return min(0.0, 3.0 * math.sin(math.radians(turn)))
    hidden = bone == OTHER_EYE and turn < 0
    around = math.radians((180 - _EYE_AT if hidden else _EYE_AT) + turn)
    return min(1.3, 6.8 * (math.sin(around) - math.sin(math.radians(_EYE_AT))))


@dataclass(frozen=True)
class Fit:
    """How %H become px: x → ox + x × scale, y → oy − y × scale; and what of the floor is seen, %H."""

    scale: float
    ox: float
    oy: float
    left: float
    right: float


def fit(motion: FigureMotion, shapes: Sequence[Shape], size: float = SIZE) -> Fit:
    """The square that holds a whole round with its arrows."""
    figure = motion.figure
    solid = _solid(shapes)
    boxes = [_box(circles) for circles in _arrow_hulls(motion)]
    for i in range(_SAMPLES):
        boxes += _boxes(figure, motion.at(figure.period_s * i / _SAMPLES), solid)
    xs = [x for box in boxes for x in box[:2]]
    ys = [_LOWEST, *(y for box in boxes for y in box[2:])]
    return _fitted(min(xs), max(xs), min(ys), max(ys), size)


def _fitted(x0: float, x1: float, y0: float, y1: float, size: float) -> Fit:
    wide, high = x1 - x0 + 2 * PAD, y1 - y0 + 2 * PAD
    span = max(wide, high, LEAST_SPAN)
    scale, middle = size / span, (x0 + x1) / 2
    low = high < wide * 0.999 and high < span * 0.75
    oy = size / 2 + (y0 + y1) / 2 * scale if low else size - PAD * scale + y0 * scale
    return Fit(scale, size / 2 - middle * scale, oy, middle - span / 2, middle + span / 2)


def _solid(shapes: Sequence[Shape]) -> list[Shape]:
    """What decides about the square. Outlines lie under fills, so the fills that they hold need no look."""
    outlined = any(s.role in ("outline", "far:outline") for s in shapes)
    return [s for s in shapes if s.role not in _BEYOND and not s.lights
            and (not outlined or s.bone == WORLD or s.role in ("outline", "far:outline"))]


def _boxes(figure: Figure, state: State, shapes: Sequence[Shape]) -> Iterator[tuple[float, float, float, float]]:
    frames: dict[str, tuple[Point, float]] = {}
    for shape in shapes:
        if shape.ends:
            yield _box(tuple((x, y, 1.0) for x, y in way(figure, shape, state)))
            continue
        if shape.bone not in frames:
            frames[shape.bone] = frame(figure, state, shape.bone)
        at, turn = frames[shape.bone]
        a = math.radians(turn)
        c, s = math.cos(a), math.sin(a)
        points = shape.circles or tuple((x, y, 1.0) for x, y in shape.line)
        yield _box(tuple((at[0] + x * c - y * s, at[1] + x * s + y * c, r) for x, y, r in points))


def _box(circles: Sequence[tuple[float, float, float]]) -> tuple[float, float, float, float]:
    return (min(x - r for x, _, r in circles), max(x + r for x, _, r in circles),
            min(y - r for _, y, r in circles), max(y + r for _, y, r in circles))


def _arrow_hulls(motion: FigureMotion) -> Iterator[tuple[tuple[float, float, float], ...]]:
    figure = motion.figure
    for arrow in figure.arrows:
        line = arrow_line(motion, arrow)
        both = (line, turned_over(figure.view, line)) if figure.repeat is Repeat.ALTERNATE else (line,)
        for one in both:
            yield (*((x, y, 1.0) for x, y in one), *arrow_head(one))

