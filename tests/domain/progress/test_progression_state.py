"""How far each station stands beyond what was written: on by two clean sessions, back by a bad one, else it holds."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.domain.dosing.history import is_clean
from app.domain.model.diary import AnsweredBy
from app.domain.model.plan import MoveKind, StepReason
from app.domain.model.record import Ending, How, Hurt
from app.domain.model.session import STEPS_UNSAID, USUAL_STEPS, Item
from tests.domain.days import BODY, BRACE, CURL, DAYS, KNEE, RISE, Days, amounts, moved, session_of, steps
from tests.domain.past import plan, session, sore

WRITTEN = {"rise": (30, None, None), "curl": (16, 8, 2000), "brace": (15, None, None)}


# ------------------------------------------------------------------ on

def test_two_clean_sessions_move_each_station_one_step_on() -> None:
    """Not before; 5 s more where there are seconds, 1 repetition where there are repetitions."""
    assert amounts(moved(1).plan(3)) == WRITTEN
    plan = moved(2).plan(6)
    assert plan.dose.level == 0
    assert amounts(plan) == {"rise": (35, None, None), "curl": (18, 9, 2000), "brace": (20, None, None)}
    assert steps(plan) == {"rise": (1, MoveKind.SECONDS), "curl": (1, MoveKind.REPS), "brace": (1, MoveKind.SECONDS)}
    assert {m.because for m in plan.moves} == {StepReason.CLEAN}
    assert [(m.written, m.amount) for m in plan.moves] == [(30, 35), (8, 9), (15, 20)]


def test_each_further_step_takes_two_more_and_ends_at_the_ceiling() -> None:
    """Seconds up to 45, then the harder option; repetitions up to 12; the brace has two steps and stays."""
    found = {n: amounts(moved(n).plan(DAYS[n])) for n in (3, 4, 6, 8, 14)}
    assert found[3] == {"rise": (35, None, None), "curl": (18, 9, 2000), "brace": (20, None, None)}
    assert found[4] == {"rise": (40, None, None), "curl": (20, 10, 2000), "brace": (25, None, None)}
    assert found[6] == {"rise": (45, None, None), "curl": (22, 11, 2000), "brace": (25, None, None)}
    assert found[8] == {"low": (30, None, None), "curl": (24, 12, 2000), "brace": (25, None, None)}
    assert found[14] == found[8]


def test_an_exercise_moves_on_once_a_week_at_most() -> None:
    """However often it is done: clean sessions every other day are a step on days 2, 10 and 18."""
    days = Days()
    for day, step in zip(range(0, 20, 2), (0, 1, 1, 1, 1, 2, 2, 2, 2, 3), strict=True):
        assert days.good(day).at(day)["rise"].step == step


def test_e4_what_was_much_too_easy_twice_takes_two_steps_of_amount_at_once() -> None:
    """Two points under what was meant; never across a weight or a harder option."""
    days = Days()
    for day in DAYS[:2]:
        days.do(day, rpe=3)
    assert {s.step for s in days.at(DAYS[2]).values()} == {2}
    for day in DAYS[2:4]:
        days.do(day, rpe=3)
    assert days.at(DAYS[4])["rise"].step == 3  # the rung after it is the harder option
    assert days.at(DAYS[4])["curl"].step == 4


@pytest.mark.parametrize(("most", "seconds"), [(0, 30), (1, 35), (2, 40)])
def test_the_coach_sets_the_ceiling(most: int, seconds: int) -> None:
    """However many clean sessions; 0 is never."""
    days = moved(10, session=session_of(replace(RISE, steps=most)))
    assert amounts(days.plan(DAYS[10]))["rise"][0] == seconds
    assert days.at(DAYS[10])["rise"].step == most


def test_what_an_older_pack_says_nothing_of_stays_at_two_steps() -> None:
    """It was left out of packs where it was the usual; eight are usual now."""
    assert Item("rise", work_s=30).steps == STEPS_UNSAID == 2 < USUAL_STEPS


def test_a_station_that_is_written_twice_stays() -> None:
    """It could not be told which of them moved."""
    assert moved(4, session=session_of(RISE, BRACE, RISE)).plan(DAYS[4]).moves[0].exercise == "brace"


# ------------------------------------------------------------------ back, and holding

def spoilt(**told: Any) -> dict[str, int]:
    """Each station's step after four clean sessions and one that was not."""
    days = moved(4)
    days.do(DAYS[4], **told)
    return {i: s.step for i, s in days.at(DAYS[5]).items()}


ALL_BACK = {"rise": 1, "curl": 1, "brace": 1}
ALL_STAY = {"rise": 2, "curl": 2, "brace": 2}


@pytest.mark.parametrize(("told", "expected"), [
    ({"hurts": (Hurt(KNEE, 1, exercise="rise"),)}, ALL_STAY | {"rise": 1}),
    ({"by_hand": (("rise", "march"),)}, ALL_STAY | {"rise": 1}),
    ({"hows": {"curl": How.SKIPPED}}, ALL_STAY | {"curl": 1}),
    ({"hows": {"brace": How.PART}}, ALL_STAY | {"brace": 1}),
    ({"hows": {"brace": How.STOPPED}, "ending": Ending.TOO_MUCH}, ALL_STAY | {"brace": 1}),
    ({"rpe": 7}, ALL_BACK), ({"rpe": 10}, ALL_BACK),
    ({"rpe": 6}, ALL_STAY), ({"rpe": None}, ALL_STAY), ({"pain": None}, ALL_STAY), ({"pain": sore(neck=5)}, ALL_STAY),
    ({"hows": {"rise": How.EASIER}}, ALL_STAY),
    ({"done": (), "ending": Ending.PAIN}, ALL_BACK), ({"done": (), "ending": Ending.INTERRUPTED}, ALL_STAY),
    ({"hows": {"curl": How.SKIPPED}, "ending": Ending.INTERRUPTED}, ALL_STAY | {"curl": 1}),
    ({"answered_by": AnsweredBy.LEADER}, ALL_STAY),
], ids=str)
def test_what_takes_a_step_back_and_what_holds(told: dict[str, Any], expected: dict[str, int]) -> None:
    """The station that it concerns, or all where the session was too hard."""
    assert spoilt(**told) == expected


def test_it_never_goes_below_what_was_written() -> None:
    """However bad."""
    days = Days()
    for day in DAYS[:5]:
        days.do(day, rpe=10)
    assert {s.step for s in days.at(15).values()} == {0}
    assert days.plan(DAYS[5]).moves == ()


@pytest.mark.parametrize(("efforts", "counts"), [
    ((5,), True), ((6,), False), ((5, 6), True), ((5, 5, 6), True), ((4, 6), True), ((6, 6), False), ((5, 6, 6), True),
    ((6, 6, 6), False), ((7, 6), False), ((3, 3, 7), False), ((7, 3, 6), True), ((7, 5, 6), False)])
def test_e7_one_point_harder_now_and_then_is_no_harder_than_meant(efforts: tuple[int, ...], counts: bool) -> None:
    """While the last three are on average less than a point over, and neither of the last two was two over."""
    past = [session(day, rpe=rpe) for day, rpe in enumerate(efforts)]
    assert is_clean(past[-1], BODY, past[:-1]) is counts
    light = [session(day, rpe=9, timeline=plan(strength=False)) for day in range(3)]
    assert is_clean(past[-1], BODY, [*past[:-1], *light]) is counts


@pytest.mark.parametrize("told", [{"hows": {"rise": How.EASIER}}, {"rpe": None}], ids=str)
def test_a_session_that_was_not_clean_breaks_the_run(told: dict[str, Any]) -> None:
    """One before and one after are not two running."""
    days = Days().good(0)
    days.do(3, **told)
    assert days.good(6).at(9)["rise"].step == 0
    assert days.good(9).at(12)["rise"].step == 1


def test_a_led_persons_sessions_never_move_on() -> None:
    """They are somebody's guess."""
    days = Days()
    for day in DAYS[:6]:
        days.do(day, answered_by=AnsweredBy.LEADER)
    assert {s.step for s in days.at(20).values()} == {0}


def test_a_station_that_comes_back_is_told_with_its_reason() -> None:
    """One step less than last time."""
    days = moved(4)
    days.do(DAYS[4], hows={"curl": How.SKIPPED}, rpe=7)
    plan = days.good(DAYS[5]).plan(DAYS[6])
    assert {m.exercise: (m.step, m.because) for m in plan.moves}["curl"] == (1, StepReason.SKIPPED)
    assert {m.exercise: (m.step, m.because) for m in plan.moves}["rise"] == (1, StepReason.TOO_HARD)


def test_a_station_that_stands_as_written_again_is_told_once() -> None:
    """On the first whole session after it."""
    days = moved(2)
    days.do(DAYS[2], hurts=(Hurt(KNEE, 1, exercise="rise"),))
    own, days.session = days.session, replace(session_of(BRACE), id="other")
    days.good(*DAYS[3:5])
    days.session = own
    told = {m.exercise: (m.step, m.because, m.written, m.amount) for m in days.plan(DAYS[5]).moves}
    assert told["rise"] == (0, StepReason.HURT, 30, 30) and told["curl"] == (1, StepReason.CLEAN, 8, 9)
    days.do(DAYS[5], rpe=6)
    days.session = replace(session_of(BRACE), id="other")
    days.good(*DAYS[6:8])
    days.session = own
    assert {m.exercise for m in days.plan(DAYS[8]).moves} == {"curl", "brace"}


# ------------------------------------------------------------------ gaps

@pytest.mark.parametrize(("gap", "step"), [(3, 2), (14, 2), (15, 1), (28, 1), (29, 0), (300, 0)])
def test_a_gap_takes_a_step_or_all(gap: int, step: int) -> None:
    """Counted from the last day on which the exercise was done."""
    assert {s.step for s in moved(4).at(DAYS[3] + gap).values()} == {step}


def test_a_gap_counts_once() -> None:
    """Going on after it takes nothing more."""
    days = moved(4).good(DAYS[3] + 16)
    assert days.at(DAYS[3] + 19)["rise"].step == 1
    assert days.at(DAYS[3] + 19)["rise"].because is StepReason.GAP
    days = moved(4)
    days.session, own = replace(session_of(BRACE), id="other"), days.session
    days.good(DAYS[3] + 16, DAYS[3] + 19)
    days.session = own
    assert days.at(DAYS[3] + 22)["rise"].step == 1


def test_sessions_before_and_after_a_gap_are_not_two_running() -> None:
    """Also where there was nothing to take back."""
    days = Days().good(0, 40)
    assert days.at(43)["rise"].step == 0
    assert days.good(43).at(46)["rise"].step == 0
    assert days.good(46).at(49)["rise"].step == 1


def test_another_session_with_the_same_exercise_bridges_a_gap() -> None:
    """For that exercise and no other."""
    days = moved(4)
    other = Days(session=replace(session_of(RISE), id="other"))
    other.do(20)
    days.records += other.records
    assert {i: s.step for i, s in days.at(DAYS[3] + 20).items()} == {"rise": 2, "curl": 1, "brace": 1}


def test_an_exercise_brings_what_was_gained_into_another_session() -> None:
    """As far as it was done there, and no further: the lower of the two."""
    days = moved(5)
    days.session = replace(days.session, id="other")
    assert {s.step for s in days.at(DAYS[5]).values()} == {2}
    days.session = replace(session_of(replace(RISE, work_s=35), replace(CURL, load_g=1000), BRACE), id="third")
    assert {i: s.step for i, s in days.at(DAYS[5]).items()} == {"rise": 1, "curl": 2, "brace": 2}


def test_what_hurt_in_another_session_takes_a_step_back_here_too() -> None:
    """A knee does not know which session it is in."""
    days = moved(4)
    own, days.session = days.session, replace(session_of(RISE), id="other")
    days.do(DAYS[4], hurts=(Hurt(KNEE, 2, exercise="rise"),))
    days.session = own
    assert {i: s.step for i, s in days.at(DAYS[5]).items()} == {"rise": 1, "curl": 2, "brace": 2}


# ------------------------------------------------------------------ what the coach writes

@pytest.mark.parametrize("now", [
    replace(RISE, work_s=40), Item("rise", reps=30, steps=4), replace(CURL, reps=10), replace(CURL, load_g=3000)])
def test_what_the_coach_writes_anew_starts_from_there(now: Item) -> None:
    """Steps belong to the amount that they were added to."""
    days = moved(5)
    kept = {i.exercise: i for i in (RISE, CURL, BRACE)} | {now.exercise: now}
    days.session = session_of(*kept.values())
    assert days.at(DAYS[5])[now.exercise].step == 0
    assert {s.step for i, s in days.at(DAYS[5]).items() if i != now.exercise} == {2}


def test_a_lower_ceiling_takes_back_what_is_above_it() -> None:
    """As the coach's wish."""
    days = moved(5)
    days.session = session_of(replace(RISE, steps=1), replace(CURL, steps=0), BRACE)
    told = {m.exercise: (m.step, m.because) for m in days.plan(DAYS[5]).moves}
    assert told == {"rise": (1, StepReason.HELD), "curl": (0, StepReason.HELD), "brace": (2, StepReason.CLEAN)}


def test_what_the_coach_holds_stays_where_it_is() -> None:
    """The others go on; without the coach's hand it goes on from there."""
    days = moved(3)
    days.client = replace(BODY, held=frozenset({"rise"}))
    days.good(*DAYS[3:7])
    told = {m.exercise: (m.step, m.because) for m in days.plan(DAYS[7]).moves}
    assert told["rise"] == (1, StepReason.HELD) and told["curl"][0] == 3
    days.client = BODY
    assert {m.exercise: m.step for m in days.plan(DAYS[7]).moves}["rise"] == 2
