"""Energy of a session as a rounded range: an estimate that is off by 20–30 % and more for one person. Off by default.

kcal = MET × 3.5 × kg × min ÷ 200. With the values made for people of 60 and over, 2.7 stands in place of 3.5 (Willis
2024, J Sport Health Sci 13:13); the two bases are never mixed. MET values: 2024 Adult Compendium, by code.
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

from app.domain.model.plan import Part, Timeline
from app.domain.model.record import SessionDone
from app.domain.model.trained_time import trained_s

ERROR_PERCENT = 30
ROUND_TO = 10
LEAST_KG, MOST_KG = 30, 250


class Basis(IntEnum):
    """Whose oxygen at rest one MET is, tenths of ml per kg and minute."""

    ADULT = 35
    SIXTY_PLUS = 27


@dataclass(frozen=True)
class Met:
    """A published value, tenths of a MET, with the basis that belongs to it and its code."""

    tenths: int
    basis: Basis
    code: str


#: Light calisthenics; strength exercises of 8–15 repetitions; moderate calisthenics; mild stretching.
WARM_UP = Met(28, Basis.ADULT, "02024")
STRENGTH = Met(35, Basis.ADULT, "02054")
OTHER_WORK = Met(38, Basis.ADULT, "02022")
STRETCHING = Met(23, Basis.ADULT, "02101")


@dataclass(frozen=True)
class Energy:
    """From and to, kcal, rounded outwards to tens."""

    least: int
    most: int


def energy(parts: Sequence[tuple[Met, int]], weight_kg: int) -> Energy:
    """Of (value, ms) of each part, for that body weight.

    Raises:
        ValueError: values of two bases, which cannot be added.
    """
    if len({met.basis for met, _ in parts}) > 1:
        raise ValueError("values of two bases cannot be added")
    # tenths of a MET × tenths of ml × kg × ms, over 10 × 10 × 200 × 60 000
    total = sum(met.tenths * int(met.basis) * weight_kg * ms for met, ms in parts)
    least, most = total * (100 - ERROR_PERCENT), total * (100 + ERROR_PERCENT)
    unit = 100 * 100 * 200 * 60_000 * ROUND_TO
    return Energy(least // unit * ROUND_TO, -(-most // unit) * ROUND_TO)


def session_energy(done: SessionDone, weight_kg: int) -> Energy:
    """Of the minutes that a session took, shared among its parts as they were planned."""
    shares = [(met, sum(s.length_ms for s in done.plan.steps if s.part is part))
              for part, met in _mets(done.plan)]
    planned_ms = sum(ms for _, ms in shares)
    if not planned_ms:
        return Energy(0, 0)
    return energy([(met, trained_s(done) * 1000 * ms // planned_ms) for met, ms in shares], weight_kg)


def _mets(plan: Timeline) -> tuple[tuple[Part, Met], ...]:
    main = STRENGTH if plan.strength else OTHER_WORK
    return (Part.WARM_UP, WARM_UP), (Part.MAIN, main), (Part.COOL_DOWN, STRETCHING)
