"""Today's session with each station at its step: what pain, a bad day or little time leave of it, and what is new."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.domain.compile.timeline import compile_timeline
from app.domain.model.client import Client, Place
from app.domain.model.diary import AnsweredBy
from app.domain.model.exercise import Axis
from app.domain.model.plan import MoveKind, StepKind, StepReason
from app.domain.model.record import How, Hurt
from app.domain.model.session import Item
from app.domain.progress.progression_today import done_before, is_waiting, shown_in
from tests.domain.days import (
    BODY,
    BRACE,
    DAYS,
    KNEE,
    LIBRARY,
    PLAIN,
    RISE,
    USUAL,
    Days,
    amounts,
    moved,
    session_of,
    steps,
)
from tests.domain.past import check_in, sore


def test_warm_up_and_cool_down_never_move() -> None:
    """They are as written."""
    plan = moved(6).plan(DAYS[6])
    assert [s.length_ms for s in plan.steps if s.is_effort and s.exercise == "march"] == [60_000, 30_000]


# ------------------------------------------------------------------ pain

def test_e10_with_a_usual_pain_more_of_the_same_follows_after_three_clean_sessions() -> None:
    """Of what loads the joint; the others go on after two. It is not held back for ever."""
    days = Days(USUAL)
    for day in DAYS[:6]:
        days.do(day, check_in(day, pain=sore(left_knee=3)), pain=sore(left_knee=3))
    plan = days.plan(DAYS[6], check_in(DAYS[6], pain=sore(left_knee=3)))
    assert plan.dose.level == 0
    assert {m.exercise: m.step for m in plan.moves} == {"rise": 2, "curl": 3, "brace": 2}


def test_with_a_usual_pain_nothing_gets_heavier_or_harder() -> None:
    """Neither a step gained before nor one that would follow."""
    days = Days(USUAL).good(*DAYS[:8])
    assert "low" in amounts(days.plan(DAYS[8]))
    plan = days.plan(DAYS[8], check_in(DAYS[8], pain=sore(left_knee=3)))
    assert plan.dose.level == 0 and amounts(plan)["rise"] == (45, None, None)
    assert next(m for m in plan.moves if m.exercise == "rise").because is StepReason.PAIN
    aching = Days(USUAL)
    for day in DAYS[:20]:
        aching.do(day, check_in(day, pain=sore(left_knee=3)), pain=sore(left_knee=3))
    assert amounts(aching.plan(DAYS[20], check_in(DAYS[20], pain=sore(left_knee=3))))["rise"] == (45, None, None)
    assert aching.at(DAYS[20])["rise"].step == 3


@pytest.mark.parametrize(("client", "knee", "level", "step", "because"), [
    (USUAL, 0, 0, 2, StepReason.CLEAN), (USUAL, 2, 0, 2, StepReason.CLEAN), (USUAL, 4, 0, 2, StepReason.CLEAN),
    (BODY, 2, 0, 2, StepReason.CLEAN), (BODY, 3, 1, 1, StepReason.PAIN)])
def test_pain_this_morning_keeps_a_station_from_moving_on(
    client: Client, knee: int, level: int, step: int, because: StepReason
) -> None:
    """It stays at what was last given, with its reason; a pain that was agreed on as usual lets the amount go on."""
    days = moved(4, client=client)
    plan = days.plan(DAYS[4], check_in(DAYS[4], pain=sore(left_knee=knee)))
    rise = next(m for m in plan.moves if m.exercise == "rise")
    assert (plan.dose.level, rise.step, rise.because) == (level, step, because)


def test_pain_in_the_last_session_keeps_a_station_from_moving_on() -> None:
    """Whichever session it was."""
    days = moved(4)
    own, days.session = days.session, replace(session_of(BRACE), id="other")
    days.do(DAYS[4], pain=sore(left_knee=3))
    days.session = own
    told = {m.exercise: (m.step, m.because) for m in days.plan(DAYS[5]).moves}
    assert told["rise"] == (1, StepReason.PAIN) and told["curl"] == (1, StepReason.CLEAN)
    days = moved(3, client=USUAL)
    days.do(DAYS[3], pain=sore(left_knee=3))
    assert days.at(DAYS[4])["rise"].step == 1
    assert days.at(DAYS[4])["curl"].step == 2


# ------------------------------------------------------------------ as written all the same

@pytest.mark.parametrize("answers", [
    {"soreness": sore(left_hip=4)}, {"slept": None}, {"answered_by": AnsweredBy.LEADER}], ids=str)
def test_level_1_holds_what_was_gained_and_adds_nothing(answers: dict[str, Any]) -> None:
    """Each station is where it was last given, though it had earned one step more."""
    plan = moved(4).plan(DAYS[4], check_in(DAYS[4], **answers))
    assert plan.dose.level == 1
    assert amounts(plan) == {"rise": (35, None, None), "curl": (18, 9, 2000), "brace": (20, None, None)}


def test_from_level_2_on_the_session_is_as_written_or_less() -> None:
    """The steps are kept for a better day."""
    days = moved(4)
    for answers in ({"soreness": sore(left_hip=6)}, {"slept": 1}, {"pain": sore(neck=4)}):
        morning = check_in(DAYS[4], **answers)
        plan = days.plan(DAYS[4], morning)
        assert plan.dose.level > 1 and plan.moves == ()
        assert plan == compile_timeline(days.order(DAYS[4], morning))
        assert is_waiting(plan, days.sessions)
    assert not is_waiting(days.plan(DAYS[4]), days.sessions) and not is_waiting(Days().plan(0), [])
    days.do(DAYS[4], check_in(DAYS[4], slept=None))
    assert days.good(DAYS[5]).at(DAYS[6])["rise"].step == 2


def test_done_as_written_does_not_count_towards_the_step_after_the_next() -> None:
    """A step is judged by sessions that were done at it."""
    days = moved(2)
    for day in DAYS[2:6]:
        days.do(day, check_in(day, slept=None))
    assert days.at(DAYS[6])["rise"].step == 1
    assert amounts(days.plan(DAYS[6]))["rise"][0] == 35


def test_a_lighter_week_adds_nothing_and_moves_nothing_on() -> None:
    """Nor does it break a run, and at what was written it counts for nothing either."""
    fresh = Days()
    for day in DAYS[:4]:
        fresh.do(day, lighter_week=True)
    assert {s.step for s in fresh.at(DAYS[4]).values()} == {0}
    days = moved(3)
    assert days.plan(DAYS[3], lighter_week=True).moves == ()
    for day in DAYS[3:6]:
        days.do(day, lighter_week=True)
    assert days.at(DAYS[6])["rise"].step == 1
    assert days.good(DAYS[6]).at(DAYS[7])["rise"].step == 2


def test_nothing_is_added_where_time_is_short() -> None:
    """A round is never given up for seconds."""
    days = moved(4)
    full = days.plan(DAYS[4])
    plain = compile_timeline(days.order(DAYS[4], check_in(DAYS[4])))
    minutes = -(-plain.total_ms // 60_000)
    assert full.total_ms > minutes * 60_000
    days.place = Place(minutes=minutes)
    assert days.plan(DAYS[4]) == plain


def test_nothing_is_added_to_a_stand_in() -> None:
    """It was not what was done well."""
    days = Days(session=session_of(Item("low", work_s=30), BRACE)).good(*DAYS[:4])
    assert steps(days.plan(DAYS[4]))["low"] == (2, MoveKind.SECONDS)
    days.client = replace(BODY, limits={Axis.DEEP_KNEE_FLEXION: 1})
    plan = days.plan(DAYS[4])
    assert plan.substitutions[0].to == "rise"
    assert amounts(plan)["rise"] == (30, None, None) and "low" not in steps(plan)
    days.do(DAYS[4])
    assert days.at(DAYS[5])["low"].step == 2


# ------------------------------------------------------------------ the first time, and shown

def set_ups(days: Days, day: int) -> dict[str, list[int]]:
    """Seconds of every set-up by exercise."""
    plan = days.plan(day, done_before=done_before(days.sessions))
    found: dict[str, list[int]] = {}
    for step in plan.steps:
        if step.kind is StepKind.SETUP:
            found.setdefault(step.exercise or "", []).append(step.length_ms // 1000)
    return found


def test_what_is_new_takes_longer_to_set_up_the_first_time() -> None:
    """Twice as long and at least 10 s; from the second round on, and ever after, as usual."""
    long_one = replace(PLAIN, id="rise", name="Rise", set_up_s=12)
    short_one = replace(LIBRARY["brace"], set_up_s=3)
    days = Days(session=session_of(RISE, BRACE), library={**LIBRARY, "rise": long_one, "brace": short_one})
    assert set_ups(days, 0) == {"march": [10, 5], "rise": [24, 12], "brace": [10, 3]}
    days.do(0, hows={"brace": How.SKIPPED})
    assert set_ups(days, 3) == {"march": [5, 5], "rise": [12, 12], "brace": [10, 3]}
    assert {s.length_ms for s in compile_timeline(days.order(3, check_in(3))).steps if s.kind is StepKind.SETUP} == {
        3_000, 5_000, 12_000}


def test_what_was_done_in_full_without_pain_counts_as_shown() -> None:
    """Each time, and as what it was really done."""
    done = Days().do(0, hows={"curl": How.PART}, hurts=(Hurt(KNEE, 2, exercise="rise"),))
    assert shown_in(done) == {"march", "brace"}
    assert shown_in(Days().do(0)) == {"march", "rise", "curl", "brace"}
