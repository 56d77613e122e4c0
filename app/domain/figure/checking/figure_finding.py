"""What is checked about a figure, what a check finds, and the moments that it looks at.

The limits are limits of drawing and of what a viewer believes; they are no advice about a body.
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from app.domain.figure.rig.body_model import other_side
from app.domain.figure.rig.figure_data import Figure, Repeat
from app.domain.figure.rig.motion import FigureMotion
from app.domain.figure.rig.solve import State

FPS = 60

Moments = Sequence[tuple[float, State]]
"""Seconds and states over a whole period, evenly spread."""


class FigureCheck(StrEnum):
    """What is looked at. The unit stands in the name of its limit."""

    LENGTH = "length"
    LIMIT = "limit"
    REACH = "reach"
    SPEED = "speed"
    LEAP = "leap"
    LOOP = "loop"
    SYMMETRY = "symmetry"
    MIRROR = "mirror"
    SWAP = "swap"
    DRIFT = "drift"
    GAP = "gap"
    FLOOR = "floor"
    BALANCE = "balance"
    HANDS = "hands"
    STRETCH = "stretch"
    FACE = "face"
    MARGIN = "margin"
    THICKNESS = "thickness"
    STILL = "still"
    ROUND = "round"
    LIT = "lit"


@dataclass(frozen=True)
class FigureFinding:
    """One check of one figure: its worst value, what is allowed, and where the worst was found."""

    check: FigureCheck
    value: float
    limit: float
    holds: bool
    note: str = ""


def most(check: FigureCheck, value: float, limit: float, note: str = "") -> FigureFinding:
    """A finding of something that may be so much at the most."""
    return FigureFinding(check, value, limit, value <= limit, note)


def least(check: FigureCheck, value: float, limit: float, note: str = "") -> FigureFinding:
    """A finding of something that has to be so much at least."""
    return FigureFinding(check, value, limit, value >= limit, note)


def moments(motion: FigureMotion, fps: int = FPS) -> list[tuple[float, State]]:
    """The states of a whole period as solved."""
    period = motion.figure.period_s
    return [(i / fps, motion.at(min(i / fps, period - 1e-9))) for i in range(max(2, round(period * fps)))]


class StateSource(StrEnum):
    """Where the states come from; an exported file is rounded."""

    SOLVED = "solved"
    EXPORTED = "exported"


def windows(figure: Figure) -> Iterator[tuple[tuple[str, ...], float, float, str]]:
    """Points that stay, from when to when and on which bone, the mirrored half included."""
    for c in figure.contacts:
        yield c.points, c.start_s, c.end_s, c.on
        if figure.repeat is Repeat.ALTERNATE:
            yield (tuple(other_side(p) for p in c.points), c.start_s + figure.round_s, c.end_s + figure.round_s,
                   other_side(c.on))
