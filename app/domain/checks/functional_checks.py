"""Functional checks: what each asks of a body, when it is not offered, how a result is read. Never a diagnosis.

Bands and errors are published figures, for the coach; the client sees their own results over time. Sources:
RIKLI_JONES_1999 (chair stand, 25th to 75th percentile); BOHANNON_2006 (meta-analysis of the walk; the one-leg stand is
from another paper of that year). A single check predicts falls poorly.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from app.domain.dosing.history import check_ins_of, sessions_of, way_back
from app.domain.dosing.limits import ALL, caps_today
from app.domain.dosing.screening import must_ask_again
from app.domain.model.client import Client
from app.domain.model.diary import Diary
from app.domain.model.exercise import Axis
from app.domain.model.misdated import AHEAD
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, FunctionalCheck, Record
from app.domain.model.references import BOHANNON_2006, RIKLI_JONES_1999
from app.domain.model.thresholds import PAIN_CAPS, RETEST

STANDS_S = 30
LONGEST_MS: Mapping[FunctionalCheck, int] = {FunctionalCheck.CHAIR_STAND: STANDS_S * 1000,
                                             FunctionalCheck.ONE_LEG: 30_000, FunctionalCheck.WALK: 120_000}
"""When the clock stops by itself. On one leg half a minute is enough to tell [P]."""

#: What each asks, on the axes and anchors of the exercises, so that the same limits hold; the walk allows hands. [P]
DEMAND: Mapping[FunctionalCheck, Mapping[Axis, int]] = {
    FunctionalCheck.CHAIR_STAND: {Axis.DEEP_KNEE_FLEXION: 2, Axis.DEEP_HIP_FLEXION: 2},
    FunctionalCheck.ONE_LEG: {Axis.SINGLE_LEG_BALANCE: 3, Axis.ANKLE_LOAD: 2},
    FunctionalCheck.WALK: {Axis.DEEP_KNEE_FLEXION: 1, Axis.DEEP_HIP_FLEXION: 1, Axis.ANKLE_LOAD: 1,
                           Axis.SINGLE_LEG_BALANCE: 1},
}
#: Never for somebody alone.
WITH_SOMEBODY = frozenset({FunctionalCheck.ONE_LEG, FunctionalCheck.WALK})


class Withheld(StrEnum):
    """Why a check is not offered."""

    STOP = "stop"
    """A stop waits for a yes."""
    SCREENING = "screening"
    """The stop questions are due, or wait for a yes."""
    ASK = "ask"
    """Nobody said today whether anything hurts."""
    PAIN = "pain"
    ALONE = "alone"
    LIMITS = "limits"
    """It asks more than the body's limits allow."""


def withheld(check: FunctionalCheck, person: Person, records: Sequence[Record], today: date) -> Withheld | None:
    """Why it is not offered today, the graver reason first; None: it is."""
    sessions = tuple(s for s in sessions_of(records) if s.stamp.local <= today + AHEAD)
    if way_back(records, today + AHEAD).stop is not None:
        return Withheld.STOP
    if person.waiting or must_ask_again(person.screened, sessions[-1].stamp.local if sessions else None, today):
        return Withheld.SCREENING
    pain = pain_today(records, today)
    if pain is None:
        return Withheld.ASK
    if pain >= PAIN_CAPS:
        return Withheld.PAIN
    if check in WITH_SOMEBODY and person.body.alone:
        return Withheld.ALONE
    return Withheld.LIMITS if over(check, person.body, records, today) else None


def pain_today(records: Sequence[Record], today: date) -> int | None:
    """The worst pain told today, 0–10; None where nobody was asked or nothing was answered this morning."""
    morning = [c.pain for c in check_ins_of(records) if c.stamp.local == today]
    if not morning or morning[-1] is None:
        return None
    later = [s.worst_pain or 0 for s in sessions_of(records) if s.stamp.local == today]
    return max([*morning[-1].values(), *later], default=0)


def over(check: FunctionalCheck, body: Client, records: Sequence[Record], today: date) -> tuple[Axis, ...]:
    """Axes on which it asks more than the body's limits and today's pain allow."""
    morning = [c for c in check_ins_of(records) if c.stamp.local == today]
    caps = caps_today(body, Diary(pain=morning[-1].pain) if morning else None, today)
    return tuple(axis for axis, asked in DEMAND[check].items() if asked > caps.get(axis, ALL))


def legs(body: Client) -> tuple[str, ...]:
    """The legs that may be stood on; a side that is to rest is none of them."""
    return tuple(side for side in ("left", "right") if side != body.rest_side)


# ------------------------------------------------------------------ over time

def checks_of(records: Sequence[Record], check: FunctionalCheck | None = None) -> tuple[CheckDone, ...]:
    """Checks that were not taken back, oldest first; all, or those of one kind."""
    kept = (r for r in records if isinstance(r, CheckDone) and not r.stamp.deleted)
    return tuple(sorted((r for r in kept if check in (None, r.check)), key=lambda r: (r.stamp.utc, r.stamp.id)))


def counted(done: CheckDone) -> int | None:
    """The result: stands, 0 where the hands helped; else ms. None where none was taken."""
    if done.check is not FunctionalCheck.CHAIR_STAND:
        return done.time_ms
    return 0 if done.hands_used else done.stands


def previous(done: Sequence[CheckDone], one: CheckDone) -> CheckDone | None:
    """The result before it of the same check and leg, or None. `done` is oldest first."""
    earlier = [d for d in done if d.stamp.utc < one.stamp.utc and (d.check, d.side) == (one.check, one.side)]
    return earlier[-1] if earlier else None


def retest_due(records: Sequence[Record], today: date) -> tuple[FunctionalCheck, ...]:
    """Checks whose last result is six weeks old or more. One that was never done is not asked for."""
    latest = {done.check: done.stamp.local for done in checks_of(records)}
    return tuple(check for check in FunctionalCheck if check in latest and today - latest[check] >= RETEST)


class Change(StrEnum):
    """What may be said of two results."""

    NOT_ALIKE = "not_alike"
    """Done in another way, so not to be compared."""
    NO_CALL = "no_call"
    """It varies too much from day to day for any call."""
    WITHIN = "within"
    """No more than such a check varies by itself."""
    MORE = "more"
    """More stands, or a quicker walk."""
    LESS = "less"


#: A change smaller than this says nothing: stands, ms.
LEAST_CHANGE: Mapping[FunctionalCheck, int] = {FunctionalCheck.CHAIR_STAND: 3, FunctionalCheck.WALK: 1_200}


def change(before: CheckDone, now: CheckDone) -> Change:
    """What may be said of a result and an earlier one of the same check."""
    if now.check not in LEAST_CHANGE:
        return Change.NO_CALL
    first, last = counted(before), counted(now)
    if first is None or last is None or (before.aid, before.hands_used) != (now.aid, now.hands_used):
        return Change.NOT_ALIKE
    gained = last - first if now.check is FunctionalCheck.CHAIR_STAND else first - last
    if abs(gained) < LEAST_CHANGE[now.check]:
        return Change.WITHIN
    return Change.MORE if gained > 0 else Change.LESS


# ------------------------------------------------------------------ published bands, for the coach

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


STANDS_SOURCE = f"{RIKLI_JONES_1999.short}, 25th to 75th percentile"
TIMES_SOURCE = f"{BOHANNON_2006.short}, meta-analysis"
_STANDS = (
    (60, 64, (12, 17), (14, 19)), (65, 69, (11, 16), (12, 18)), (70, 74, (10, 15), (12, 17)),
    (75, 79, (10, 15), (11, 17)), (80, 84, (9, 14), (10, 15)), (85, 89, (8, 13), (8, 14)), (90, 94, (4, 11), (7, 12)),
)
_WALK = ((60, 69, 8_100, 7_100, 9_000), (70, 79, 9_200, 8_200, 10_200), (80, 99, 11_300, 10_000, 12_700))
_ONE_LEG = ((60, 69, 27_000), (70, 79, 17_200), (80, 99, 8_500))

BANDS: tuple[ReferenceBand, ...] = (
    *(ReferenceBand(FunctionalCheck.CHAIR_STAND, first, last, *usual, None, sex, STANDS_SOURCE)
      for first, last, women, men in _STANDS for sex, usual in (("woman", women), ("man", men))),
    *(ReferenceBand(FunctionalCheck.ONE_LEG, first, last, None, None, mean, "", TIMES_SOURCE) for first, last,
      mean in _ONE_LEG),
    *(ReferenceBand(FunctionalCheck.WALK, first, last, low, high, mean, "", TIMES_SOURCE) for first, last, mean, low,
      high in _WALK),
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


def place_in(band: ReferenceBand, result: int) -> BandPlace | None:
    """Below, within or above the usual range, in numbers and not in worth; None where no range was published."""
    if band.low is None or band.high is None:
        return None
    return BandPlace.BELOW if result < band.low else BandPlace.ABOVE if result > band.high else BandPlace.WITHIN
