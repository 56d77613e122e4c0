"""Checks of what a viewer sees: hands and their things, bands, the face, size on the picture, what lights up."""
from __future__ import annotations

from collections.abc import Iterator

from app.domain.figure.checking.figure_finding import FigureCheck, FigureFinding, Moments, StateSource, least, windows
from app.domain.figure.drawing.display import Display
from app.domain.figure.drawing.picture_frame import SIZE, fit
from app.domain.figure.rig.body_model import HEAD_CENTRE, HEAD_RADIUS, PALM, SIDES, FigureView, distance
from app.domain.figure.rig.figure_data import Figure, Prop
from app.domain.figure.rig.links import length, runs
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.muscles import lit
from app.domain.figure.rig.props import dumbbell

HANDS_H, FACE_H, STRETCH, MARGIN_PX, THICKNESS_PX = 0.5, -1.0, 1.0, 4.0, 12.0
_THINNEST = 5.0
"""How thick a forearm is, %H."""
_EVERY = 6


def findings(motion: FigureMotion, states: Moments, source: StateSource) -> Iterator[FigureFinding]:
    """Everything about the picture."""
    figure = motion.figure
    for prop in figure.of_kind("dumbbell"):
        yield _hands(figure, prop)
    for prop in figure.of_kind("band"):
        if prop.number("rest"):
            yield _stretch(prop, states)
    yield _face(figure, states)
    place = fit(motion, Display(figure).shapes)
    yield least(FigureCheck.THICKNESS, _THINNEST * place.scale, THICKNESS_PX)
    yield _margin(motion, states)
    yield least(FigureCheck.LIT, len(lit(figure)), 1)


def _hands(figure: Figure, prop: Prop) -> FigureFinding:
    """A dumbbell sits in the palm, and where both sides do the same, in both."""
    hulls = [shape.circles for shape in dumbbell("r.hand", False) if shape.role == "metal"]
    middle = tuple(sum(c[axis] for hull in hulls for c in hull) / sum(map(len, hulls)) for axis in (0, 1))
    off = distance((middle[0], middle[1]), PALM)
    hands = prop.words("hands")
    fits = bool(hands) and set(hands) <= set(SIDES) and (len(hands) == 2 or not figure.asked.symmetric)
    return FigureFinding(FigureCheck.HANDS, off, HANDS_H, fits and off <= HANDS_H, "" if fits else "wrong hands")


def _stretch(prop: Prop, states: Moments) -> FigureFinding:
    rest = prop.number("rest")
    return least(FigureCheck.STRETCH, min(length(run, state) for run in runs(prop) for _, state in states) / rest,
                 STRETCH)


def _face(figure: Figure, states: Moments) -> FigureFinding:
    """No palm on the head, unless it is meant to lie there."""
    meant = {p for points, _, _, on in windows(figure) if on in ("head", "neck") for p in points}
    centre = (0.8 if figure.view is FigureView.SIDE else 0.0, HEAD_CENTRE)
    worst, note = 1e9, ""
    for t, state in states:
        head = state.local("head", centre)
        for s in SIDES:
            gap = distance(state.point(f"{s}.palm"), head) - HEAD_RADIUS - 1.9
            if gap < worst and f"{s}.palm" not in meant and s not in figure.arms_behind_head:
                worst, note = gap, f"{s}.palm at {t:.2f} s"
    return least(FigureCheck.FACE, worst, FACE_H, note)


def _margin(motion: FigureMotion, states: Moments) -> FigureFinding:
    """Every named point stays on the picture."""
    figure = motion.figure
    place = fit(motion, Display(figure).shapes)
    worst, note = 1e9, ""
    for t, state in states[::_EVERY]:
        for name, mark in state.skeleton.landmarks.items():
            x, y = state.point(name)
            px, py, r = place.ox + x * place.scale, place.oy - y * place.scale, mark.radius * place.scale
            room = min(px - r, SIZE - px - r, py - r, SIZE - py - r)
            if room < worst:
                worst, note = room, f"{name} at {t:.2f} s"
    return least(FigureCheck.MARGIN, worst, MARGIN_PX, note)
