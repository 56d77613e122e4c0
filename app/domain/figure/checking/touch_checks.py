"""Checks of what touches what: no sliding, no gap, nothing through the floor, and the body over its feet."""
from __future__ import annotations

from collections.abc import Iterator

from app.domain.figure.checking.figure_finding import (
    FigureCheck,
    FigureFinding,
    Moments,
    StateSource,
    least,
    most,
    windows,
)
from app.domain.figure.rig.body_model import SIDES, FigureView, Stance, distance, minus, turned
from app.domain.figure.rig.figure_data import Figure, Ground
from app.domain.figure.rig.hull import outside
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.shapes import looks
from app.domain.figure.rig.solve import State
from app.domain.figure.rig.surfaces import solid_tops, surfaces

DRIFT_H, GAP_H, ON_BODY_H, FLOOR_H = 1.0, 1.0, 1.5, 0.5
BALANCE_H = {Ground.STANDING: 0.5, Ground.HAND: -1.5, Ground.MOVING: -6.0}
"""How far within its feet the centre of mass is; below 0 is outside. The two negative ones are conventions."""
_SOLES = ("heel", "ball", "sole")
_NEVER_LOW = ("ankle", "wrist", "hip")
_UNDER = 8.0
"""%H below a top from which on something is under it and not in it."""
_EVERY = 3


def findings(motion: FigureMotion, states: Moments, source: StateSource) -> Iterator[FigureFinding]:
    """Everything about touch."""
    yield _drift(motion.figure, states)
    yield _gap(motion.figure, states)
    yield _floor(motion.figure, states)
    if motion.figure.asked.ground is not Ground.NONE:
        yield _balance(motion.figure, states)


def _within(states: Moments, start: float, end: float) -> list[tuple[float, State]]:
    return [(t, state) for t, state in states if start - 1e-9 <= t <= end + 1e-9]


def _drift(figure: Figure, states: Moments) -> FigureFinding:
    worst, note = 0.0, ""
    for points, start, end, on in windows(figure):
        held = [] if on else _within(states, start, end)
        for name in points:
            first = _on_floor(held[0][1], name) if held else (0.0, 0.0)
            for t, state in held:
                off = distance(_on_floor(state, name), first)
                if off > worst:
                    worst, note = off, f"{name} at {t:.2f} s"
    return most(FigureCheck.DRIFT, worst, DRIFT_H, note)


def _on_floor(state: State, name: str) -> tuple[float, float]:
    """Where a point is on a floor that goes back."""
    x, y = state.point(name)
    return x + state.angles["travel"], y


def _gap(figure: Figure, states: Moments) -> FigureFinding:
    around = surfaces(figure)
    worst, note = 0.0, ""
    for points, start, end, on in windows(figure):
        held = _within(states, start, end)
        for t, state in held[::_EVERY] if on else held[:1]:
            for name in points:
                at, radius = state.point(name), state.skeleton.landmarks[name].radius
                gap = _to_body(state, on, at, radius) * GAP_H / ON_BODY_H if on else min(s(at, radius) for s in around)
                if gap > worst:
                    worst, note = gap, f"{name} at {t:.2f} s" + (f" on {on}" if on else "")
    return most(FigureCheck.GAP, worst, GAP_H, note)


def _to_body(state: State, bone: str, at: tuple[float, float], radius: float) -> float:
    """From a point's skin to the hulls of a bone."""
    seated = state.skeleton.lengths["r.thigh"] < 10 and state.skeleton.view is FigureView.FRONT
    hulls = looks(state.skeleton, frozenset(), seated, False)[bone]
    local = turned(minus(at, state.places[bone]), -state.turns[bone])
    return max(0.0, min(outside(circles, local) for _, circles in hulls) - radius)


def _floor(figure: Figure, states: Moments) -> FigureFinding:
    worst, note = 0.0, ""
    tops = solid_tops(figure) if figure.stance is not Stance.SEATED else ()
    for t, state in states:
        for name, mark in state.skeleton.landmarks.items():
            if name.split(".")[-1] in _NEVER_LOW:
                continue
            x, y = state.point(name)
            low = mark.radius - y
            for x0, x1, top in tops:
                if x0 + 2.5 < x < x1 - 2.5 and y > top - _UNDER:
                    low = max(low, top - y + mark.radius)
            if low > worst:
                worst, note = low, f"{name} at {t:.2f} s"
    return most(FigureCheck.FLOOR, worst, FLOOR_H, note)


def _balance(figure: Figure, states: Moments) -> FigureFinding:
    asked = figure.asked
    loads = tuple((f"{h}.hand", prop.number("mass")) for prop in figure.of_kind("dumbbell")
                  for h in prop.words("hands"))
    start, end = asked.ground_s or (0.0, figure.period_s)
    standing = [(points, a, b) for points, a, b, on in windows(figure) if not on]
    worst, note = 1e9, ""
    for t, state in _within(states, start, end):
        reach = [x for points, a, b in standing if a - 1e-9 <= t <= b + 1e-9 for name in points
                 for x in _sole(state, name)]
        if reach:
            x = state.centre_of_mass(loads)[0]
            margin = min(x - min(reach), max(reach) - x)
            if margin < worst:
                worst, note = margin, f"at {t:.2f} s: {x:.1f} over {min(reach):.1f} to {max(reach):.1f}"
    return least(FigureCheck.BALANCE, worst, BALANCE_H[asked.ground], note or "no foot on the ground")


def _sole(state: State, name: str) -> Iterator[float]:
    """From where to where a point of the foot carries."""
    if name.split(".")[-1] not in _SOLES or name[0] not in SIDES:
        return
    x = state.point(name)[0]
    if state.skeleton.view is FigureView.FRONT:
        half = 2.8 if name.endswith("ball") else 2.5
        yield from (x - half, x + half)
    elif name.endswith("heel"):
        yield from (x, x - 1.5)
    else:
        yield from (x, state.point(f"{name[0]}.toetip")[0])
