"""What shows over weeks alone: each case that a list of single days passed over, and the edge of each number."""
from __future__ import annotations

import random
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from app.domain.measures.attention import attention, flags_of
from app.domain.measures.attention_summary import AgreedPain, Flag, PersonSummary, RecordSummary
from app.domain.measures.attention_summary import AttentionReason as A
from app.domain.model.record import CheckDone, Ending, FunctionalCheck, Stamp
from tests.domain.measures.test_attention import TODAY, line, told, why


def strength(days_ago: int, rpe: int | None = 5, done: int = 100, ending: str = Ending.FINISHED, **more: object
             ) -> RecordSummary:
    """A strength session, done and as hard as meant unless told otherwise."""
    return told(days_ago, rpe=rpe, target_rpe=5, completed=done, ending=ending, strength=True, **{"pain": 0, **more})


def light(days_ago: int, rpe: int = 3, **more: object) -> RecordSummary:
    """A session for moving and balance."""
    done = told(days_ago, rpe=rpe, target_rpe=5, completed=100, ending=Ending.FINISHED, pain=0, **more)
    return done._replace(strength=False)


def morning(days_ago: int, *felt: int, soreness: int | None = None, **more: object) -> RecordSummary:
    """A check-in: slept, energy, settled."""
    return told(days_ago, "check_in", soreness=soreness, **dict(zip(("slept", "energy", "calm"), felt, strict=False)),
                **more)


def flag(because: A, *records: RecordSummary, **more: object) -> Flag:
    """The one flag of that reason."""
    one, = (f for f in flags_of(replace(line(*records), **more), TODAY) if f.because is because)  # type: ignore[arg-type]
    return one


# ------------------------------------------------------------------ effort

def test_a3_a_light_day_hides_five_weeks_of_too_much() -> None:
    """Strength 7, 8, 8 where 5 was meant, the last ended as too much at 75 %, a light day after each: all told."""
    weeks = [strength(15, 7), light(13), strength(8, 8), light(6), strength(2, 8, 75, Ending.TOO_MUCH), light(0)]
    assert flag(A.EFFORT, *weeks).numbers == (8, 8, 5)
    assert A.EFFORT not in why(strength(9, 7), light(6, 9), strength(2, 5), light(1, 5))
    assert flag(A.EFFORT, light(6, 7), strength(5), light(3, 7), strength(1)).records == ("session-6", "session-3")


@pytest.mark.parametrize(("ends", "listed"), [(1, False), (2, True), (4, True)])
def test_g1_too_much_in_every_session(ends: int, listed: bool) -> None:
    """In two of the last four strength sessions."""
    sessions = [strength(20 - 5 * n, ending=Ending.TOO_MUCH if n < ends else Ending.FINISHED) for n in range(4)]
    assert (A.TOO_MUCH in why(*sessions)) is listed
    older = [strength(27, ending=Ending.TOO_MUCH), strength(26, ending=Ending.TOO_MUCH), *sessions]
    assert (A.TOO_MUCH in why(*older)) is listed


@pytest.mark.parametrize(("efforts", "listed"), [
    ((6, 6, 6, 6), True), ((5, 7, 5, 7), True), ((6, 6, 6, 5), False), ((6, 6, 6), False), ((9, 5, 5, 5), True)])
def test_a_point_too_hard_on_average_over_four_sessions(efforts: tuple[int, ...], listed: bool) -> None:
    """One alone may be chance; and three are no mean of four."""
    assert (A.TOO_MUCH in why(*(strength(20 - 5 * n, e) for n, e in enumerate(efforts)))) is listed


@pytest.mark.parametrize(("rpe", "days", "listed"), [(10, 1, True), (9, 1, True), (8, 1, False), (9, 13, True),
                                                      (9, 14, False)])
def test_g4_one_very_hard_session(rpe: int, days: int, listed: bool) -> None:
    """Of either kind, within a fortnight, whatever came after it."""
    for session in (strength, light):
        assert (A.VERY_HARD in why(session(days, rpe), strength(0))) is listed


@pytest.mark.parametrize(("efforts", "listed"), [
    ((3, 3, 3, 3), True), ((3, 2, 4, 3, 3), True), ((3, 3, 4, 4, 3), False), ((2, 2, 2), False)])
def test_g7_much_too_easy_throughout(efforts: tuple[int, ...], listed: bool) -> None:
    """Two points or more under in four of five; neither harm nor silence."""
    sessions = [strength(20 - 4 * n, e) for n, e in enumerate(efforts)]
    assert (A.TOO_EASY in why(*sessions)) is listed
    assert not attention([line(*sessions)], TODAY).harm


def test_more_is_never_offered_where_something_is_wrong() -> None:
    """Pain in the last of them, another harm beside them, one that was cut short: no word of too easy."""
    easy = [strength(20 - 4 * n, 2) for n in range(5)]
    assert A.TOO_EASY in why(*easy)
    assert A.TOO_EASY not in why(*easy[:4], strength(4, 2, pain=3))
    assert A.TOO_EASY not in why(*easy, told(1, "event", what="fall"))
    assert A.TOO_EASY not in why(*easy[:4], strength(4, 2, 80))
    assert A.TOO_EASY not in why(*easy, told(0, "check_in", pain=5))


# ------------------------------------------------------------------ how much, how often

@pytest.mark.parametrize(("shares", "listed"), [
    ((50, 50, 50, 50), True), ((100, 59, 59, 59), True), ((60, 59, 59, 60), False), ((40, 40, 40), True)])
def test_e9_half_done_each_time(shares: tuple[int, ...], listed: bool) -> None:
    """Less than counts in three of four, for whatever reason it ended."""
    for ending in (Ending.FINISHED, Ending.INTERRUPTED, Ending.TOO_MUCH):
        sessions = [strength(20 - 5 * n, done=share, ending=ending) for n, share in enumerate(shares)]
        assert (A.STOPS_EARLY in why(*sessions)) is listed


def often(lately: int, before: int, *, counted: int = 0, **more: object) -> list[A]:
    """Why, with so many sessions in the last fortnight, in the one before, and counted before that."""
    sessions = [*(light(n) for n in range(lately)), *(light(14 + n) for n in range(before))]
    one = replace(line(*sessions, heard=0), sessions_before=counted, **more)  # type: ignore[arg-type]
    return [f.because for f in flags_of(one, TODAY)]


@pytest.mark.parametrize(("lately", "before", "counted", "listed"), [
    (2, 6, 12, True), (3, 6, 12, True), (4, 6, 12, False), (1, 3, 6, True), (1, 2, 6, False), (2, 2, 4, False)])
def test_g5_from_three_sessions_a_week_to_one(lately: int, before: int, counted: int, listed: bool) -> None:
    """Half of the six weeks before, or less, and two missing at least."""
    assert (A.HALVED in often(lately, before, counted=counted)) is listed


def test_days_in_a_pause_or_not_heard_of_are_not_held_against_anybody() -> None:
    """What was not sent yet may have been done."""
    assert A.HALVED in often(2, 6, counted=12)
    week = ((TODAY - timedelta(days=6), TODAY),)
    assert A.HALVED not in often(2, 6, counted=12, pauses=week)
    heard = datetime(2026, 3, 30, 8, tzinfo=UTC) - timedelta(days=7)
    assert A.HALVED not in often(2, 6, counted=12, last_return=heard)
    assert A.HALVED not in often(0, 6, counted=12)


# ------------------------------------------------------------------ mornings

@pytest.mark.parametrize(("mornings", "listed"), [(5, True), (3, True), (2, False)])
def test_g2_sleep_energy_and_settled_at_the_lowest_for_weeks(mornings: int, listed: bool) -> None:
    """One item at 1 is enough, in three of the last five mornings."""
    for felt in ((1, 1, 1), (4, 1, 4)):
        answers = [morning(10 - 2 * n, *(felt if n < mornings else (4, 4, 4))) for n in range(5)]
        assert (A.WELLBEING in why(*answers)) is listed


@pytest.mark.parametrize(("now", "listed"), [((3, 3, 3), True), ((3, 3, 4), False), ((4, 4, 4), False)])
def test_a_fortnight_three_points_lower_than_before(now: tuple[int, ...], listed: bool) -> None:
    """By the median, so that one bad night is none."""
    before = [morning(14 + 3 * n, 4, 4, 4) for n in range(4)]
    answers = [*before, *(morning(3 * n, *now) for n in range(4))]
    assert (A.WELLBEING in why(*answers)) is listed
    assert A.WELLBEING not in why(*before, morning(2, 4, 4, 4), morning(1, 4, 4, 4), morning(0, 2, 2, 2))


@pytest.mark.parametrize(("aches", "listed"), [((8, 0, 8), True), ((7, 7, 0), True), ((6, 6, 6), False),
                                               ((9, 0, 0), False), ((8, 8, 0, 0), False)])
def test_g3_soreness_of_eight_twice_a_week(aches: tuple[int, ...], listed: bool) -> None:
    """Seven or more in two of the last three mornings."""
    assert (A.SORENESS in why(*(morning(9 - 2 * n, soreness=a) for n, a in enumerate(aches)))) is listed


# ------------------------------------------------------------------ pain

def pained(days_ago: int, level: int, spot: str = "left knee", **more: object) -> RecordSummary:
    """A strength session with that pain."""
    return strength(days_ago, pain=level, spots=((spot, level),) if level else (), **more)


def test_g10_the_joint_the_rise_the_early_stop_and_the_hard_sessions_stand_in_one_line() -> None:
    """All in one line of evidence; and that it rises is told beside how high it is."""
    weeks = [pained(27, 1), pained(20, 2, rpe=7), pained(9, 3, rpe=8),
             pained(2, 5, rpe=8, done=75, ending=Ending.TOO_MUCH)]
    one, rising = flag(A.PAIN, *weeks), flag(A.RISING, *weeks)
    assert (one.numbers, one.words) == ((5,), ("left knee",)) and rising.numbers == (1, 2, 3, 5)
    course = one.course
    assert course is not None
    assert (course.spot, course.low, course.low_on) == ("left knee", 1, TODAY - timedelta(days=27))
    assert (course.ended, course.completed, course.efforts, course.target) == ("too_much", 75, (7, 8, 8), 5)


def test_g9_an_agreed_usual_pain_is_no_harm() -> None:
    """Not at its level nor below, on either side where none was named; above it, after its day, and elsewhere it is."""
    agreed = AgreedPain("knee", 5, TODAY)

    def listed(level: int, spot: str = "left knee", until: date = TODAY) -> bool:
        one = replace(line(pained(1, level, spot)), usual=(replace(agreed, until=until),))
        return any(f.because is A.PAIN for f in flags_of(one, TODAY))

    assert not listed(4) and not listed(5) and listed(6) and listed(5, "left hip")
    assert listed(5, until=TODAY - timedelta(days=2)) and not listed(5, until=TODAY - timedelta(days=1))
    side = replace(line(pained(1, 5, "right knee")), usual=(AgreedPain("left knee", 5, TODAY),))
    assert any(f.because is A.PAIN for f in flags_of(side, TODAY))
    both = replace(line(strength(1, pain=5, spots=(("left hip", 4), ("left knee", 5)))), usual=(agreed,))
    found = [f for f in flags_of(both, TODAY) if f.because is A.PAIN]
    assert [(f.numbers, f.words) for f in found] == [((4,), ("left hip",))]


def test_the_first_line_is_the_first_call() -> None:
    """The same pain with more beside it comes first."""
    plain = replace(line(pained(1, 5)), name="Ada", person="ada")
    worse = replace(line(pained(9, 5, rpe=8), pained(1, 5, rpe=8)), name="Zoe", person="zoe")
    assert [f.name for f in attention([plain, worse], TODAY).harm][:2] == ["Zoe", "Ada"]


# ------------------------------------------------------------------ checks

def stands(days_ago: int, number: int, *, hands: bool = False) -> CheckDone:
    """Stands from a chair."""
    day = TODAY - timedelta(days=days_ago)
    utc = datetime(day.year, day.month, day.day, 9, tzinfo=UTC)
    return CheckDone(Stamp(f"k{days_ago}", "ines", utc, day, 0), FunctionalCheck.CHAIR_STAND, stands=number,
                     hands_used=hands)


@pytest.mark.parametrize(("now", "listed"), [(9, True), (10, False), (15, False)])
def test_g8_a_check_that_fell_by_more_than_its_error(now: int, listed: bool) -> None:
    """Against the one before it, in the last four weeks; hands that are newly needed at once."""
    def found(*checks: CheckDone) -> bool:
        one: PersonSummary = replace(line(light(1)), checks=checks)
        return any(f.because is A.CHECK_FELL for f in flags_of(one, TODAY))

    assert found(stands(50, 12), stands(3, now)) is listed
    assert not found(stands(90, 12), stands(40, 5)) and not found(stands(3, 5))
    assert found(stands(50, 12), stands(3, 12, hands=True)) and not found(stands(50, 8, hands=True), stands(3, 12))


# ------------------------------------------------------------------ what leads nowhere

STEADY = (("press", 1), ("squat", 2))


@pytest.mark.parametrize(("days", "listed"), [((22, 15, 9, 5, 1), True), ((20, 15, 9, 5, 1), False),
                                              ((22, 15, 9, 5), False)])
def test_g6_clients_for_whom_nothing_moves(days: tuple[int, ...], listed: bool) -> None:
    """Three weeks, with four sessions within them; a step on ends it; and it is no harm."""
    sessions = [strength(n, steps=STEADY) for n in days]
    assert (A.STALLED in why(*sessions)) is listed
    assert A.STALLED not in why(*sessions[:-1], strength(1, steps=(("press", 2), ("squat", 2))))
    if listed:
        whole = [morning(n, 4, 4, 4, soreness=0, pain=0) for n in days]
        one = flag(A.STALLED, *_in_order(whole, sessions))
        assert one.words == ("ceiling",) and one.key == "stalled:running" and not one.is_harm


@pytest.mark.parametrize("left_out", ["slept", "energy", "calm", "soreness", "pain", "check-in", "effort"])
def test_g6_nothing_moves_for_want_of_answers_though_the_programme_goes_on(left_out: str) -> None:
    """Whatever of the check-in or after the session is left out in half of them."""
    days = (22, 15, 9, 5, 1)
    sessions = [strength(n, steps=STEADY, session="first" if n > 5 else "next") for n in days]
    whole = [morning(n, 4, 4, 4, soreness=0, pain=0) for n in days]
    assert A.STALLED not in why(*_in_order(whole, sessions))
    if left_out == "effort":
        sessions = [t._replace(rpe=None) for t in sessions]
    some = [] if left_out == "check-in" else whole
    if left_out in ("slept", "energy", "calm", "soreness", "pain"):
        some = [t._replace(**{left_out: None}) for t in whole]  # type: ignore[arg-type]
    one = flag(A.STALLED, *_in_order(some, sessions))
    assert one.words == ("unanswered",) and not one.is_harm


def test_e8_a_knee_of_three_that_nobody_agreed_on_holds_and_the_coach_hears_of_it() -> None:
    """Nothing is added after pain, a push at the wall neither; but in three weeks it is told, with what to look at."""
    sessions = [strength(n, pain=3, steps=STEADY) for n in (22, 15, 9, 5, 1)]
    one = flag(A.STALLED, *_in_order([morning(n, 4, 4, 4, soreness=0, pain=3) for n in (22, 15, 9, 5, 1)], sessions))
    assert one.words == ("pain",) and not one.is_harm


def _in_order(*records: list[RecordSummary]) -> list[RecordSummary]:
    return sorted((t for some in records for t in some), key=lambda t: t.local)


def test_a_week_that_was_begun_again_twice_is_told() -> None:
    """Once is the programme's own answer."""
    assert A.WEEK_AGAIN not in why(strength(1, week_again=1))
    assert flag(A.WEEK_AGAIN, strength(9, week_again=2), strength(1, week_again=3)).numbers == (3,)
    assert A.WEEK_AGAIN not in why(strength(9, week_again=2), strength(1))


# ------------------------------------------------------------------ a second reading

def second_reading(records: list[RecordSummary]) -> set[A]:
    """The rules over weeks in other words, as they are written down for coaches; apart from the first."""
    found: set[A] = set()
    sessions = [r for r in records if r.kind == "session"]
    if any(r.rpe is not None and r.rpe > 8 and r.local > TODAY - timedelta(days=14) for r in sessions):
        found.add(A.VERY_HARD)
    for own in ([r for r in sessions if r.strength], [r for r in sessions if not r.strength]):
        four = own[-4:]
        beyond = [r.rpe - 5 for r in four if r.rpe is not None]
        ended = [r for r in four if r.ending == "too_much"]
        if len(ended) > 1 or (len(beyond) == 4 and sum(beyond) / 4 >= 1):
            found.add(A.TOO_MUCH)
        told_of = [r.rpe for r in own if r.rpe is not None]
        if len(told_of) > 1 and all(rpe >= 7 for rpe in told_of[-2:]):
            found.add(A.EFFORT)
        if len([r for r in four if r.completed is not None and r.completed < 60]) > 2:
            found.add(A.STOPS_EARLY)
    answers = [r for r in records if r.kind == "check_in"]
    if len([r for r in [a for a in answers if a.soreness is not None][-3:] if (r.soreness or 0) > 6]) > 1:
        found.add(A.SORENESS)
    full = [r for r in answers if r.slept is not None]
    if len([r for r in full[-5:] if 1 in (r.slept, r.energy, r.calm)]) > 2:
        found.add(A.WELLBEING)
    split = TODAY - timedelta(days=13)
    sums = [(r.local, (r.slept or 0) + (r.energy or 0) + (r.calm or 0)) for r in full]
    now, before = sorted(n for day, n in sums if day >= split), sorted(n for day, n in sums if day < split)
    if len(now) > 2 and len(before) > 2 and _middle(before) - _middle(now) >= 3:
        found.add(A.WELLBEING)
    return found


def _middle(numbers: list[int]) -> float:
    """The median of sorted numbers."""
    return (numbers[(len(numbers) - 1) // 2] + numbers[len(numbers) // 2]) / 2


READ_TWICE = {A.VERY_HARD, A.TOO_MUCH, A.EFFORT, A.STOPS_EARLY, A.SORENESS, A.WELLBEING}


@pytest.mark.parametrize("seed", range(80))
def test_a_second_reading_of_the_rules_agrees_on_random_histories(seed: int) -> None:
    """Some weeks of sessions of both kinds and of mornings, well or not."""
    chance = random.Random(seed)
    low = chance.choice((1, 2, 3))
    records: list[RecordSummary] = []
    for days_ago in sorted(chance.sample(range(28), chance.randint(3, 20)), reverse=True):
        if chance.random() < 0.5:
            felt = [chance.randint(low, 5) for _ in range(3)]
            records.append(morning(days_ago, *felt, soreness=chance.choice((None, 0, 6, 7, 8))))
        else:
            kind = chance.random() < 0.7
            done = strength(days_ago, chance.choice((None, 4, 5, 6, 7, 8, 9)), chance.choice((40, 59, 60, 100)),
                            chance.choice((Ending.FINISHED, Ending.TOO_MUCH, Ending.INTERRUPTED)))
            records.append(done._replace(strength=kind))
    assert set(why(*records)) & READ_TWICE == second_reading(records)


def test_each_reason_is_met_by_some_of_them() -> None:
    """Or else the two readings might agree on nothing at all."""
    met: set[A] = set()
    for seed in range(80):
        chance = random.Random(seed)
        sessions = [strength(28 - 2 * n, chance.choice((5, 7, 9)), chance.choice((50, 100)),
                             chance.choice((Ending.FINISHED, Ending.TOO_MUCH))) for n in range(1, 9)]
        met |= second_reading([*sessions, *(morning(n, 1, 1, 1, soreness=8) for n in (3, 2, 1))])
    assert met == READ_TWICE
