"""How far each station stands beyond what was written: on by two clean sessions, back by a bad one, else it holds."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.domain.compile.timeline import compile_timeline
from app.domain.dosing.history import is_clean
from app.domain.model.body import parse_spot
from app.domain.model.client import Client, Condition, Place, UsualPain
from app.domain.model.diary import AnsweredBy
from app.domain.model.exercise import Axis, Exercise, Mode, Option, Pattern, Sides
from app.domain.model.person import Person
from app.domain.model.plan import Move, MoveKind, StepKind, StepReason
from app.domain.model.record import Ending, How, Hurt
from app.domain.model.session import STEPS_UNSAID, USUAL_STEPS, Item
from app.domain.progress.progression_ladder import ladder, reps_needed
from app.domain.progress.progression_today import done_before, is_waiting, shown_in
from app.exchange.letters.agreed_records import agreed_records
from app.words.client.progression import WHY, move_text
from tests.domain.days import BODY, BRACE, CURL, LIBRARY, PLAIN, RISE, Days, amounts, session_of, steps
from tests.domain.past import check_in, plan, session, sore, stamp

KNEE = parse_spot("left knee")
#: Two clean sessions for each step, and more than a week from one to the next.
DAYS = tuple(range(0, 120, 4))
WRITTEN = {"rise": (30, None, None), "curl": (16, 8, 2000), "brace": (15, None, None)}


def moved(count: int, **more: Any) -> Days:
    """So many clean sessions, four days apart."""
    return Days(**more).good(*DAYS[:count])


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


def test_what_was_much_too_easy_twice_takes_two_steps_of_amount_at_once() -> None:
    """Two points under what was meant; never across a weight or a harder option."""
    days = Days()
    for day in DAYS[:2]:
        days.do(day, rpe=3)
    assert {s.step for s in days.at(DAYS[2]).values()} == {2}
    for day in DAYS[2:4]:
        days.do(day, rpe=3)
    assert days.at(DAYS[4])["rise"].step == 3  # the rung after it is the harder option
    assert days.at(DAYS[4])["curl"].step == 4


def test_warm_up_and_cool_down_never_move() -> None:
    """They are as written."""
    plan = moved(6).plan(DAYS[6])
    assert [s.length_ms for s in plan.steps if s.is_effort and s.exercise == "march"] == [60_000, 30_000]


@pytest.mark.parametrize(("most", "seconds"), [(0, 30), (1, 35), (2, 40)])
def test_the_coach_sets_the_ceiling(most: int, seconds: int) -> None:
    """However many clean sessions; 0 is never."""
    days = moved(10, session=session_of(replace(RISE, steps=most)))
    assert amounts(days.plan(DAYS[10]))["rise"][0] == seconds
    assert days.at(DAYS[10])["rise"].step == most


def test_what_an_older_pack_says_nothing_of_stays_at_two_steps() -> None:
    """It was left out of packs where it was the usual; eight are usual now."""
    assert Item("rise", work_s=30).steps == STEPS_UNSAID == 2 < USUAL_STEPS


@pytest.mark.parametrize(("written", "held"), [(15, 25), (20, 30), (25, 30), (28, 28), (30, 30), (45, 45)])
def test_a_hold_grows_to_thirty_seconds_at_most(written: int, held: int) -> None:
    """In whole steps of 5 s."""
    days = moved(8, session=session_of(RISE, replace(BRACE, hold_s=written)))
    assert amounts(days.plan(DAYS[8]))["brace"][0] == held


def test_a_hold_does_not_grow_where_long_holds_are_not_allowed() -> None:
    """With high blood pressure."""
    plan = moved(4, client=replace(BODY, conditions=frozenset({Condition.HIGH_BLOOD_PRESSURE}))).plan(DAYS[4])
    assert sum(s.length_ms for s in plan.steps if s.exercise == "brace" and s.round == 1 and s.is_effort) == 15_000
    assert set(steps(plan)) == {"rise", "curl"}


def test_a_station_that_is_written_twice_stays() -> None:
    """It could not be told which of them moved."""
    assert moved(4, session=session_of(RISE, BRACE, RISE)).plan(DAYS[4]).moves[0].exercise == "brace"


# ------------------------------------------------------------------ the harder option

EIGHT = DAYS[:8]


def harder(client: Client = BODY, low: Exercise | None = None, place: Place | None = None) -> dict[str, Any]:
    """What the rise is after eight clean sessions."""
    known = {**LIBRARY, "low": low or LIBRARY["low"]}
    plan = Days(client, session_of(RISE, BRACE), known, place or Place()).good(*EIGHT).plan(DAYS[8])
    return {i: a for i, a in amounts(plan).items() if i != "brace"}


def test_the_harder_option_comes_at_the_amount_that_was_written() -> None:
    """And is told with both names."""
    plan = moved(8).plan(DAYS[8])
    rise = next(m for m in plan.moves if m.exercise == "rise")
    assert (rise.what, rise.to, rise.step, rise.written, rise.amount) == (MoveKind.HARDER, "low", 4, 30, 30)
    assert plan.substitutions == () and all(s.written is None for s in plan.steps)


@pytest.mark.parametrize("client", [
    replace(BODY, alone=True), replace(BODY, limits={Axis.DEEP_KNEE_FLEXION: 1}), replace(BODY, same_as_always=True)],
    ids=["alone and never shown", "over today's limits", "same as always"])
def test_a_harder_option_that_may_not_be_gives_what_came_before(client: Client) -> None:
    """15 s more of what is known."""
    assert harder(client) == {"rise": (45, None, None)}


def test_somebody_alone_gets_the_harder_option_once_it_was_shown_or_explains_itself() -> None:
    """As with a stand-in."""
    assert "low" in harder(replace(BODY, alone=True, shown=frozenset({"low"})))
    assert "low" in harder(replace(BODY, alone=True), replace(LIBRARY["low"], self_explanatory=True))


@pytest.mark.parametrize("low", [
    replace(LIBRARY["low"], sides=Sides.EACH), replace(LIBRARY["low"], pattern=Pattern.HINGE),
    replace(LIBRARY["low"], mode=Mode.HOLD, hold_s=20, rep_ms=0)])
def test_a_harder_option_of_another_movement_other_sides_or_mode_is_no_rung(low: Exercise) -> None:
    """It would not be the same, or not take the same time."""
    days = Days(BODY, session_of(RISE), {**LIBRARY, "low": low}).good(*DAYS[:10])
    assert amounts(days.plan(DAYS[10])) == {"rise": (45, None, None)}
    assert days.at(DAYS[10])["rise"].step == 3


def test_a_harder_option_that_needs_what_is_not_at_hand_waits() -> None:
    """Where the kit is not told, what was written is at hand and nothing else."""
    assert "rise" in harder(low=replace(LIBRARY["low"], equipment=("step",)))
    assert "low" in harder(replace(BODY, kit=frozenset({"step"})), replace(LIBRARY["low"], equipment=("step",)))


def test_a_harder_option_that_loads_what_hurts_waits() -> None:
    """Also where the easier one does not."""
    low = replace(LIBRARY["low"], demand={**LIBRARY["low"].demand, Axis.ANKLE_LOAD: 1})
    client = replace(BODY, usual_pain={parse_spot("ankle"): UsualPain(4, "physiotherapist", stamp("", 99).local)})
    days = Days(client, session_of(RISE), {**LIBRARY, "low": low}).good(*EIGHT)
    assert "low" in amounts(days.plan(DAYS[8]))
    sore_ankle = check_in(DAYS[8], pain=sore(left_ankle=3))
    assert (days.plan(DAYS[8], sore_ankle).dose.level, "rise" in amounts(days.plan(DAYS[8], sore_ankle))) == (0, True)


def test_of_several_harder_options_the_coachs_first_comes_that_may_be() -> None:
    """In the order in which they are written."""
    rise = replace(LIBRARY["rise"], harder=(Option("deep"), Option("low")))
    deep = replace(LIBRARY["low"], id="deep", name="Deep", demand={Axis.DEEP_KNEE_FLEXION: 3})
    known = {**LIBRARY, "rise": rise, "deep": deep}
    for most, which in ((3, "deep"), (2, "low"), (1, "rise")):
        client = replace(BODY, limits={Axis.DEEP_KNEE_FLEXION: most})
        assert which in amounts(Days(client, session_of(RISE), known).good(*EIGHT).plan(DAYS[8]))


def test_a_harder_option_done_well_stays_and_one_that_hurt_goes() -> None:
    """Judged by what was really done."""
    days = moved(8)
    days.do(DAYS[8], hurts=(Hurt(KNEE, 2, exercise="low"),))
    assert days.at(DAYS[9])["rise"].step == 3
    assert days.at(DAYS[9])["curl"].step == 4


# ------------------------------------------------------------------ load

@pytest.mark.parametrize(("now_g", "next_g", "reps"), [
    (2000, 2200, 9), (4000, 5000, 15), (5000, 6000, 13), (6000, 8000, 18), (4000, 6000, 24), (2000, 4000, 43)])
def test_how_many_repetitions_a_next_weight_needs(now_g: int, next_g: int, reps: int) -> None:
    """Epley: with three left, so that five with three left are likely there. By hand: 38 × next ÷ now − 33."""
    assert reps_needed(now_g, next_g) == reps
    possible = now_g / 1000 * (1 + (reps + 3) / 30)
    assert 30 * (possible / (next_g / 1000) - 1) > 7.999
    assert 30 * (now_g / 1000 * (1 + (reps + 2) / 30) / (next_g / 1000) - 1) < 8


HEAVY = replace(CURL, load_g=4000, reps=10, steps=12)


def test_repetitions_then_the_next_weight_with_fewer_and_on_from_there() -> None:
    """10 to 15 at 4 kg, then 5 at 5 kg, and up again."""
    found = ladder(HEAVY, LIBRARY["curl"], LIBRARY, (4000, 5000, 6000, 8000), 12)
    assert [(at.load_g, at.amount) for at in found] == [
        *((4000, n) for n in range(10, 16)), *((5000, n) for n in range(5, 12))]


@pytest.mark.parametrize("weights", [(4000, 6000), (4000,), (), None])
def test_a_weight_that_is_too_far_never_comes(weights: tuple[int, ...] | None) -> None:
    """Half as heavy again needs 24 repetitions; it ends at 12."""
    found = ladder(HEAVY, LIBRARY["curl"], LIBRARY, weights, 12)
    assert {at.load_g for at in found} == ({4000} if weights != () else {0})
    assert found[-1].amount == 12


def test_in_twelve_weeks_of_clean_sessions_twice_a_week_a_heavier_weight_is_lifted() -> None:
    """With 4, 5, 6 and 8 kg at home."""
    days = Days(replace(BODY, weights_g=(4000, 5000, 6000, 8000)), session_of(replace(HEAVY, steps=8)))
    days.good(*(day for week in range(12) for day in (7 * week, 7 * week + 4)))
    assert amounts(days.plan(84))["curl"][2] == 5000
    load = next(m for m in days.plan(84).moves if m.exercise == "curl")
    assert (load.what, load.written, load.amount) == (MoveKind.LOAD, 4000, 5000)


def test_after_a_weight_comes_the_harder_option_where_the_next_is_too_far() -> None:
    """At the weight and the amount that were written."""
    known = {**LIBRARY, "curl": replace(LIBRARY["curl"], harder=(Option("slow"),)),
             "slow": replace(LIBRARY["curl"], id="slow", name="Slow curl")}
    found = ladder(replace(HEAVY, reps=12), known["curl"], known, (4000, 5000, 10000), 40)
    turn = [(at.exercise, at.load_g, at.amount) for at in found if at.by in (MoveKind.LOAD, MoveKind.HARDER)]
    assert turn == [("curl", 5000, 5), ("slow", 4000, 12), ("slow", 5000, 5)]


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
def test_one_point_harder_now_and_then_is_no_harder_than_meant(efforts: tuple[int, ...], counts: bool) -> None:
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


# ------------------------------------------------------------------ pain

USUAL = replace(BODY, usual_pain={KNEE: UsualPain(4, "physiotherapist", stamp("", 99).local)})


def test_with_a_usual_pain_more_of_the_same_follows_after_three_clean_sessions() -> None:
    """Of what loads the joint; the others go on after two. It is not held back for ever."""
    days = Days(USUAL)
    for day in DAYS[:6]:
        days.do(day, check_in(day, pain=sore(left_knee=3)), pain=sore(left_knee=3))
    plan = days.plan(DAYS[6], check_in(DAYS[6], pain=sore(left_knee=3)))
    assert plan.dose.level == 0
    assert {m.exercise: m.step for m in plan.moves} == {"rise": 2, "curl": 3, "brace": 2}


def test_with_a_usual_pain_nothing_gets_heavier_or_harder() -> None:
    """Neither a step gained before nor one that would follow."""
    days = Days(USUAL).good(*EIGHT)
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


def test_options_of_an_exercise_are_no_rungs_of_their_own_ladder() -> None:
    """An exercise that names itself, or one that is not there."""
    odd = replace(LIBRARY["rise"], harder=(Option("rise"), Option("nowhere")))
    days = Days(BODY, session_of(RISE), {**LIBRARY, "rise": odd}).good(*DAYS[:10])
    assert days.at(DAYS[10])["rise"].step == 3


# ------------------------------------------------------------------ told

@pytest.mark.parametrize(("move", "said"), [
    (Move("rise", 1, MoveKind.SECONDS, StepReason.CLEAN, 30, 35),
     "5 seconds more, 35 in all, after two good sessions."),
    (Move("curl", 1, MoveKind.REPS, StepReason.SKIPPED, 8, 9), "1 repetition more, 9 in all, since it was left out."),
    (Move("rise", 3, MoveKind.HARDER, StepReason.CLEAN, 30, 30, "low"),
     "One step harder than “Stand up from a chair”, after two good sessions."),
    (Move("curl", 3, MoveKind.LOAD, StepReason.CLEAN, 2000, 3000), "3 kg instead of 2 kg, after two good sessions."),
    (Move("rise", 4, MoveKind.LOAD, StepReason.HELD, 2000, 2500, "low"),
     "One step harder than “Stand up from a chair”, with 2.5 kg instead of 2 kg, as your coach wants it."),
    (Move("rise", 0, MoveKind.SECONDS, StepReason.HURT, 30, 30), "As written again, 30 seconds, since it hurt."),
])
def test_each_move_is_one_plain_sentence(move: Move, said: str) -> None:
    """What is more, how much it is in all, and why."""
    assert move_text(move, {i: e.name for i, e in LIBRARY.items()}) == said
    assert set(WHY) == set(StepReason)


def test_that_it_hurt_does_not_travel_where_pain_is_not_sent() -> None:
    """Nor that something hurts today; any other reason does."""
    done = Days().do(0)
    moves = tuple(Move("rise", 0, MoveKind.SECONDS, because, 30, 30) for because in StepReason)
    done = replace(done, plan=replace(done.plan, moves=moves))
    sent, = agreed_records(Person("p", "Ines", sends=frozenset({"sessions"})), [done])
    assert isinstance(sent, type(done))
    told = {one.because for one in sent.plan.moves}
    assert told == set(StepReason) - {StepReason.HURT, StepReason.PAIN}
    whole, = agreed_records(Person("p", "Ines"), [done])
    assert whole == done
