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
    SIGNS,
    Outcome,
    must_ask_again,
    outcome,
    symptoms_of,
)
from app.domain.model.diary import Symptom

TODAY = date(2026, 3, 30)
questions = st.lists(st.sampled_from((*DO_NOT_START, *ASK_FIRST)), unique=True)


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


@given(questions, st.sampled_from((*DO_NOT_START, *ASK_FIRST)))
def test_ticking_more_never_helps(ticked: list[str], more: str) -> None:
    """Nor does the order matter."""
    order = [Outcome.GO, Outcome.ASK_FIRST, Outcome.DO_NOT_START]
    assert order.index(outcome([*ticked, more])) >= order.index(outcome(ticked))
    assert outcome(list(reversed(ticked))) is outcome(ticked)


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
