"""Functional checks: what each asks of a body, when it is not offered, how a result is read. Never a diagnosis.

The client sees their own results over time; published figures are for the coach (`published_figures.py`).
A single check predicts falls poorly (BARRY_2014).
"""
from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from enum import StrEnum

from app.domain.dosing.conditions import is_cleared
from app.domain.dosing.limits import caps_today
from app.domain.dosing.screening import must_ask_again
from app.domain.dosing.sore_places import ALL, usual_for
from app.domain.dosing.way_back import check_ins_of, sessions_of, way_back
from app.domain.model.body import Spot
from app.domain.model.client import Client, Condition
from app.domain.model.diary import Diary
from app.domain.model.exercise import Axis
from app.domain.model.misdated import AHEAD
from app.domain.model.person import NO_BODY, Person
from app.domain.model.record import CheckDone, FunctionalCheck, Record
from app.domain.model.thresholds import PAIN_CAPS, RETEST, USUAL_PAIN_MOST

STANDS_S = 30
#: Stands are counted in these; 0 where the hands helped.
CHAIR_STANDS = frozenset({FunctionalCheck.CHAIR_STAND, FunctionalCheck.CHAIR_STAND_HIGH})
ONE_LEGGED = frozenset({FunctionalCheck.ONE_LEG, FunctionalCheck.ONE_LEG_HELD})
WALKS = frozenset({FunctionalCheck.WALK, FunctionalCheck.WALK_4M})
LONGEST_MS: Mapping[FunctionalCheck, int] = {
    **dict.fromkeys(CHAIR_STANDS, STANDS_S * 1000), **dict.fromkeys(ONE_LEGGED, 30_000),
    FunctionalCheck.WALK: 120_000, FunctionalCheck.WALK_4M: 60_000}
"""When the clock stops by itself. On one leg half a minute is enough to tell [P]."""

#: What each asks, on the axes and anchors of the exercises, so that the same limits hold; the walk allows hands. [P]
DEMAND: Mapping[FunctionalCheck, Mapping[Axis, int]] = {
    FunctionalCheck.CHAIR_STAND: {Axis.DEEP_KNEE_FLEXION: 2, Axis.DEEP_HIP_FLEXION: 2},
    FunctionalCheck.CHAIR_STAND_HIGH: {Axis.DEEP_KNEE_FLEXION: 1, Axis.DEEP_HIP_FLEXION: 1},
    FunctionalCheck.ONE_LEG: {Axis.SINGLE_LEG_BALANCE: 3, Axis.UNHELD_BALANCE: 3, Axis.ANKLE_LOAD: 2},
    FunctionalCheck.ONE_LEG_HELD: {Axis.SINGLE_LEG_BALANCE: 2, Axis.ANKLE_LOAD: 2},
    FunctionalCheck.WALK: {Axis.DEEP_KNEE_FLEXION: 1, Axis.DEEP_HIP_FLEXION: 1, Axis.ANKLE_LOAD: 1,
                           Axis.SINGLE_LEG_BALANCE: 1},
    FunctionalCheck.WALK_4M: {Axis.ANKLE_LOAD: 1, Axis.SINGLE_LEG_BALANCE: 1},
}
#: What is done in place of one that the body's limits leave out.
INSTEAD: Mapping[FunctionalCheck, FunctionalCheck] = {
    FunctionalCheck.CHAIR_STAND: FunctionalCheck.CHAIR_STAND_HIGH,
    FunctionalCheck.ONE_LEG: FunctionalCheck.ONE_LEG_HELD}
#: Never for somebody alone. On one leg with a hand on something a wall will do, for who can get up by themselves. [P]
WITH_SOMEBODY = frozenset({FunctionalCheck.ONE_LEG, *WALKS})
#: The least height of the higher seat, cm, about the back of the knee and above. [P]
HIGH_SEAT_CM = 48
SEAT_CM_LEAST, SEAT_CM_MOST = 20, 80


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
    NEW_HIP = "new_hip"
    """A new hip whose first limits no clinician has ended: not from an ordinary seat."""
    SEATED = "seated"
    """Somebody in a wheelchair: each is done on the feet."""


def withheld(check: FunctionalCheck, person: Person, records: Sequence[Record], today: date) -> Withheld | None:
    """Why it is not offered today, the graver reason first; None: it is."""
    sessions = tuple(s for s in sessions_of(records) if s.stamp.local <= today + AHEAD)
    if way_back(records, today + AHEAD).stop is not None:
        return Withheld.STOP
    if person.waiting or must_ask_again(person.screened, sessions[-1].stamp.local if sessions else None, today):
        return Withheld.SCREENING
    hurts = _hurts_today(records, today)
    if hurts is None:
        return Withheld.ASK
    if any(level >= pain_withholds(person.body, spot, today) for spot, level in hurts.items()):
        return Withheld.PAIN
    return _for_the_body(check, person.body, records, today)


def _for_the_body(check: FunctionalCheck, body: Client, records: Sequence[Record], today: date) -> Withheld | None:
    if Condition.WHEELCHAIR in body.conditions:
        return Withheld.SEATED
    held = check is FunctionalCheck.ONE_LEG_HELD
    if body.alone and (check in WITH_SOMEBODY or (held and not body.rises_unaided)):
        return Withheld.ALONE
    new_hip = Condition.HIP_REPLACEMENT in body.conditions and not is_cleared(body, Condition.HIP_REPLACEMENT)
    if check is FunctionalCheck.CHAIR_STAND and new_hip:
        return Withheld.NEW_HIP
    return Withheld.LIMITS if over(check, body, records, today) else None


def shown(body: Client, records: Sequence[Record], today: date) -> tuple[FunctionalCheck, ...]:
    """The checks that concern somebody: what stands in for another only where it does, or was done before."""
    found: list[FunctionalCheck] = []
    for check in (FunctionalCheck.CHAIR_STAND, FunctionalCheck.ONE_LEG, *sorted(WALKS)):
        found.append(check)
        other = INSTEAD.get(check)
        if other and (replaced_by(check, body, records, today) or checks_of(records, other)):
            found.append(other)
    return tuple(found)


def replaced_by(check: FunctionalCheck, body: Client, records: Sequence[Record],
                today: date) -> FunctionalCheck | None:
    """The check that this body may do in its place, where its limits leave it out; else None."""
    other = INSTEAD.get(check)
    if other is None or Condition.WHEELCHAIR in body.conditions:
        return None
    is_out = over(check, body, records, today) or _for_the_body(check, body, records, today) is Withheld.NEW_HIP
    return other if is_out and not over(other, body, records, today) else None


def pain_withholds(body: Client, spot: Spot, today: date) -> int:
    """The pain of a spot from which nothing is measured, 0–10: a point over a usual pain agreed for now. [P]

    Never above the most that can be agreed, and never below what holds without an agreement.
    """
    usual = usual_for(body, spot)
    if usual is None or usual.until < today:
        return PAIN_CAPS
    return max(PAIN_CAPS, min(usual.level + 1, USUAL_PAIN_MOST))


def _hurts_today(records: Sequence[Record], today: date) -> dict[Spot, int] | None:
    morning = [c.pain for c in check_ins_of(records) if c.stamp.local == today]
    if not morning or morning[-1] is None:
        return None
    found = dict(morning[-1])
    for session in sessions_of(records):
        if session.stamp.local == today:
            for spot, level in session.hurt_at.items():
                found[spot] = max(level, found.get(spot, 0))
    return found


def pain_today(records: Sequence[Record], today: date) -> int | None:
    """The worst pain told today, 0–10; None where nobody was asked or nothing was answered this morning."""
    hurts = _hurts_today(records, today)
    return None if hurts is None else max(hurts.values(), default=0)


def over(check: FunctionalCheck, body: Client, records: Sequence[Record], today: date) -> tuple[Axis, ...]:
    """Axes on which it asks more than the body's limits and today's pain allow."""
    morning = [c for c in check_ins_of(records) if c.stamp.local == today]
    caps = caps_today(body, Diary(pain=morning[-1].pain) if morning else None, today)
    return tuple(axis for axis, asked in DEMAND[check].items() if asked > caps.get(axis, ALL))


def legs(body: Client) -> tuple[str, ...]:
    """The legs that may be stood on; a leg that is to rest is none of them."""
    resting = "" if body.rest_limb == "arm" else body.rest_side
    return tuple(side for side in ("left", "right") if side != resting)


# ------------------------------------------------------------------ over time

def checks_of(records: Sequence[Record], check: FunctionalCheck | None = None) -> tuple[CheckDone, ...]:
    """Checks that were not taken back, oldest first; all, or those of one kind."""
    kept = (r for r in records if isinstance(r, CheckDone) and not r.stamp.deleted)
    return tuple(sorted((r for r in kept if check in (None, r.check)), key=lambda r: (r.stamp.utc, r.stamp.id)))


def counted(done: CheckDone) -> int | None:
    """The result: stands, 0 where the hands helped; else ms. None where none was taken."""
    if done.check not in CHAIR_STANDS:
        return done.time_ms
    return 0 if done.hands_used else done.stands


def previous(done: Sequence[CheckDone], one: CheckDone) -> CheckDone | None:
    """The result before it of the same check and leg, or None. `done` is oldest first."""
    earlier = [d for d in done if d.stamp.utc < one.stamp.utc and (d.check, d.side) == (one.check, one.side)]
    return earlier[-1] if earlier else None


def retest_due(records: Sequence[Record], today: date, body: Client = NO_BODY) -> tuple[FunctionalCheck, ...]:
    """Checks whose last result is six weeks old or more.

    One that was never done is not asked for, nor one that another takes the place of by now.
    """
    latest = {done.check: done.stamp.local for done in checks_of(records)}
    return tuple(check for check in FunctionalCheck if check in latest and today - latest[check] >= RETEST
                 and replaced_by(check, body, records, today) is None)


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


#: A change smaller than this says nothing: stands; ms; mm/s of the 4 m.
#: Stands: 2.5 in arthrosis of the knee (GILL_2022), 3 in Parkinson's (PETERSEN_2017); from the higher seat as well [P].
#: There and back 2.08 s and the pace 0.195 m/s at the least, over months, from 50 years on (DONOGHUE_2019). The 1.2 s
#: of WRIGHT_2011 and ALGHADIR_2015 hold for arthrosis of hip and knee, which nobody is asked about: they are not used.
LEAST_CHANGE: Mapping[FunctionalCheck, int] = {
    **dict.fromkeys(CHAIR_STANDS, 3), FunctionalCheck.WALK: 2_100, FunctionalCheck.WALK_4M: 200}
#: There and back with Parkinson's: ms, or percent of the earlier result, whichever is more. Source: HUANG_2011.
PARKINSONS_WALK_MS, PARKINSONS_WALK_PERCENT = 3_500, 30
#: Seats further apart than this are two heights: a tape is read to about a centimetre. [P]
SEATS_ALIKE_CM = 1


def pace_mm_s(time_ms: int) -> int:
    """Walking pace over the 4 m, mm/s; 0 where no time was taken."""
    return 4_000_000 // time_ms if time_ms > 0 else 0


def least_change(before: CheckDone, conditions: Collection[Condition] = ()) -> int:
    """The least change that says something, for somebody with these conditions, in the unit of `LEAST_CHANGE`."""
    least = LEAST_CHANGE[before.check]
    if before.check is FunctionalCheck.WALK and Condition.PARKINSONS in conditions:
        return max(least, PARKINSONS_WALK_MS, (before.time_ms or 0) * PARKINSONS_WALK_PERCENT // 100)
    return least


def change(before: CheckDone, now: CheckDone, conditions: Collection[Condition] = ()) -> Change:
    """What may be said of a result and an earlier one of the same check. On one leg: never (GOLDBERG_2011)."""
    if now.check not in LEAST_CHANGE:
        return Change.NO_CALL
    first, last = counted(before), counted(now)
    if first is None or last is None or not _alike(before, now):
        return Change.NOT_ALIKE
    if now.check is FunctionalCheck.WALK_4M:
        first, last = pace_mm_s(first), pace_mm_s(last)
    gained = first - last if now.check is FunctionalCheck.WALK else last - first
    if abs(gained) < least_change(before, conditions):
        return Change.WITHIN
    return Change.MORE if gained > 0 else Change.LESS


def _alike(before: CheckDone, now: CheckDone) -> bool:
    """Done in the same way; a seat that was not measured is taken for the same chair."""
    seats = before.seat_cm, now.seat_cm
    apart = 0 if None in seats else abs((before.seat_cm or 0) - (now.seat_cm or 0))
    return (before.aid, before.hands_used) == (now.aid, now.hands_used) and apart <= SEATS_ALIKE_CM
