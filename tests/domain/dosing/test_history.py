"""From the records of somebody's days to the evidence for today, and the way back after a stop."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.dosing.dose import decide_dose
from app.domain.dosing.history import NO_STRENGTH_YET, clean_running, diary_today, is_clean
from app.domain.dosing.votes import soreness_votes, votes
from app.domain.dosing.way_back import answers_stop, sessions_of, way_back, yes_from
from app.domain.model.body import parse_spot
from app.domain.model.client import Client, Condition, UsualPain
from app.domain.model.diary import AnsweredBy, Symptom
from app.domain.model.level import Level
from app.domain.model.plan import Dose
from app.domain.model.record import CheckIn, Ending, Event, EventKind, Hurt, Record
from app.domain.model.rules import RuleId, rule_table
from app.words.rules.exact_rules import for_coach
from app.words.rules.plain_rules import for_client
from tests.domain.past import T0, check_in, plan, session, sore, stamp, yes
from tests.sampling import examples

BODY = Client()
KNEE, BACK = parse_spot("left knee"), parse_spot("back")


def dose_on(records: list[Record], today: CheckIn, client: Client = BODY) -> Dose:
    """What today's answers lead to after such a past."""
    return decide_dose(diary_today(today, records, client), client, 3, today.stamp.local, strength=True)


# ------------------------------------------------------------------ today's diary

def test_before_the_first_session_nothing_is_known_of_a_last_one() -> None:
    """And nothing about it is missing."""
    diary = diary_today(check_in(), [], BODY)
    assert diary.first_session and diary.pain_rise is None and diary.clean_sessions == 0
    assert dose_on([], check_in()).level == 1  # no two clean sessions yet


def test_the_last_session_is_read_for_effort_share_pain_and_days() -> None:
    """Whatever was written down of it."""
    done = session(0, share=80, rpe=7, pain=sore(left_knee=3))
    diary = diary_today(check_in(3), [done], BODY)
    assert (diary.last.days_ago, diary.last.rpe, diary.last.target_rpe, diary.last.completed, diary.last.pain) == (
        3, 7, 5, 80, 3)
    assert diary.last.pain_at == sore(left_knee=3)


def test_a_joint_that_hurt_on_the_way_counts_with_its_highest() -> None:
    """Beside what was said afterwards."""
    done = session(0, pain=sore(left_knee=2), hurts=(Hurt(KNEE, 5), Hurt(BACK, 3)))
    last = diary_today(check_in(3), [done], BODY).last
    assert (last.pain_at, last.pain) == (sore(left_knee=5, back=3), 5)


def test_the_latest_session_counts_and_not_what_was_taken_back_or_came_later() -> None:
    """Sorted by when it was, not by when it arrived."""
    past = [session(2, rpe=8), session(0, rpe=3), replace(session(3), stamp=stamp("gone", 3, deleted=True)),
            session(30, rpe=1)]
    assert diary_today(check_in(4), past, BODY).last.rpe == 8
    assert [s.rpe for s in sessions_of(past)] == [3, 8, 1]


def test_days_count_from_the_last_strength_work_that_was_really_done() -> None:
    """By the local day; a mobility session or one never begun does not count."""
    past = [session(0), session(3, timeline=plan(strength=False)), session(4, share=0)]
    assert diary_today(check_in(5), past, BODY).last.days_ago == 5
    assert diary_today(check_in(5), past[1:], BODY).last.days_ago == NO_STRENGTH_YET
    late = replace(session(0), stamp=replace(stamp("late", 0.7), local=(T0 + timedelta(days=1)).date()))
    assert diary_today(check_in(2), [late], BODY).last.days_ago == 1


def test_the_last_session_with_strength_work_and_the_last_without_are_told_apart() -> None:
    """A light day between hides neither the effort nor the share of the strength session before it."""
    light = plan(strength=False)
    past = [session(0, rpe=8, share=80, ending=Ending.TOO_MUCH), session(2, rpe=2, timeline=light)]
    diary = diary_today(check_in(3), past, BODY)
    assert (diary.last.rpe, diary.last.completed, diary.last.days_ago) == (8, 80, 3)
    assert diary.last_light is not None and (diary.last_light.rpe, diary.last_light.days_ago) == (2, 1)
    assert diary_today(check_in(3), past[:1], BODY).last_light is None
    assert diary_today(check_in(3), past[1:], BODY).last.rpe == 2


def test_a3_five_weeks_of_too_much_are_seen_though_each_is_followed_by_a_light_day() -> None:
    """The next strength day is eased each time."""
    light = plan(strength=False)
    for week in range(5):
        past = [s for w in range(week + 1) for s in (
            session(7 * w, rpe=7, share=80, ending=Ending.TOO_MUCH), session(7 * w + 2, rpe=3, timeline=light))]
        assert dose_on(past, check_in(7 * week + 4)).level >= 2


def test_a_doorbell_is_remembered_as_one() -> None:
    """So that the share of work is not held against anybody."""
    done = session(0, share=30, ending=Ending.INTERRUPTED)
    assert diary_today(check_in(3), [done], BODY).last.interrupted
    assert RuleId.COMPLETION not in [r.rule for r in dose_on([done], check_in(3)).reasons]


# ------------------------------------------------------------------ the morning after

def rise(before: Any, after: Any, now: Any, hours: float = 48) -> tuple[Any, Any]:
    """(rises, hours) where pain before the session, the morning after, and today were so."""
    past = [check_in(0, pain=before), session(0.1)]
    diary = diary_today(check_in(0.1 + hours / 24, pain=now, morning_after=after), past, BODY)
    return diary.pain_rise, diary.pain_hours


def test_the_morning_after_is_set_against_the_answer_before_the_session() -> None:
    """Each spot by itself; a spot not mentioned before was nothing."""
    assert rise(sore(left_knee=2), sore(left_knee=4, back=1), {})[0] == {KNEE: 2, BACK: 1}
    assert rise(sore(left_knee=4), sore(left_knee=2), {})[0] == {KNEE: -2}
    assert rise(None, sore(left_knee=3), {})[0] == {KNEE: 3}
    assert rise(sore(left_knee=2), None, {}) == (None, {})


def test_a_rise_lasts_while_it_still_hurts_more_than_before() -> None:
    """Hours since the session; once it is back to what it was, none."""
    assert rise(sore(left_knee=2), sore(left_knee=4), sore(left_knee=3))[1] == {KNEE: 48}
    assert rise(sore(left_knee=2), sore(left_knee=4), sore(left_knee=2))[1] == {}
    assert rise(sore(left_knee=2), sore(left_knee=2), sore(left_knee=5))[1] == {}
    assert rise({}, sore(left_knee=1), sore(left_knee=1), 47)[1] == {KNEE: 47}


def test_a_rise_still_there_after_two_days_gives_no_session() -> None:
    """48 h: ask somebody."""
    past: list[Record] = [check_in(0), session(0.1)]
    assert dose_on(past, check_in(2.1, pain=sore(left_knee=1), morning_after=sore(left_knee=1))).level == 7
    assert dose_on(past, check_in(2.0, pain=sore(left_knee=1), morning_after=sore(left_knee=1))).level == 1


# ------------------------------------------------------------------ lasting soreness

def test_soreness_lasts_from_the_first_check_in_in_a_row_that_said_six() -> None:
    """A better morning between begins anew."""
    past = [check_in(0, soreness=sore(back=7)), check_in(1, soreness=sore(back=6)), check_in(2, soreness=sore(back=8))]
    assert diary_today(check_in(3.5, soreness=sore(back=6)), past, BODY).soreness_hours == {BACK: 84}
    past[1] = check_in(1, soreness=sore(back=5))
    assert diary_today(check_in(3.5, soreness=sore(back=6)), past, BODY).soreness_hours == {BACK: 36}
    assert diary_today(check_in(3.5, soreness=sore(back=5)), past, BODY).soreness_hours == {}


@pytest.mark.parametrize("long", [3, 5, 6, 8])
def test_the_tables_long_soreness_is_the_one_that_counts_everywhere(long: int) -> None:
    """Changed in the table alone, it moves what is counted, what is voted, and what both pages of rules say."""
    table = replace(rule_table(), soreness_long=long)
    for told in range(1, 11):
        past = [check_in(day, soreness=sore(back=told)) for day in range(4)]
        diary = diary_today(check_in(4, soreness=sore(back=told)), past, BODY, table=table)
        assert (BACK in diary.soreness_hours) is (told >= long)
        votes = [r.level for r in soreness_votes(diary, table)]
        assert (Level.ASK_FIRST in votes) is (told >= long)
    assert f"≥ {long} for more than" in str(for_coach(table))
    assert f"muscles are at {long} or more" in str(for_client(table))


def test_soreness_for_more_than_three_days_gives_no_session_until_the_coach_says_yes() -> None:
    """And then it starts light."""
    past: list[Record] = [session(0), check_in(1, soreness=sore(back=6))]
    sick = check_in(4.5, soreness=sore(back=6))
    assert dose_on(past, sick).level == 7
    stopped = replace(sick, level=7, carried=7, stopped_by=RuleId.SORENESS.value)
    past.append(stopped)
    assert dose_on(past, check_in(6)).level == 7
    assert dose_on([*past, yes(stopped.stamp.id, 5, "self")], check_in(6)).level == 7
    assert dose_on([*past, yes(stopped.stamp.id, 5, "coach")], check_in(6)).level == 4


# ------------------------------------------------------------------ clean sessions

@pytest.mark.parametrize(("changes", "clean"), [
    ({}, True), ({"share": 95}, True), ({"share": 94}, False), ({"rpe": 4}, True), ({"rpe": 6}, False),
    ({"rpe": None}, False), ({"pain": None}, False), ({"pain": sore(left_knee=2)}, True),
    ({"pain": sore(left_knee=3)}, False), ({"hurts": (Hurt(KNEE, 1),)}, False),
    ({"ending": Ending.TOO_MUCH}, False), ({"ending": Ending.INTERRUPTED}, False), ({"ending": Ending.PAIN}, False),
    ({"answered_by": AnsweredBy.LEADER}, False)])
def test_a_clean_session(changes: dict[str, Any], clean: bool) -> None:
    """Finished, nearly all of it, no harder than meant, nothing hurt, and told by the person."""
    assert is_clean(session(0, **changes), BODY) is clean


def test_a_usual_pain_does_not_spoil_a_session_while_its_agreement_lasts() -> None:
    """At or under it."""
    def agreed(day: int) -> Client:
        return Client(usual_pain={KNEE: UsualPain(4, "physiotherapist", (T0 + timedelta(days=day)).date())})

    done = session(0, pain=sore(left_knee=4))
    assert is_clean(done, agreed(0)) and not is_clean(done, agreed(-1)) and not is_clean(done, BODY)
    assert not is_clean(session(0, pain=sore(left_knee=5)), agreed(9))


def test_clean_sessions_are_counted_back_from_the_latest() -> None:
    """One that was not clean ends the run."""
    past = [session(0), session(2, rpe=9), session(4), session(6)]
    assert clean_running(past, BODY) == 2
    assert clean_running([*past, session(8, share=50)], BODY) == 0
    assert clean_running([], BODY) == 0


# ------------------------------------------------------------------ stops and the way back

@pytest.mark.parametrize(("changes", "level", "because"), [
    ({"pain": sore(left_knee=8)}, 7, "pain"), ({"hurts": (Hurt(KNEE, 8),)}, 7, "pain"),
    ({"hurts": (Hurt(KNEE, 2, gave_way=True),)}, 7, "pain"),
    ({"hurts": (Hurt(KNEE, 6, wants_look=True),)}, 7, "pain"),
    ({"ending": Ending.SIGN, "sign": "fainting"}, 8, "fainting"),
    ({"ending": Ending.SIGN, "sign": "dizziness"}, 7, "dizziness"), ({"ending": Ending.SIGN}, 7, "")])
def test_what_in_a_session_stops_one_until_a_clinician_says_yes(changes: dict[str, Any], level: int, because: str
                                                                ) -> None:
    """Pain of 8, a joint that gave way, a stop sign."""
    stop = way_back([session(0, **changes)]).stop
    assert stop is not None
    assert (stop.level, stop.because, stop.yes_from) == (level, because, "clinician")
    got = dose_on([session(0, **changes)], check_in(3))
    assert got.level == 7 and RuleId.CLEARANCE in [r.rule for r in got.reasons]


@pytest.mark.parametrize("changes", [{}, {"pain": sore(left_knee=7)}, {"ending": Ending.PAIN},
                                     {"ending": Ending.TOO_MUCH}, {"hurts": (Hurt(KNEE, 7),)}])
def test_what_does_not_stop_one(changes: dict[str, Any]) -> None:
    """It is eased instead."""
    assert way_back([session(0, **changes)]).stop is None


@pytest.mark.parametrize(("because", "who"), [
    (Symptom.FEVER, "self"), (RuleId.SORENESS, "coach"), (RuleId.PAIN, "clinician"), (RuleId.PAIN_RISE, "clinician"),
    (Symptom.STOP_AND_ASK, "clinician"), (Symptom.EMERGENCY, "clinician"), ("fainting", "clinician"),
    ("", "clinician")])
def test_whose_yes_a_stop_needs(because: str, who: str) -> None:
    """One's own after fever, the coach's after long soreness, else a clinician's."""
    assert yes_from(because) == who


@pytest.mark.parametrize(("because", "kind", "hours", "answered"), [
    ("fever", "self", 47, False), ("fever", "self", 48, True), ("fever", "nurse", 1, True),
    ("soreness", "self", 200, False), ("soreness", "coach", 1, True), ("soreness", "physiotherapist", 1, True),
    ("pain", "self", 200, False), ("pain", "coach", 200, False), ("pain", "physiotherapist", 1, True),
    ("pain", "", 200, False), ("fever", "", 1, False), ("soreness", " ", 1, False)])
def test_a_yes_answers_its_stop_only_when_of_the_right_kind_and_late_enough(because: str, kind: str, hours: int,
                                                                            answered: bool) -> None:
    """After fever, 48 h without it."""
    stopped = check_in(0, "x", level=7, carried=7, stopped_by=because)
    stop = way_back([stopped]).stop
    assert stop is not None
    assert answers_stop(yes("x", hours / 24, kind), stop) is answered
    assert (way_back([stopped, yes("x", hours / 24, kind)]).stop is None) is answered


def test_a_yes_to_something_else_from_nobody_or_taken_back_answers_nothing() -> None:
    """It names its stop, and who said it."""
    stop = way_back([check_in(0, "x", level=7, carried=7, stopped_by="pain")]).stop
    assert stop is not None
    assert not answers_stop(yes("y", 1), stop)
    assert not answers_stop(yes("x", 1, who=" "), stop)
    assert not answers_stop(yes("x", 1, deleted=True), stop)


def test_after_its_yes_it_starts_light_and_comes_back_step_by_step() -> None:
    """4, 3, 2 and then the whole."""
    past: list[Record] = [session(0, rpe=5), session(2), check_in(4, "x", level=7, carried=7, stopped_by="pain"),
                          yes("x", 5)]
    walked = []
    for day in (6, 9, 12, 15):
        got = dose_on(past, check_in(day))
        walked.append(got.level)
        past.append(replace(session(day + 0.1), plan=replace(plan(), dose=got)))
    assert walked == [4, 3, 2, 0]


def test_a_stop_is_not_forgotten_over_a_later_one_of_another_kind() -> None:
    """Each waits for its own yes."""
    chest = check_in(0, "x", level=8, carried=8, stopped_by="emergency")
    fever = check_in(1, "f", level=7, carried=7, stopped_by="fever")
    for past in ([chest, fever, yes("f", 4, "self")], [fever, replace(chest, stamp=stamp("x", 2)), yes("x", 4)]):
        left = way_back(past).stop
        assert left is not None and left.because != past[1].stopped_by  # type: ignore[union-attr]
    assert way_back([chest, fever, yes("f", 4, "self"), yes("x", 4)]).stop is None


def test_one_yes_answers_a_stop_that_was_met_on_several_mornings() -> None:
    """The last of them, and with it those before it for the same reason; not the one that comes after."""
    past = [check_in(d, f"x{d}", level=7, carried=7, stopped_by="fever") for d in (0, 1, 2)]
    assert way_back([*past, yes("x2", 4, "self")]).stop is None
    left = way_back([*past, yes("x1", 4, "self")]).stop
    assert left is not None and left.id == "x2"


def test_a_session_done_elsewhere_does_not_answer_a_stop() -> None:
    """On a second device, say, whose records came in later."""
    past: list[Record] = [check_in(0, "x", level=8, carried=8, stopped_by="emergency"), session(1)]
    assert way_back(past).previous_level == 8
    assert dose_on(past, check_in(3)).level == 7
    assert dose_on([*past, yes("x", 2)], check_in(3)).level in (0, 1)


def test_waiting_for_a_yes_is_not_a_new_stop() -> None:
    """The check-ins of those days wait for the same one."""
    past = [check_in(0, "x", level=7, carried=7, stopped_by="pain"),
            check_in(1, "z", level=7, carried=7, stopped_by=RuleId.CLEARANCE.value)]
    stop = way_back(past).stop
    assert stop is not None and stop.id == "x"
    assert way_back([*past, yes("x", 2)]) == way_back([past[0], yes("x", 2), past[1]])
    assert way_back([*past, yes("x", 2)]).stop is None


def test_check_ins_only_raise_what_is_carried_and_a_session_sets_it_anew() -> None:
    """A good morning without training is not yet a step back up."""
    past: list[Record] = [session(0, timeline=plan(carried=4)), check_in(2, level=3, carried=3)]
    assert way_back(past).previous_level == 4
    assert way_back([*past, check_in(3, level=5, carried=5)]).previous_level == 5
    assert way_back([*past, session(4, timeline=plan(carried=2))]).previous_level == 2


@settings(max_examples=examples(60, 2_000))
@given(st.permutations([check_in(0), session(0.1, rpe=8), check_in(2, "x", level=7, carried=7, stopped_by="pain"),
                        yes("x", 3), check_in(4, soreness=sore(back=6)), session(4.1), session(6.1, share=70)]))
def test_the_order_in_which_records_arrive_is_irrelevant(past: list[Record]) -> None:
    """Returns come late and twice over."""
    diary = diary_today(check_in(9), past, BODY)
    assert diary == diary_today(check_in(9), sorted(past, key=lambda r: r.stamp.utc), BODY)
    assert way_back(past) == way_back(list(reversed(past)))


def test_todays_own_check_in_is_not_its_own_past() -> None:
    """Kept once before it is decided on and once after."""
    today = check_in(3, soreness=sore(back=7), level=7, carried=7, stopped_by="pain")
    assert diary_today(today, [session(0), today], BODY) == diary_today(today, [session(0)], BODY)


def test_moving_on_takes_two_clean_sessions_that_the_person_told() -> None:
    """Two that a family member told do not count, whoever answers today."""
    own = [session(0), session(3)]
    guessed = [session(0, answered_by=AnsweredBy.LEADER), session(3, answered_by=AnsweredBy.LEADER)]
    assert [dose_on(list(past), check_in(6)).level for past in (own, guessed)] == [0, 1]
    assert dose_on(list(own), check_in(6, answered_by=AnsweredBy.LEADER)).level == 1


def test_worse_a_day_or_two_later_reaches_todays_amount() -> None:
    """From this morning's answer, or from an earlier one since that session; the latest counts."""
    def told(*check_ins: CheckIn) -> int | None:
        return diary_today(check_ins[-1], [session(0), *check_ins], Client()).flare_days

    assert told(check_in(2)) is None and told(check_in(2, flare_days=0)) is None
    assert told(check_in(2, flare_days=1)) == 1
    assert told(check_in(2, flare_days=2), check_in(3)) == 2
    assert told(check_in(1, flare_days=1), check_in(2, flare_days=0)) is None
    assert told(check_in(-1, flare_days=1), check_in(2)) is None
    morning = check_in(2, flare_days=1)
    votes_now = votes(diary_today(morning, [session(0), morning], Client()), Client(), morning.stamp.local,
                      strength=True)
    assert [r.rule for r in votes_now if r.level >= Level.LIGHT] == [RuleId.FLARE]


def test_who_was_asked_whether_it_got_worse_and_would_rather_not_say_is_taken_as_worse() -> None:
    """After an illness; not on the day of the session, not once it was told, and of nobody else."""
    ill = Event(stamp("ill", 0), EventKind.ILLNESS)

    def unsaid(*check_ins: CheckIn, client: Client = BODY, ill: tuple[Event, ...] = (ill,)) -> bool:
        return diary_today(check_ins[-1], [*ill, session(0), *check_ins], client).flare_unsaid

    assert unsaid(check_in(1)) and unsaid(check_in(2))
    assert not unsaid(check_in(2, flare_days=0)) and not unsaid(check_in(1, flare_days=0), check_in(2))
    assert not unsaid(check_in(2, flare_days=1)) and not unsaid(check_in(2), ill=())
    assert unsaid(check_in(2), ill=(), client=Client(conditions=frozenset({Condition.CANCER_TREATMENT})))


# ------------------------------------------------------------------ a clock that was set back

@pytest.mark.parametrize(("days_back", "level"), [(1, 4), (5, 4), (13, 4), (15, 1)])
def test_a_clock_set_back_raises_no_work_after_pain(days_back: int, level: int) -> None:
    """A session with a knee at 7 counts up to a fortnight back; further, the person is told that the clock is wrong."""
    hurt = session(20, rpe=5, pain=sore(left_knee=7))
    got = dose_on([hurt], check_in(20 - days_back))
    assert got.level == level


def test_how_long_ago_it_was_is_then_not_known() -> None:
    """So the days count as left out, and nobody is told that they trained today."""
    diary = diary_today(check_in(15), [session(20), session(19, timeline=plan(strength=False))], BODY)
    assert diary.last.days_ago is None and diary.last_light is not None and diary.last_light.days_ago is None


def test_a_stray_entry_of_a_year_to_come_eases_nobody_for_ever() -> None:
    """It counts for nothing."""
    stray = session(2_000, rpe=10, pain=sore(left_knee=7))
    assert dose_on([session(0), session(3), stray], check_in(6)).level == dose_on([session(0), session(3)],
                                                                                 check_in(6)).level
