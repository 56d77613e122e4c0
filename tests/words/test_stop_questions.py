"""Words of the stop questions: each once, in a group, plain, and with an outcome."""
from __future__ import annotations

from app.domain.dosing.screening import ASK_FIRST, DO_NOT_START, NO_LONGER_ASKED, SETS, WITH_SETTINGS, Outcome
from app.words.client.stop_questions import ASKED_BEFORE, OUTCOMES, STOP_GROUPS, STOPS
from app.words.conditions import CLIENT_WORDS


def test_every_question_stands_in_one_group() -> None:
    """On one page that is no wall: groups with a head of their own, and lines that are short."""
    asked = [key for _, group in STOP_GROUPS for key in group]
    assert sorted(asked) == sorted({*DO_NOT_START, *ASK_FIRST, *WITH_SETTINGS} - NO_LONGER_ASKED)
    assert set(ASKED_BEFORE) == NO_LONGER_ASKED and set(STOPS) == {*asked, *NO_LONGER_ASKED}
    assert max(len(group) for _, group in STOP_GROUPS) <= 12
    assert all(len(words) <= 140 for words in STOPS.values())


def test_what_only_sets_something_stands_apart_from_what_waits() -> None:
    """Nobody is made to think that a tablet is a reason not to train."""
    (_, last) = STOP_GROUPS[-1]
    assert set(last) == set(WITH_SETTINGS)


def test_every_outcome_and_every_setting_is_worded() -> None:
    """Without the words that frighten."""
    assert set(OUTCOMES) == set(Outcome) and set(SETS.values()) <= set(CLIENT_WORDS)
    said = " ".join(line for lines in OUTCOMES.values() for line in lines).lower()
    assert "harm" not in said and "danger" not in said
