"""Whether a figure can be shown: all checks of one figure together."""
from __future__ import annotations

from collections.abc import Callable, Iterator

from app.domain import figure_checks_body, figure_checks_picture, figure_checks_touch
from app.domain.figure_finding import Finding, Moments, Source, moments
from app.domain.figure_motion import Motion

Checker = Callable[[Motion, Moments, Source], Iterator[Finding]]


def check_figure(motion: Motion, states: Moments | None = None, source: Source = Source.SOLVED) -> tuple[Finding, ...]:
    """Every finding about a figure, from its solved states or from the given ones."""
    states = moments(motion) if states is None else states
    rooms: tuple[Checker, ...] = (figure_checks_body.findings, figure_checks_touch.findings,
                                  figure_checks_picture.findings)
    return tuple(finding for room in rooms for finding in room(motion, states, source))


def failed(motion: Motion, states: Moments | None = None, source: Source = Source.SOLVED) -> tuple[Finding, ...]:
    """The findings that do not hold."""
    return tuple(f for f in check_figure(motion, states, source) if not f.holds)
