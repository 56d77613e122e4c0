"""Functional checks: offered only where they may be, read honestly, with the published figures as data."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.checks.functional_checks import (
    DEMAND,
    HIGH_SEAT_CM,
    INSTEAD,
    WITH_SOMEBODY,
    Change,
    Withheld,
    change,
    checks_of,
    counted,
    least_change,
    legs,
    over,
    pain_today,
    pain_withholds,
    replaced_by,
    retest_due,
    shown,
    withheld,
)
from app.domain.dosing.limits import caps_today
from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition, ConditionTerms, UsualPain
from app.domain.model.diary import Symptom
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, Event, EventKind, FunctionalCheck, Record
from tests.domain.past import T0, check_in, session, sore, stamp
from tests.generators import clients

TODAY = T0.date()


def person(**body: Any) -> Person:
    """Somebody whose stop questions were answered this morning."""
    return Person("p", "Ada", Client(**body), screened=TODAY)


def done(check: FunctionalCheck = FunctionalCheck.CHAIR_STAND, day: float = 0, **what: Any) -> CheckDone:
    """A check of so many days after the first morning."""
    return CheckDone(stamp(f"k{check}{day}", day), check, **what)


WELL: list[Record] = [check_in(0)]


@pytest.mark.parametrize("check", FunctionalCheck)
def test_on_a_good_morning_in_company_every_check_is_offered(check: FunctionalCheck) -> None:
    """Nothing speaks against it."""
    assert withheld(check, person(), WELL, TODAY) is None


@pytest.mark.parametrize(("records", "why"), [
    ([], Withheld.ASK), ([check_in(-1)], Withheld.ASK), ([check_in(0, pain=None)], Withheld.ASK),
    ([check_in(0, pain=sore(left_knee=3))], None), ([check_in(0, pain=sore(left_wrist=4))], Withheld.PAIN),
    ([check_in(0), session(0.1, pain=sore(left_wrist=4))], Withheld.PAIN),
    ([check_in(0, symptoms=frozenset({Symptom.STOP_AND_ASK}), level=7, stopped_by="stop_and_ask")], Withheld.STOP),
    ([check_in(0), Event(stamp("e"), EventKind.FALL, stopped_by="fall")], Withheld.STOP),
    ([check_in(-3, level=7, stopped_by="soreness"), check_in(0)], Withheld.STOP),
])
def test_pain_from_4_on_or_an_open_stop_withholds_it(records: list[Record], why: Withheld | None) -> None:
    """Unanswered is never "nothing hurts", and yesterday's answer is none for today."""
    assert withheld(FunctionalCheck.CHAIR_STAND, person(spare={}), records, TODAY) is why


def test_the_stop_questions_come_before() -> None:
    """Due again, or waiting for a yes."""
    assert withheld(FunctionalCheck.WALK, replace(person(), screened=None), WELL, TODAY) is Withheld.SCREENING
    assert withheld(FunctionalCheck.WALK, replace(person(), waiting=frozenset({"aneurysm"})), WELL,
                    TODAY) is Withheld.SCREENING


@pytest.mark.parametrize("check", FunctionalCheck)
def test_balance_and_walk_are_never_for_somebody_alone(check: FunctionalCheck) -> None:
    """The chair stand may be."""
    why = withheld(check, person(alone=True), WELL, TODAY)
    never = {FunctionalCheck.ONE_LEG, FunctionalCheck.WALK, FunctionalCheck.WALK_4M}
    assert why is (Withheld.ALONE if check in never else None)
    assert never == WITH_SOMEBODY


def test_f8_who_falls_stands_on_one_leg_with_a_hand_on_something_and_never_without() -> None:
    """Named in its place; alone beside a wall only for who can get up. Walking in company is another thing."""
    body = {"conditions": frozenset({Condition.FALLS})}
    assert withheld(FunctionalCheck.ONE_LEG, person(**body), WELL, TODAY) is Withheld.LIMITS
    assert replaced_by(FunctionalCheck.ONE_LEG, Client(**body), WELL, TODAY) is FunctionalCheck.ONE_LEG_HELD
    assert FunctionalCheck.ONE_LEG_HELD in shown(Client(**body), WELL, TODAY)
    held = FunctionalCheck.ONE_LEG_HELD
    assert withheld(held, person(**body), WELL, TODAY) is None
    assert withheld(held, person(alone=True, **body), WELL, TODAY) is None
    assert withheld(held, person(alone=True, rises_unaided=False, **body), WELL, TODAY) is Withheld.ALONE
    assert withheld(FunctionalCheck.WALK, person(**body), WELL, TODAY) is None


@given(clients, st.sampled_from(FunctionalCheck))
def test_no_check_asks_more_than_the_limits_allow(body: Client, check: FunctionalCheck) -> None:
    """On any axis, for any body."""
    caps = caps_today(body, None, TODAY)
    asks_more = {axis for axis, asked in DEMAND[check].items() if asked > caps[axis]}
    somebody = Person("p", "Ada", replace(body, alone=False), screened=TODAY)
    assert set(over(check, somebody.body, WELL, TODAY)) == asks_more
    why = withheld(check, somebody, WELL, TODAY)
    assert why in (Withheld.LIMITS, Withheld.SEATED, Withheld.NEW_HIP, Withheld.ALONE) if asks_more else (
        why is not Withheld.LIMITS)


def test_f7_after_a_hip_replacement_one_stands_up_from_a_higher_seat() -> None:
    """A series of its own; the ordinary seat comes back with a clinician's yes, and the other stays in sight."""
    hip = frozenset({Condition.HIP_REPLACEMENT})
    low, high = FunctionalCheck.CHAIR_STAND, FunctionalCheck.CHAIR_STAND_HIGH
    assert withheld(low, person(conditions=hip), WELL, TODAY) is Withheld.NEW_HIP
    assert replaced_by(low, Client(conditions=hip), WELL, TODAY) is high
    assert withheld(high, person(conditions=hip), WELL, TODAY) is None and HIGH_SEAT_CM == 48
    yes = {Condition.HIP_REPLACEMENT: ConditionTerms(cleared_by="Mr Roe, surgeon", cleared=TODAY)}
    cleared = person(conditions=hip, terms=yes)
    assert withheld(low, cleared, WELL, TODAY) is None
    assert high not in shown(cleared.body, WELL, TODAY)
    assert high in shown(cleared.body, [*WELL, done(high, stands=9, seat_cm=50)], TODAY)


def test_nobody_in_a_wheelchair_is_offered_a_check_on_the_feet() -> None:
    """Nor anything in its place."""
    body = Client(conditions=frozenset({Condition.WHEELCHAIR}))
    for check in FunctionalCheck:
        assert withheld(check, replace(person(), body=body), WELL, TODAY) is Withheld.SEATED
        assert replaced_by(check, body, WELL, TODAY) is None


def test_whoever_has_no_limits_sees_no_stand_in() -> None:
    """Four checks, and no more."""
    assert not set(shown(Client(), WELL, TODAY)) & set(INSTEAD.values()) and len(shown(Client(), WELL, TODAY)) == 4


@pytest.mark.parametrize(("usual", "level", "why"), [
    (4, 4, None), (4, 5, Withheld.PAIN), (5, 4, None), (5, 5, Withheld.PAIN), (2, 3, None), (2, 4, Withheld.PAIN)])
def test_f9_with_an_agreed_usual_pain_a_check_is_possible(usual: int, level: int, why: Withheld | None) -> None:
    """Up to the agreed level, and below 5 in any case; another joint and a past agreement count as ever."""
    knee, hip = Spot(Region.KNEE, "left"), Spot(Region.HIP, "left")
    body = Client(usual_pain={knee: UsualPain(usual, "physiotherapist", TODAY + timedelta(days=30))})
    assert (level >= pain_withholds(body, knee, TODAY)) is (why is Withheld.PAIN)
    somebody = replace(person(), body=body)
    assert withheld(FunctionalCheck.WALK, somebody, [check_in(0, pain={knee: level})], TODAY) is why
    assert withheld(FunctionalCheck.WALK, somebody, [check_in(0, pain={hip: 4})], TODAY) is Withheld.PAIN
    assert pain_withholds(body, knee, TODAY + timedelta(days=31)) == 4


def test_pain_below_4_is_told_and_a_side_that_rests_is_not_stood_on() -> None:
    """Small things that the page needs."""
    assert pain_today([check_in(0, pain={Spot(Region.NECK): 2})], TODAY) == 2
    assert legs(Client(rest_side="left")) == ("right",) and legs(Client()) == ("left", "right")
    assert legs(Client(rest_side="left", rest_limb="arm")) == ("left", "right")


def test_a_check_that_another_replaced_is_not_asked_for_again() -> None:
    """Somebody who stood on one leg before they fell."""
    old = [done(FunctionalCheck.ONE_LEG, time_ms=9_000)]
    later = TODAY + timedelta(days=50)
    assert retest_due(old, later) == (FunctionalCheck.ONE_LEG,)
    assert retest_due(old, later, Client(conditions=frozenset({Condition.FALLS}))) == ()


# ------------------------------------------------------------------ over time

def test_hands_that_push_count_nothing() -> None:
    """However often one was up; what was counted is kept."""
    assert counted(done(stands=12)) == 12
    assert counted(done(stands=12, hands_used=True)) == 0
    assert counted(done(FunctionalCheck.WALK, time_ms=9_300)) == 9_300


@pytest.mark.parametrize(("first", "last", "said"), [
    (10, 12, Change.WITHIN), (10, 13, Change.MORE), (13, 10, Change.LESS), (12, 10, Change.WITHIN),
    (None, 10, Change.NOT_ALIKE)])
def test_f3_stands_have_changed_from_3_on(first: int | None, last: int, said: Change) -> None:
    """At both edges."""
    assert change(done(stands=first), done(day=42, stands=last)) is said


@pytest.mark.parametrize(("first", "last", "said"), [
    (9_000, 11_099, Change.WITHIN), (9_000, 11_100, Change.LESS), (11_100, 9_000, Change.MORE),
    (10_200, 9_000, Change.WITHIN)])
def test_f3_the_walk_has_changed_from_2_1_seconds_on(first: int, last: int, said: Change) -> None:
    """Quicker is more, slower is less; 1.2 s hold for arthrosis alone, which nobody is asked about."""
    assert change(done(FunctionalCheck.WALK, time_ms=first), done(FunctionalCheck.WALK, 42, time_ms=last)) is said


def test_f3_with_parkinsons_the_walk_varies_more() -> None:
    """3.5 s, or 30 percent where that is more; stands do not."""
    held = {Condition.PARKINSONS}
    quick, slow = done(FunctionalCheck.WALK, time_ms=10_000), done(FunctionalCheck.WALK, time_ms=20_000)
    assert (least_change(quick, held), least_change(slow, held), least_change(quick)) == (3_500, 6_000, 2_100)
    later = done(FunctionalCheck.WALK, 42, time_ms=13_400)
    assert (change(quick, later), change(quick, later, held)) == (Change.LESS, Change.WITHIN)
    assert least_change(done(stands=9), held) == 3


@pytest.mark.parametrize(("first", "last", "said"), [
    (4_000, 5_000, Change.LESS), (5_000, 4_000, Change.MORE), (4_000, 4_900, Change.WITHIN)])
def test_f4_the_pace_of_4_metres_has_changed_from_a_fifth_of_a_metre_a_second_on(
        first: int, last: int, said: Change) -> None:
    """1 m/s to 0.8 is less; to 0.816 it is not."""
    assert change(done(FunctionalCheck.WALK_4M, time_ms=first), done(FunctionalCheck.WALK_4M, 42, time_ms=last)) is said


@pytest.mark.parametrize(("before", "now", "said"), [
    (43, 46, Change.NOT_ALIKE), (43, 44, Change.MORE), (None, 46, Change.MORE), (43, None, Change.MORE)])
def test_seats_of_two_heights_are_not_compared(before: int | None, now: int | None, said: Change) -> None:
    """A centimetre is the tape; a seat that was not measured is taken for the same chair."""
    assert change(done(stands=9, seat_cm=before), done(day=42, stands=13, seat_cm=now)) is said


@given(st.integers(0, 30_000), st.integers(0, 30_000))
def test_one_leg_is_never_said_to_have_changed(first: int, last: int) -> None:
    """It differs too much from day to day."""
    assert change(done(FunctionalCheck.ONE_LEG, time_ms=first),
                  done(FunctionalCheck.ONE_LEG, 42, time_ms=last)) is Change.NO_CALL


def test_what_was_done_in_another_way_is_not_compared() -> None:
    """With the hands, or with a stick."""
    assert change(done(stands=9, hands_used=True), done(day=42, stands=9)) is Change.NOT_ALIKE
    with_stick = done(FunctionalCheck.WALK, time_ms=12_000, aid=True)
    assert change(with_stick, done(FunctionalCheck.WALK, 42, time_ms=9_000)) is Change.NOT_ALIKE


@pytest.mark.parametrize(("days", "due"), [(41, ()), (42, (FunctionalCheck.CHAIR_STAND,)),
                                           (90, (FunctionalCheck.CHAIR_STAND,))])
def test_a_check_is_due_again_after_six_weeks(days: int, due: tuple[FunctionalCheck, ...]) -> None:
    """Only one that was done; one taken back is none."""
    assert retest_due([done(stands=9)], TODAY + timedelta(days=days)) == due
    gone = replace(done(stands=9), stamp=replace(stamp("k"), deleted=True))
    assert retest_due([gone], TODAY + timedelta(days=days)) == () and checks_of([gone]) == ()
