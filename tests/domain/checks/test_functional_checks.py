"""Functional checks: offered only where they may be, read honestly, with the published figures as data."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.checks.functional_checks import (
    BANDS,
    DEMAND,
    WITH_SOMEBODY,
    BandPlace,
    Change,
    ReferenceBand,
    Withheld,
    bands_for,
    change,
    checks_of,
    counted,
    legs,
    over,
    pain_today,
    place_in,
    retest_due,
    withheld,
)
from app.domain.dosing.limits import caps_today
from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition
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
    assert why is (Withheld.ALONE if check in (FunctionalCheck.ONE_LEG, FunctionalCheck.WALK) else None)
    assert frozenset({FunctionalCheck.ONE_LEG, FunctionalCheck.WALK}) == WITH_SOMEBODY


def test_somebody_who_falls_never_stands_on_one_leg_without_a_hold() -> None:
    """Walking to a mark and back in company is another thing."""
    body = {"conditions": frozenset({Condition.FALLS})}
    assert withheld(FunctionalCheck.ONE_LEG, person(**body), WELL, TODAY) is Withheld.LIMITS
    assert withheld(FunctionalCheck.WALK, person(**body), WELL, TODAY) is None


@given(clients, st.sampled_from(FunctionalCheck))
def test_no_check_asks_more_than_the_limits_allow(body: Client, check: FunctionalCheck) -> None:
    """On any axis, for any body."""
    caps = caps_today(body, None, TODAY)
    asks_more = {axis for axis, asked in DEMAND[check].items() if asked > caps[axis]}
    somebody = Person("p", "Ada", replace(body, alone=False), screened=TODAY)
    assert set(over(check, somebody.body, WELL, TODAY)) == asks_more
    assert withheld(check, somebody, WELL, TODAY) is (Withheld.LIMITS if asks_more else None)


def test_pain_below_4_is_told_and_a_side_that_rests_is_not_stood_on() -> None:
    """Small things that the page needs."""
    assert pain_today([check_in(0, pain={Spot(Region.NECK): 2})], TODAY) == 2
    assert legs(Client(rest_side="left")) == ("right",) and legs(Client()) == ("left", "right")


# ------------------------------------------------------------------ over time

def test_hands_that_push_count_nothing() -> None:
    """However often one was up; what was counted is kept."""
    assert counted(done(stands=12)) == 12
    assert counted(done(stands=12, hands_used=True)) == 0
    assert counted(done(FunctionalCheck.WALK, time_ms=9_300)) == 9_300


@pytest.mark.parametrize(("first", "last", "said"), [
    (10, 12, Change.WITHIN), (10, 13, Change.MORE), (13, 10, Change.LESS), (12, 10, Change.WITHIN),
    (None, 10, Change.NOT_ALIKE)])
def test_stands_have_changed_from_3_on(first: int | None, last: int, said: Change) -> None:
    """At both edges."""
    assert change(done(stands=first), done(day=42, stands=last)) is said


@pytest.mark.parametrize(("first", "last", "said"), [
    (9_000, 10_199, Change.WITHIN), (9_000, 10_200, Change.LESS), (10_200, 9_000, Change.MORE),
    (9_000, 7_801, Change.WITHIN)])
def test_the_walk_has_changed_from_1_2_seconds_on(first: int, last: int, said: Change) -> None:
    """Quicker is more, slower is less."""
    assert change(done(FunctionalCheck.WALK, time_ms=first), done(FunctionalCheck.WALK, 42, time_ms=last)) is said


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


# ------------------------------------------------------------------ published figures

@pytest.mark.parametrize(("age", "sex", "figures"), [
    (60, "woman", (12, 17)), (64, "man", (14, 19)), (72, "woman", (10, 15)), (72, "man", (12, 17)),
    (87, "woman", (8, 13)), (94, "man", (7, 12))])
def test_the_bands_of_the_chair_stand_are_the_published_ones(age: int, sex: str, figures: tuple[int, int]) -> None:
    """By age and sex."""
    band, = bands_for(FunctionalCheck.CHAIR_STAND, age, sex)
    assert (band.low, band.high, band.mean) == (*figures, None) and "Rikli" in band.source


@pytest.mark.parametrize(("check", "age", "figures"), [
    (FunctionalCheck.WALK, 60, (8_100, 7_100, 9_000)), (FunctionalCheck.WALK, 79, (9_200, 8_200, 10_200)),
    (FunctionalCheck.WALK, 99, (11_300, 10_000, 12_700)), (FunctionalCheck.ONE_LEG, 69, (27_000, None, None)),
    (FunctionalCheck.ONE_LEG, 70, (17_200, None, None)), (FunctionalCheck.ONE_LEG, 85, (8_500, None, None))])
def test_the_bands_of_the_other_two_are_the_published_ones(check: FunctionalCheck, age: int,
                                                           figures: tuple[Any, ...]) -> None:
    """By decade, the same for everybody."""
    band, = bands_for(check, age, "man")
    assert (band.mean, band.low, band.high) == figures and "Bohannon" in band.source


def test_without_the_sex_both_bands_are_given_and_without_figures_none() -> None:
    """Nobody is put into a group that they did not name."""
    assert {b.sex for b in bands_for(FunctionalCheck.CHAIR_STAND, 70)} == {"woman", "man"}
    assert bands_for(FunctionalCheck.CHAIR_STAND, 59) == () == bands_for(FunctionalCheck.CHAIR_STAND, 95)


@pytest.mark.parametrize("check", FunctionalCheck)
def test_ages_lie_in_one_band_each(check: FunctionalCheck) -> None:
    """Without a gap or an overlap."""
    for sex in ("woman", "man"):
        ages = [age for b in BANDS if b.check is check and b.sex in ("", sex)
                for age in range(b.first_age, b.last_age + 1)]
        assert ages == list(range(60, 60 + len(ages)))


def test_a_result_is_placed_by_number() -> None:
    """At both edges; where only a mean was published, nowhere."""
    band: ReferenceBand = bands_for(FunctionalCheck.CHAIR_STAND, 70, "woman")[0]
    assert [place_in(band, n) for n in (9, 10, 15, 16)] == [BandPlace.BELOW, BandPlace.WITHIN, BandPlace.WITHIN,
                                                            BandPlace.ABOVE]
    assert place_in(bands_for(FunctionalCheck.ONE_LEG, 70)[0], 5_000) is None
