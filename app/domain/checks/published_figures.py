"""Published figures of the functional checks and what is worth a talk, for the coach alone. Never a diagnosis.

RIKLI_JONES_1999: chair stand, 25th to 75th percentile. BOHANNON_2006: means of the walk, whose published interval is
that of the mean, so that most healthy people lie outside it, and it is left out; the one-leg stand is from another
paper of that year. PONDAL_2008: mean and spread of the walk from 71 on, from its abstract.
"""
from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.domain.checks.functional_checks import pace_mm_s
from app.domain.model.record import CheckDone, FunctionalCheck
from app.domain.model.references import BOHANNON_2006, PONDAL_2008, RIKLI_JONES_1999


@dataclass(frozen=True)
class ReferenceBand:
    """Published figures of one age group: stands or ms, `low` to `high` the usual range. None: not published."""

    check: FunctionalCheck
    first_age: int
    last_age: int
    low: int | None
    high: int | None
    mean: int | None
    sex: str
    source: str


#: The seat that the bands of the chair stand were measured on, and how far another may be from it [P], cm.
SEAT_CM, SEAT_NEAR_CM = 43, 2
STANDS_SOURCE = f"{RIKLI_JONES_1999.short}, 25th to 75th percentile"
TIMES_SOURCE = f"{BOHANNON_2006.short}, meta-analysis; a mean, and no usual range"
HALF_SOURCE = f"{PONDAL_2008.short}, 308 people who walk without trouble; middle half worked out from mean and spread"
_STANDS = (
    (60, 64, (12, 17), (14, 19)), (65, 69, (11, 16), (12, 18)), (70, 74, (10, 15), (12, 17)),
    (75, 79, (10, 15), (11, 17)), (80, 84, (9, 14), (10, 15)), (85, 89, (8, 13), (8, 14)), (90, 94, (4, 11), (7, 12)),
)
_WALK = ((60, 69, 8_100), (70, 79, 9_200), (80, 99, 11_300))
#: Mean, and 0.674 standard deviations on either side of it as if times were spread evenly about it.
_WALK_HALF = ((71, 75, 9_500, 7_800, 11_200), (76, 80, 9_900, 7_900, 11_900), (81, 85, 11_200, 8_800, 13_600),
              (86, 99, 12_000, 9_400, 14_600))
_ONE_LEG = ((60, 69, 27_000), (70, 79, 17_200), (80, 99, 8_500))

BANDS: tuple[ReferenceBand, ...] = (
    *(ReferenceBand(FunctionalCheck.CHAIR_STAND, first, last, *usual, None, sex, STANDS_SOURCE)
      for first, last, women, men in _STANDS for sex, usual in (("woman", women), ("man", men))),
    *(ReferenceBand(FunctionalCheck.ONE_LEG, first, last, None, None, mean, "", TIMES_SOURCE) for first, last,
      mean in _ONE_LEG),
    *(ReferenceBand(FunctionalCheck.WALK, first, last, None, None, mean, "", TIMES_SOURCE) for first, last, mean in
      _WALK),
    *(ReferenceBand(FunctionalCheck.WALK, first, last, low, high, mean, "", HALF_SOURCE) for first, last, mean, low,
      high in _WALK_HALF),
)


def bands_for(check: FunctionalCheck, age: int, sex: str = "") -> tuple[ReferenceBand, ...]:
    """The bands of an age; where the sex is not told and they differ by it, both."""
    found = (b for b in BANDS if b.check is check and b.first_age <= age <= b.last_age)
    return tuple(b for b in found if not sex or b.sex in ("", sex))


class BandPlace(StrEnum):
    """Where a result lies."""

    BELOW = "below"
    WITHIN = "within"
    ABOVE = "above"


def place_in(band: ReferenceBand, result: int, seat_cm: int | None = None) -> BandPlace | None:
    """Below, within or above the usual range, in numbers and not in worth.

    None where no range was published, or the seat was of another height than in the publication.
    """
    if band.low is None or band.high is None or (seat_cm is not None and abs(seat_cm - SEAT_CM) > SEAT_NEAR_CM):
        return None
    return BandPlace.BELOW if result < band.low else BandPlace.ABOVE if result > band.high else BandPlace.WITHIN


# ------------------------------------------------------------------ worth a talk

class TalkingPoint(StrEnum):
    """A result that a coach may want to talk about. Information, and never a diagnosis."""

    ONE_LEG_SHORT = "one_leg_short"
    """Under 10 s on one leg."""
    ONE_LEG_VERY_SHORT = "one_leg_very_short"
    """Under 5 s on one leg."""
    WALK_LONG = "walk_long"
    """12 s or more there and back."""
    PACE_SLOW = "pace_slow"
    """Under 1 m/s over the 4 m."""


#: Under so much on one leg with no hold: not reached by 18 to 54 % of people from 61 to 75 (ARAUJO_2022, known from a
#: summary). The shorter one is a convention [P]; its paper was not read.
ONE_LEG_SHORT_MS, ONE_LEG_VERY_SHORT_MS = 10_000, 5_000
#: From so much on there and back. A convention [P]: of 13.5 s it is known that falls are predicted poorly (BARRY_2014).
WALK_LONG_MS = 12_000
#: Under so much, mm/s: more lasting limits of the legs, years later. Source: CESARI_2005.
PACE_SLOW_MM_S = 1_000


def talking_point(done: CheckDone) -> TalkingPoint | None:
    """What a result may be talked about for, the graver one; None: nothing."""
    told = done.time_ms
    if told is None:
        return None
    if done.check is FunctionalCheck.ONE_LEG and told < ONE_LEG_SHORT_MS:
        return TalkingPoint.ONE_LEG_VERY_SHORT if told < ONE_LEG_VERY_SHORT_MS else TalkingPoint.ONE_LEG_SHORT
    if done.check is FunctionalCheck.WALK and told >= WALK_LONG_MS:
        return TalkingPoint.WALK_LONG
    slow = done.check is FunctionalCheck.WALK_4M and told > 0 and pace_mm_s(told) < PACE_SLOW_MM_S
    return TalkingPoint.PACE_SLOW if slow else None
