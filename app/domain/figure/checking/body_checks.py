"""Checks of the body itself: lengths, joints, speed, whether the round closes, and left and right."""
from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from app.domain.figure.checking.figure_finding import FPS, FigureCheck, FigureFinding, Moments, StateSource, least, most
from app.domain.figure.rig.body_model import ACROSS, distance
from app.domain.figure.rig.figure_data import Figure, Repeat
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.solve import State, attachment, mirrored

LENGTH_H = {StateSource.SOLVED: 1e-6, StateSource.EXPORTED: 0.05}
LIMIT_DEG, REACH_H, SPEED_DEG_S, LEAP_H_S = 0.5, 0.05, 300.0, 170.0
LOOP_H, SYMMETRY_DEG, MIRROR_H, SWAP_H = 0.1, 0.1, 0.01, 0.2
STILL_H, SHORTEST_S, LONGEST_S = 0.8, 1.2, 30.0
_BOTH = ("hip", "knee", "ankle", "shoulder", "elbow")
_HALF_SAMPLES = 60


def findings(motion: FigureMotion, states: Moments, source: StateSource) -> Iterator[FigureFinding]:
    """Everything about the body."""
    yield _length(motion, states, source)
    yield _limit(motion.figure, states)
    yield most(FigureCheck.REACH, max(state.miss for _, state in states), REACH_H)
    yield _speed(states)
    yield _leap(states)
    yield _loop(motion, states, source)
    if motion.figure.asked.symmetric:
        yield most(FigureCheck.SYMMETRY, max(_unlike(state) for _, state in states), SYMMETRY_DEG)
    if motion.figure.repeat is Repeat.ALTERNATE:
        yield from _halves(motion)
    yield _stillness(motion, states)
    yield _round(motion.figure)


def _length(motion: FigureMotion, states: Moments, source: StateSource) -> FigureFinding:
    worst, note = 0.0, ""
    for t, state in states:
        for bone in motion.skeleton.bones[1:]:
            meant = math.hypot(*attachment(motion.skeleton, state.angles, bone.name, bone.at))
            off = abs(distance(state.places[bone.name], state.places[bone.parent]) - meant)
            if off > worst:
                worst, note = off, f"{bone.name} at {t:.2f} s"
    return most(FigureCheck.LENGTH, worst, LENGTH_H[source], note)


def _limit(figure: Figure, states: Moments) -> FigureFinding:
    limits = states[0][1].skeleton.limits
    worst, note = 0.0, ""
    for t, state in states:
        for joint, value in state.angles.items():
            bare = joint.split(".")[-1]
            if bare == "travel":
                continue
            lo, hi = ACROSS if bare == "shoulder" and joint[0] in figure.across else limits[bare]
            over = max(lo - value, value - hi)
            if over > worst + 1e-9:
                worst, note = over, f"{joint} {value:.0f} at {t:.2f} s, allowed {lo} to {hi}"
    return most(FigureCheck.LIMIT, worst, LIMIT_DEG, note)


def _speed(states: Moments) -> FigureFinding:
    worst, note = 0.0, ""
    for (t, one), (u, other) in itertools.pairwise(states):
        for joint, value in other.angles.items():
            turn = abs(value - one.angles[joint])
            speed = min(turn, abs(360 - turn)) / (u - t)
            if speed > worst and joint != "travel":
                worst, note = speed, f"{joint} at {t:.2f} s"
    return most(FigureCheck.SPEED, worst, SPEED_DEG_S, note)


def _leap(states: Moments) -> FigureFinding:
    worst, note = 0.0, ""
    for (t, one), (u, other) in itertools.pairwise(states):
        speed = distance(one.places["pelvis"], other.places["pelvis"]) / (u - t)
        if speed > worst:
            worst, note = speed, f"at {t:.2f} s"
    return most(FigureCheck.LEAP, worst, LEAP_H_S, note)


def _loop(motion: FigureMotion, states: Moments, source: StateSource) -> FigureFinding:
    one, other = (motion.at(0), motion.last()) if source is StateSource.SOLVED else (states[0][1], states[-1][1])
    apart = max(distance(one.places[bone], other.places[bone]) for bone in one.places)
    # the last sampled state lies a frame before the end
    return most(FigureCheck.LOOP, apart, LOOP_H if source is StateSource.SOLVED else LEAP_H_S / FPS)


def _unlike(state: State) -> float:
    return max(abs(state.angles[f"r.{joint}"] - state.angles[f"l.{joint}"]) for joint in _BOTH)


def _halves(motion: FigureMotion) -> Iterator[FigureFinding]:
    """The second half is the first one mirrored, and the change of sides is not seen."""
    half = motion.figure.round_s
    apart = 0.0
    for i in range(_HALF_SAMPLES):
        t = half * i / _HALF_SAMPLES
        apart = max(apart, _apart(mirrored(motion.at(t)), motion.at(t + half)))
    yield most(FigureCheck.MIRROR, apart, MIRROR_H)
    yield most(FigureCheck.SWAP, _apart(motion.at(half - 1e-6), motion.at(half + 1e-6)), SWAP_H)


def _apart(one: State, other: State) -> float:
    return max(distance(one.places[bone], other.places[bone]) for bone in one.places)


def _stillness(motion: FigureMotion, states: Moments) -> FigureFinding:
    """Something moves, or an arrow says where the pressing goes."""
    first = states[0][1]
    moved = max(distance(first.point(name), state.point(name)) for _, state in states[::5] for name in
                first.skeleton.landmarks)
    more = max(abs(state.angles["turn"]) + abs(state.angles["r.grip"] - first.angles["r.grip"]) for _, state in states)
    told = any(arrow.line for arrow in motion.figure.arrows)
    return least(FigureCheck.STILL, STILL_H if told else moved + more, STILL_H)


def _round(figure: Figure) -> FigureFinding:
    fits = SHORTEST_S <= figure.round_s <= LONGEST_S
    return FigureFinding(FigureCheck.ROUND, figure.round_s, SHORTEST_S, fits, f"{SHORTEST_S} to {LONGEST_S} s")
