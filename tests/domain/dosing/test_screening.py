"""The stop questions and their three outcomes."""
from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.dosing.screening import (
    ASK_AGAIN_DAYS,
    ASK_FIRST,
    DO_NOT_START,
    FIRST_LIST,
    LIST_NOW,
    NO_LONGER_ASKED,
    SETS,
    SIGNS,
    WITH_SETTINGS,
    Outcome,
    may_start,
    must_ask_again,
    outcome,
    questions,
    settings_of,
    stopping,
    symptoms_of,
)
from app.domain.model.client import Condition
from app.domain.model.diary import Symptom
from app.domain.model.thresholds import PRESSURE_ASKS, PRESSURE_STOPS, PRESSURE_STOPS_HEART
from app.words.client.stop_questions import STOPS

TODAY = date(2026, 3, 30)
EVERY = (*DO_NOT_START, *ASK_FIRST, *WITH_SETTINGS)
ticks = st.lists(st.sampled_from(EVERY), unique=True)


def test_unanswered_is_never_go() -> None:
    """Silence is not a no."""
    assert outcome(None) is Outcome.ASK_FIRST
    assert outcome([]) is Outcome.GO


@pytest.mark.parametrize("ticked", DO_NOT_START)
def test_without_a_clinicians_yes_nobody_starts(ticked: str) -> None:
    """Whatever else is ticked."""
    assert outcome([ticked]) is outcome([*ASK_FIRST, ticked]) is Outcome.DO_NOT_START


@pytest.mark.parametrize("ticked", [*ASK_FIRST, "something that a later version asks"])
def test_ask_first(ticked: str) -> None:
    """Also for an answer that this version does not know."""
    assert outcome([ticked]) is Outcome.ASK_FIRST


@given(ticks, st.sampled_from(EVERY))
def test_ticking_more_never_helps(ticked: list[str], more: str) -> None:
    """Nor does the order matter."""
    order = [Outcome.GO, Outcome.GO_WITH_SETTINGS, Outcome.ASK_FIRST, Outcome.DO_NOT_START]
    assert order.index(outcome([*ticked, more])) >= order.index(outcome(ticked))
    assert outcome(list(reversed(ticked))) is outcome(ticked)


@pytest.mark.parametrize(("question", "found"), [
    ("stable_chest_pain", Outcome.ASK_FIRST), ("fainted", Outcome.ASK_FIRST), ("dizzy_standing", Outcome.ASK_FIRST),
    ("repeated_falls", Outcome.ASK_FIRST), ("seizure_this_year", Outcome.ASK_FIRST), ("foot_sore", Outcome.ASK_FIRST),
    ("eye_damage", Outcome.ASK_FIRST), ("bone_metastases", Outcome.DO_NOT_START),
    ("recent_eye_operation", Outcome.DO_NOT_START), ("recent_seizure", Outcome.DO_NOT_START),
    ("blood_thinner", Outcome.GO_WITH_SETTINGS), ("sugar_lowering", Outcome.GO_WITH_SETTINGS),
    ("numb_feet", Outcome.GO_WITH_SETTINGS), ("memory", Outcome.GO_WITH_SETTINGS),
    ("glaucoma", Outcome.GO_WITH_SETTINGS), ("known_dizziness", Outcome.GO_WITH_SETTINGS),
    ("fall_or_fear", Outcome.GO_WITH_SETTINGS)])
def test_f10_what_screening_lacked_is_asked_and_has_its_outcome(question: str, found: Outcome) -> None:
    """Signs and what is unsettled wait for a word; what can be taken care of does not."""
    assert question in questions() and outcome([question]) is found
    assert may_start(found) is (found is Outcome.GO_WITH_SETTINGS)


def test_f6_fear_of_falling_is_asked_and_sets_the_care_of_somebody_who_falls() -> None:
    """Beside a fall itself; whoever is afraid moves less and holds on more."""
    assert "worried about falling" in STOPS["fall_or_fear"]
    assert settings_of(["fall_or_fear"]) == (Condition.FALLS,) and may_start(outcome(["fall_or_fear"]))


@pytest.mark.parametrize("question", WITH_SETTINGS)
def test_whoever_may_start_with_settings_gets_a_setting_and_waits_for_nobody(question: str) -> None:
    """A tick that changed nothing would be a promise that is not kept."""
    assert settings_of([question]) == (SETS[question],) and not stopping([question])


def test_a_tick_that_stops_sets_its_condition_as_well() -> None:
    """So that a yes finds it there; the rest of what is ticked waits."""
    assert settings_of(["repeated_falls", "fall_or_fear", "fainted"]) == (Condition.FALLS,)
    assert stopping(["repeated_falls", "blood_thinner", "of a later version"]) == {"repeated_falls",
                                                                                "of a later version"}


@given(st.frozensets(st.sampled_from(Condition)))
def test_what_is_set_already_is_not_asked_and_whatever_may_stop_always_is(held: frozenset[Condition]) -> None:
    """Of somebody new."""
    asked = questions(held)
    assert set(asked) - set(WITH_SETTINGS) == {*DO_NOT_START, *ASK_FIRST} - NO_LONGER_ASKED
    assert not held & {SETS[q] for q in asked if q in WITH_SETTINGS}


def test_who_was_screened_before_is_asked_only_what_is_new_and_once() -> None:
    """The nineteen of the first list keep their answers; two of them ask for other figures now, under new names."""
    assert len(FIRST_LIST) == 19 and FIRST_LIST >= NO_LONGER_ASKED
    new = questions(asked=1)
    assert not set(new) & FIRST_LIST and {"pressure_too_high", "pressure_raised", "bone_metastases"} <= set(new)
    assert questions(asked=LIST_NOW) == questions(asked=LIST_NOW + 1) == ()


@pytest.mark.parametrize("kept", sorted(NO_LONGER_ASKED))
def test_a_stored_answer_keeps_its_outcome(kept: str) -> None:
    """Also of a question that is no longer asked."""
    assert kept not in questions()
    assert outcome([kept]) is {"very_high_pressure": Outcome.DO_NOT_START, "high_pressure": Outcome.ASK_FIRST}[kept]


def test_f11_the_lower_pressure_of_no_start_is_110_and_100_with_a_heart_condition() -> None:
    """The usual figure; asking begins below it, without a gap between."""
    assert (PRESSURE_STOPS, PRESSURE_STOPS_HEART, PRESSURE_ASKS) == ((180, 110), 100, (160, 100))


def test_every_stop_sign_stands_for_a_symptom() -> None:
    """All four kinds are among them; what is not known stands for nothing."""
    assert set(SIGNS.values()) == set(Symptom)
    for sign, symptom in SIGNS.items():
        assert symptoms_of([sign]) == {symptom}
    assert symptoms_of([]) == symptoms_of(["unheard-of"]) == frozenset()
    assert symptoms_of(["fainting", "head_cold"]) == {Symptom.EMERGENCY, Symptom.HEAD_COLD}


@pytest.mark.parametrize(("sign", "symptom"), [
    ("chest_pressure", Symptom.EMERGENCY), ("low_sugar", Symptom.EMERGENCY), ("fall_head", Symptom.EMERGENCY),
    ("numb_saddle", Symptom.EMERGENCY), ("calf_swelling", Symptom.STOP_AND_ASK), ("hot_joint", Symptom.STOP_AND_ASK),
    ("dizziness", Symptom.STOP_AND_ASK), ("night_pain", Symptom.STOP_AND_ASK)])
def test_signs_that_must_not_be_taken_lightly(sign: str, symptom: Symptom) -> None:
    """Named one by one, so that a change of the table is noticed."""
    assert SIGNS[sign] is symptom


@pytest.mark.parametrize(("screened", "trained", "due"), [
    (None, None, True), (None, 1, True), (0, None, False), (27, None, False), (28, None, True), (100, 27, False),
    (100, 28, True), (5, 90, False)])
def test_the_questions_come_again_after_four_weeks_off(screened: int | None, trained: int | None, due: bool) -> None:
    """And whenever they were never answered."""
    days = [None if n is None else TODAY - timedelta(days=n) for n in (screened, trained)]
    assert must_ask_again(days[0], days[1], TODAY) is due
    assert ASK_AGAIN_DAYS == 28
