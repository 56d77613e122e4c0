"""The vote table, row by row: each vote alone at both edges of every threshold, and each answer left out."""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from app.domain.dosing.dose import AMOUNTS, decide_dose, rounds_at
from app.domain.model.body import Spot, parse_spot
from app.domain.model.client import Client, UsualPain
from app.domain.model.diary import AnsweredBy, Diary, Fall, Last, Symptom
from app.domain.model.plan import Dose
from app.domain.model.rules import RuleId, RuleTable, rule_table
from app.words.reasons import reason_text
from tests.domain.shipped import TODAY, WELL

KNEE, OTHER_KNEE, BACK = parse_spot("left knee"), parse_spot("right knee"), parse_spot("back")
NOBODY = Client()


def dose(diary: Diary | None, client: Client = NOBODY, rounds: int = 3, *, strength: bool = True,
         table: RuleTable | None = None) -> Dose:
    """Today's dose."""
    return decide_dose(diary, client, rounds, TODAY, strength=strength, table=table or rule_table())


def but(**changes: Any) -> Diary:
    """All clear, but for this. `last_…` changes the last session."""
    last = {k.removeprefix("last_"): v for k, v in changes.items() if k.startswith("last_")}
    rest = {k: v for k, v in changes.items() if not k.startswith("last_")}
    return replace(WELL, last=replace(WELL.last, **last), **rest)


def rules(got: Dose) -> list[RuleId]:
    """The rules that voted."""
    return [r.rule for r in got.reasons]


def test_all_clear_gives_the_full_dose() -> None:
    """Nothing is held against a good day, and nothing is said."""
    got = dose(WELL)
    assert (got.level, got.rounds, got.work, got.rest, got.load, got.reasons, got.carried) == (
        0, 3, 100, 100, 100, (), 0)


def test_without_a_check_in_the_prescription_stands_and_says_so() -> None:
    """Level 1, "no check-in yet"."""
    got = dose(None)
    assert (got.level, got.rounds, got.work, got.rest, got.load) == (1, 3, 100, 100, 100)
    assert rules(got) == [RuleId.NO_CHECK_IN]
    assert got.carried == 0


# ------------------------------------------------------------------ each vote alone

PAIN = [(0, 0), (1, 0), (2, 0), (3, 1), (4, 2), (5, 2), (6, 4), (7, 4), (8, 7), (9, 7), (10, 7)]
SORENESS = [(0, 0), (3, 0), (4, 1), (5, 1), (6, 2), (7, 2), (8, 4), (9, 4), (10, 4)]
RISE = [(-3, 0), (0, 0), (1, 1), (2, 3), (3, 3), (10, 3)]
COMPLETED = [(100, 0), (95, 0), (94, 1), (80, 1), (79, 2), (60, 2), (59, 3), (0, 3)]
DAYS = [(0, 6), (1, 5), (2, 0), (7, 0), (8, 2), (14, 2), (15, 3), (28, 3), (29, 4), (400, 4)]
SYMPTOMS = [(Symptom.EMERGENCY, 8), (Symptom.STOP_AND_ASK, 7), (Symptom.FEVER, 7), (Symptom.HEAD_COLD, 4)]


def alone(diary: Diary, rule: RuleId, level: int) -> Dose:
    """Asserts that this one vote decides and that it alone is told."""
    got = dose(diary)
    assert got.level == level
    assert rules(got) == ([rule] if level else [])
    return got


@pytest.mark.parametrize(("symptom", "level"), SYMPTOMS)
def test_symptoms(symptom: Symptom, level: int) -> None:
    """Emergency 8; "stop and ask" or fever 7; head cold 4."""
    alone(but(symptoms=frozenset({symptom})), RuleId.SYMPTOMS, level)


@pytest.mark.parametrize("spot", [KNEE, BACK, parse_spot("neck"), parse_spot("right wrist")])
@pytest.mark.parametrize(("value", "level"), PAIN)
def test_pain_now(spot: Spot, value: int, level: int) -> None:
    """Any region votes alike."""
    alone(but(pain={spot: value}), RuleId.PAIN, level)


@pytest.mark.parametrize(("value", "level"), PAIN)
def test_pain_in_the_last_session(value: int, level: int) -> None:
    """Counts as pain now does, told with a region or without."""
    alone(but(last_pain=value), RuleId.PAIN, level)
    alone(but(last_pain_at={KNEE: value}), RuleId.PAIN, level)


def test_the_worst_region_wins_and_each_is_told() -> None:
    """Two sore joints are two reasons."""
    got = dose(but(pain={KNEE: 3, BACK: 6}, last_pain=4))
    assert (got.level, rules(got)) == (4, [RuleId.PAIN] * 3)
    assert [r.level for r in got.reasons] == [4, 2, 1]


@pytest.mark.parametrize(("value", "level"), RISE)
def test_pain_on_the_morning_after(value: int, level: int) -> None:
    """≤ 0 nothing, +1 one, +2 and more three."""
    alone(but(pain_rise={KNEE: value}), RuleId.PAIN_RISE, level)


@pytest.mark.parametrize(("hours", "level"), [(0, 1), (47, 1), (48, 7), (200, 7)])
def test_a_rise_still_there_after_two_days_stops(hours: int, level: int) -> None:
    """Votes 7, however small the rise."""
    got = dose(but(pain_rise={KNEE: 1}, pain_hours={KNEE: hours}))
    assert got.level == level
    assert set(rules(got)) == {RuleId.PAIN_RISE}


def test_a_rise_that_settled_does_not_stop_however_long_ago() -> None:
    """Hours count for what is still up."""
    assert dose(but(pain_rise={KNEE: 0}, pain_hours={KNEE: 60})).level == 0
    assert dose(but(pain_rise={KNEE: 1}, pain_hours={OTHER_KNEE: 60})).level == 7


@pytest.mark.parametrize(("value", "level"), SORENESS)
def test_soreness(value: int, level: int) -> None:
    """The worst region counts."""
    alone(but(soreness={BACK: value}), RuleId.SORENESS, level)


@pytest.mark.parametrize(("value", "hours", "level"), [(6, 72, 2), (6, 73, 7), (5, 500, 1), (10, 73, 7), (8, 72, 4)])
def test_soreness_that_lasts(value: int, hours: int, level: int) -> None:
    """6 or more for longer than 72 h votes 7."""
    assert dose(but(soreness={BACK: value}, soreness_hours={BACK: hours})).level == level


def test_how_long_another_region_was_sore_does_not_count() -> None:
    """Hours belong to their region; told without a side they may be either's."""
    assert dose(but(soreness={BACK: 6}, soreness_hours={KNEE: 200})).level == 2
    assert dose(but(soreness={KNEE: 6}, soreness_hours={OTHER_KNEE: 200})).level == 2
    assert dose(but(soreness={KNEE: 6}, soreness_hours={parse_spot("knee"): 200})).level == 7


@pytest.mark.parametrize(("rpe", "target", "level"), [
    (3, 5, 0), (5, 5, 0), (6, 5, 1), (7, 5, 2), (8, 5, 3), (8, 4, 4), (7, 1, 4), (9, 5, 4), (9, 9, 4), (10, 10, 4),
    (8, 8, 0), (9, 10, 4)])
def test_effort_over_target(rpe: int, target: int, level: int) -> None:
    """+1 one, +2 two, +3 three, +4 four; 9 and 10 four whatever the target."""
    alone(but(last_rpe=rpe, last_target_rpe=target), RuleId.EFFORT, level)


@pytest.mark.parametrize(("done", "level"), COMPLETED)
def test_share_of_work_done(done: int, level: int) -> None:
    """≥ 95 % nothing, 80–94 one, 60–79 two, under 60 three."""
    alone(but(last_completed=done), RuleId.COMPLETION, level)
    assert dose(but(last_completed=done, last_interrupted=True)).level == 0


@pytest.mark.parametrize(("items", "level"), [
    ((5, 5, 5), 0), ((4, 4, 4), 0), ((5, 5, 2), 0), ((4, 4, 3), 1), ((3, 3, 3), 1), ((5, 2, 2), 1), ((3, 3, 2), 2),
    ((3, 2, 2), 2), ((2, 2, 2), 3), ((5, 5, 1), 2), ((1, 5, 5), 2), ((5, 1, 5), 2), ((4, 4, 1), 2), ((3, 3, 1), 2),
    ((4, 1, 1), 3), ((3, 1, 1), 3), ((2, 2, 1), 3), ((2, 1, 1), 4), ((1, 1, 1), 4)])
def test_slept_energy_and_settled(items: tuple[int, int, int], level: int) -> None:
    """12 and more nothing, 9–11 one, 7–8 two, 5–6 three, 3–4 four; any of them at 1 at least two."""
    slept, energy, calm = items
    alone(but(slept=slept, energy=energy, calm=calm), RuleId.READINESS, level)


@pytest.mark.parametrize(("days", "level"), DAYS)
def test_days_since_strength_work_vote_before_strength_work_alone(days: int, level: int) -> None:
    """The same day 6, the next 5, 2–7 nothing, then more the longer."""
    alone(but(last_days_ago=days), RuleId.DAYS, level)
    assert dose(but(last_days_ago=days), strength=False).level == 0


# ------------------------------------------------------------------ missing answers

@pytest.mark.parametrize(("changes", "rule", "level"), [
    ({"symptoms": None}, RuleId.SYMPTOMS, 6),
    ({"pain": None}, RuleId.PAIN, 4),
    ({"pain": None, "last_pain": 5}, RuleId.PAIN, 4),
    ({"pain": None, "last_pain": 8}, RuleId.PAIN, 7),
    ({"pain_rise": None}, RuleId.PAIN_RISE, 1),
    ({"soreness": None}, RuleId.SORENESS, 1),
    ({"slept": None}, RuleId.READINESS, 1),
    ({"energy": None}, RuleId.READINESS, 1),
    ({"calm": None}, RuleId.READINESS, 1),
    ({"slept": None, "energy": None, "calm": None}, RuleId.READINESS, 1),
    ({"last_rpe": None}, RuleId.EFFORT, 1),
    ({"last_target_rpe": None}, RuleId.EFFORT, 1),
    ({"last_completed": None}, RuleId.COMPLETION, 1),
    ({"last_days_ago": None}, RuleId.DAYS, 1),
])
def test_each_answer_left_out(changes: dict[str, Any], rule: RuleId, level: int) -> None:
    """Symptoms: answer first; pain: the worse of the last answer's vote and 4; anything else: 1."""
    got = alone(but(**changes), rule, level)
    assert dict(got.reasons[0].data)["missing"]


def test_what_may_be_left_out_votes_nothing() -> None:
    """Hours, pain in the last session, and what was before have a meaning when absent."""
    assert dose(but(last_pain=None)).reasons == ()
    bare = Diary(frozenset(), {}, {}, soreness={}, slept=5, energy=5, calm=5, last=replace(WELL.last, pain=None))
    assert dose(bare).level == 0


def test_an_empty_diary_waits_for_the_symptoms_and_names_every_gap() -> None:
    """Everything that was not answered is told."""
    got = dose(Diary())
    assert got.level == 6
    assert not got.allows_session
    assert set(rules(got)) == {RuleId.SYMPTOMS, RuleId.PAIN, RuleId.PAIN_RISE, RuleId.SORENESS, RuleId.READINESS,
                               RuleId.EFFORT, RuleId.COMPLETION, RuleId.DAYS}


def test_before_the_first_session_nothing_is_asked_about_the_last() -> None:
    """There was none, so nothing about it can be missing."""
    first = Diary(frozenset(), {}, None, soreness={}, slept=5, energy=5, calm=5, first_session=True)
    assert dose(first).reasons == ()


def test_a_known_top_effort_counts_without_its_target() -> None:
    """9 is 9, whatever was meant."""
    assert dose(but(last_rpe=9, last_target_rpe=None)).level == 4


# ------------------------------------------------------------------ usual pain

def agreed(level: int = 4, days: int = 30, spot: Spot = KNEE) -> Client:
    """Somebody whose joint is known to hurt."""
    return Client(usual_pain={spot: UsualPain(level, "physiotherapist", TODAY + timedelta(days=days))})


@pytest.mark.parametrize(("client", "changes", "level"), [
    (agreed(), {"pain": {KNEE: 4}}, 0),
    (agreed(), {"pain": {KNEE: 3}}, 0),
    (agreed(), {"pain": {KNEE: 5}}, 2),
    (agreed(5), {"pain": {KNEE: 6}}, 4),
    (agreed(days=0), {"pain": {KNEE: 4}}, 0),
    (agreed(days=-1), {"pain": {KNEE: 4}}, 2),
    (agreed(), {"pain": {OTHER_KNEE: 4}}, 2),
    (agreed(), {"pain": {KNEE: 4, BACK: 3}}, 1),
    (agreed(spot=parse_spot("knee")), {"pain": {KNEE: 4}}, 0),
    (NOBODY, {"pain": {KNEE: 4}}, 2),
    (agreed(), {"last_pain_at": {KNEE: 4}}, 0),
    (agreed(), {"last_pain_at": {KNEE: 5}}, 2),
    (agreed(), {"last_pain": 4}, 2),
])
def test_usual_pain(client: Client, changes: dict[str, Any], level: int) -> None:
    """At or under the agreed level it votes nothing; above, elsewhere, or after the end date the table stands."""
    assert dose(but(**changes), client).level == level


@pytest.mark.parametrize(("changes", "level"), [
    ({"pain_rise": {KNEE: 1}}, 2), ({"pain_rise": {KNEE: 2}}, 3), ({"pain_rise": None}, 2),
    ({"pain_rise": {KNEE: 0}}, 0), ({"pain_rise": {KNEE: 0}, "pain_hours": {KNEE: 10}}, 2),
    ({"pain_rise": {parse_spot("knee"): 1}}, 2), ({"pain_rise": {OTHER_KNEE: 1}}, 1),
])
def test_usual_pain_that_had_not_settled_is_not_usual(changes: dict[str, Any], level: int) -> None:
    """Settled by the next morning is part of the agreement; an unanswered morning is not settled."""
    assert dose(but(pain={KNEE: 4}, **changes), agreed()).level == level


# ------------------------------------------------------------------ coming back

@pytest.mark.parametrize(("previous", "cleared", "level", "rule"), [
    (0, True, 0, None), (1, True, 0, None), (2, True, 0, None),
    (3, True, 2, RuleId.RETURN), (4, True, 3, RuleId.RETURN), (5, True, 4, RuleId.RETURN), (6, True, 5, RuleId.RETURN),
    (7, True, 4, RuleId.RETURN), (8, True, 4, RuleId.RETURN),
    (7, False, 7, RuleId.CLEARANCE), (8, False, 7, RuleId.CLEARANCE), (4, False, 3, RuleId.RETURN),
])
def test_coming_back(previous: int, cleared: bool, level: int, rule: RuleId | None) -> None:
    """One level better at most after 3–6; after 7 and 8 only with a yes, then from 4."""
    got = dose(but(previous_level=previous, cleared=cleared))
    assert (got.level, rules(got)) == (level, [rule] if rule else [])


def test_the_way_back_is_walked_one_level_a_session() -> None:
    """After a stop with its yes: 4, 3, 2, and then all of it."""
    walked, previous = [], 7
    for _ in range(4):
        got = dose(but(previous_level=previous))
        walked.append(got.level)
        previous = got.carried
    assert walked == [4, 3, 2, 0]


@pytest.mark.parametrize(("changes", "carried"), [
    ({"pain": {KNEE: 6}}, 4), ({"soreness": {BACK: 8}}, 4), ({"symptoms": frozenset({Symptom.HEAD_COLD})}, 4),
    ({"last_rpe": 8}, 3), ({"pain_rise": {KNEE: 2}}, 3), ({"slept": 1, "energy": 1, "calm": 1}, 0),
    ({"last_days_ago": 40}, 0), ({"last_completed": 10}, 0), ({"pain": None}, 0), ({"symptoms": None}, 0),
])
def test_only_pain_soreness_illness_and_effort_are_carried_over(changes: dict[str, Any], carried: int) -> None:
    """A bad night, a long break or an early end is over with its day; so is a question left out."""
    assert dose(but(**changes)).carried == carried


@pytest.mark.parametrize("clean", [0, 1])
def test_fewer_than_two_clean_sessions_hold_the_step(clean: int) -> None:
    """Level 1: the whole dose, and no step on."""
    got = alone(but(clean_sessions=clean), RuleId.CLEAN_SESSIONS, 1)
    assert (got.work, got.rest, got.load, got.rounds) == (100, 100, 100, 3)


def test_a_leaders_answers_never_move_a_step_on() -> None:
    """Whoever leads can only guess."""
    alone(but(answered_by=AnsweredBy.LEADER), RuleId.ANSWERED_BY, 1)


# ------------------------------------------------------------------ from level to amount

TABLE = {  # level: rounds for R = 1 … 5, work, rest, load
    0: ((1, 2, 3, 4, 5), 100, 100, 100), 1: ((1, 2, 3, 4, 5), 100, 100, 100), 2: ((1, 2, 3, 4, 5), 90, 110, 100),
    3: ((1, 1, 2, 3, 4), 80, 125, 90), 4: ((1, 1, 2, 2, 3), 70, 150, 80), 5: ((1, 1, 1, 1, 1), 50, 150, 0),
}
AT_LEVEL: dict[int, Diary] = {
    0: WELL, 1: but(soreness={BACK: 4}), 2: but(pain={KNEE: 4}), 3: but(pain_rise={KNEE: 2}), 4: but(pain={KNEE: 6}),
    5: but(last_days_ago=1), 6: but(symptoms=None), 7: but(pain={KNEE: 8}),
    8: but(symptoms=frozenset({Symptom.EMERGENCY})),
}


@pytest.mark.parametrize("level", TABLE)
@pytest.mark.parametrize("rounds", range(1, 6))
def test_what_each_level_gives(level: int, rounds: int) -> None:
    """Rounds, work, rest and load in whole percent."""
    got = dose(AT_LEVEL[level], rounds=rounds)
    of_rounds, work, rest, load = TABLE[level]
    assert (got.level, got.rounds, got.work, got.rest, got.load) == (level, of_rounds[rounds - 1], work, rest, load)
    assert got.allows_session


@pytest.mark.parametrize("level", [6, 7, 8])
def test_levels_from_six_on_give_no_session(level: int) -> None:
    """Rest, ask, emergency."""
    got = dose(AT_LEVEL[level])
    assert (got.level, got.rounds, got.work, got.load, got.allows_session) == (level, 0, 0, 0, False)


def test_the_amounts_only_ever_fall_and_rests_only_ever_grow() -> None:
    """From each level to the next, for any number of rounds."""
    for better, worse in zip(range(5), range(1, 6), strict=True):
        a, b = AMOUNTS[better], AMOUNTS[worse]
        assert b.work <= a.work and b.load <= a.load and b.rest >= a.rest
        assert all(rounds_at(worse, r) <= rounds_at(better, r) for r in range(1, 12))


def test_the_highest_vote_wins_and_every_vote_is_told_highest_first() -> None:
    """Votes are not added up."""
    got = dose(but(pain={KNEE: 4}, soreness={BACK: 4}, last_rpe=8, last_completed=90))
    assert got.level == 3
    assert [(r.rule, r.level) for r in got.reasons] == [
        (RuleId.EFFORT, 3), (RuleId.PAIN, 2), (RuleId.SORENESS, 1), (RuleId.COMPLETION, 1)]


def test_pain_in_the_last_session_without_a_place_is_not_covered_by_an_agreement() -> None:
    """Where it was is unknown, so it may have been elsewhere."""
    assert dose(replace(WELL, last=Last(3, 5, 5, 100, 4)), agreed()).level == 2


# ------------------------------------------------------------------ a day between hides nothing

@pytest.mark.parametrize(("strength", "light_days", "level"), [
    (True, 5, 3),   # the light day came before: strength is read against strength
    (True, 1, 3),   # it came after: it hides nothing
    (False, 1, 0),  # a light day is read against the light one after the strength session, which went well
    (False, 5, 3),  # and against a strength session since then, which did not
])
def test_a3_a_light_day_hides_no_strength_session_that_was_too_hard(strength: bool, light_days: int, level: int
                                                                     ) -> None:
    """Three points above what was meant, 3 days ago; the light day was as meant."""
    diary = replace(WELL, last=Last(3, 8, 5, 100), last_light=Last(light_days, 3, 3, 100))
    got = dose(diary, strength=strength)
    assert got.level == level


@pytest.mark.parametrize(("days", "level"), [(1, 2), (3, 2), (4, 0)])
def test_a_light_day_that_went_badly_counts_on_the_next_strength_day(days: int, level: int) -> None:
    """If it came after the last strength session, and no longer once that has been done again."""
    got = dose(replace(WELL, last=Last(3, 5, 5, 100), last_light=Last(days, 6, 4, 70)))
    assert got.level == level
    assert [dict(r.data).get("light") for r in got.reasons] == ([1, 1] if level else [])


def test_pain_of_either_session_counts_with_its_worst() -> None:
    """The same spot is told once."""
    got = dose(replace(WELL, last=Last(3, 5, 5, 100, pain_at={KNEE: 3}), last_light=Last(1, 3, 3, 100, 5, {KNEE: 5})))
    assert [(r.rule, r.level, dict(r.data)["last"]) for r in got.reasons] == [(RuleId.PAIN, 2, 5)]


# ------------------------------------------------------------------ falls, and what comes late

@pytest.mark.parametrize(("fall", "cleared", "level"), [
    (Fall(0, False), True, 1), (Fall(14, False), True, 1), (Fall(15, False), True, 0),
    (Fall(2, True), False, 7), (Fall(400, True), False, 7), (Fall(2, True), True, 1), (Fall(15, True), True, 0),
])
def test_a_fall_that_hurt_stops_and_any_fall_holds_for_a_fortnight(fall: Fall, cleared: bool, level: int) -> None:
    """A clinician's yes opens the way again."""
    assert dose(but(fall=fall, cleared=cleared)).level == level


def test_not_saying_whether_one_was_worse_later_counts_as_having_been() -> None:
    """Of those whom it matters to; the reason says what was not answered, and nothing is carried into the next day."""
    got = dose(but(flare_unsaid=True))
    assert (got.level, got.carried, rules(got)) == (4, 0, [RuleId.FLARE])
    assert "whether you felt worse a day or two after" in reason_text(got.reasons[0])


@pytest.mark.parametrize("days", [1, 2])
def test_d3_clearly_worse_a_day_or_two_later_gives_a_light_session(days: int) -> None:
    """And is left step by step."""
    got = dose(but(flare_days=days))
    assert (got.level, got.carried, rules(got)) == (4, 4, [RuleId.FLARE])
