"""Whether a figure can be shown: all checks of one figure together."""
from __future__ import annotations

from collections.abc import Callable, Iterator

from app.domain.figure.checking import body_checks, picture_checks, touch_checks
from app.domain.figure.checking.figure_finding import FigureFinding, Moments, StateSource, moments
from app.domain.figure.rig.motion import FigureMotion

Checker = Callable[[FigureMotion, Moments, StateSource], Iterator[FigureFinding]]


def check_figure(motion: FigureMotion, states: Moments | None = None,
                 source: StateSource = StateSource.SOLVED) -> tuple[FigureFinding, ...]:
    """Every finding about a figure, from its solved states or from the given ones."""
    states = moments(motion) if states is None else states
    rooms: tuple[Checker, ...] = (body_checks.findings, touch_checks.findings,
                                  picture_checks.findings)
    return tuple(finding for room in rooms for finding in room(motion, states, source))


def failed(motion: FigureMotion, states: Moments | None = None,
           source: StateSource = StateSource.SOLVED) -> tuple[FigureFinding, ...]:
    """The findings that do not hold."""
    return tuple(f for f in check_figure(motion, states, source) if not f.holds)
