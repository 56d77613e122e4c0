"""Reasons speak to the person, or of them where somebody leads them."""
from __future__ import annotations

import re

import pytest

from app.domain.model.plan import Dose, Reason
from app.domain.model.rules import RuleId
from app.words.client.diary_weeks import eased_sentence
from app.words.coach.person import reason_line
from app.words.reasons import CALF_FIRST, LOOK_FIRST, MUCH_FIRST, REASONS, WITHOUT_DETAILS, reason_text

DATA = (("symptom", "fever"), ("spot", "left knee"), ("value", 4), ("rpe", 7), ("target", 5), ("done", 60),
        ("slept", 2), ("energy", 3), ("calm", 4), ("days", 1), ("rounds", 2), ("condition", "copd"),
        ("what", "rest"), ("minutes", 20))


@pytest.mark.parametrize("rule", sorted(REASONS))
def test_a_reason_for_a_leader_never_says_you(rule: RuleId) -> None:
    """Nobody reads of their own knee what is another's; the name stands wherever "you" stood."""
    own, led = (reason_text(Reason(rule, 3, DATA), asked) for asked in ("", "Ines"))
    assert not re.search(r"\byour?\b", led, re.IGNORECASE), led
    assert ("Ines" in led) is bool(re.search(r"\byour?\b", own, re.IGNORECASE)), (own, led)


@pytest.mark.parametrize("missing", ["symptoms", "pain", "readiness", "days_ago", "unheard_of"])
def test_what_was_not_answered_is_told_of_the_right_person(missing: str) -> None:
    """Also of a question that this version does not know."""
    led = reason_text(Reason(RuleId.READINESS, 2, (("missing", missing),)), "Ines")
    assert not re.search(r"\byour?\b", led, re.IGNORECASE), led


@pytest.mark.parametrize("data", [
    (), (("spot", "left knee"),), (("spot", "elsewhere"), ("value", 9)), (("value", "many"), ("days", "many")),
    (("symptom", "none of ours"), ("condition", "none of ours"), ("what", ""), ("value", 1)),
    (("done", 10**9), ("slept", ""), ("rpe", ""), ("rounds", "")),
])
@pytest.mark.parametrize("rule", sorted(REASONS))
def test_a_reason_from_elsewhere_without_what_it_speaks_of_is_still_a_sentence(
    rule: RuleId, data: tuple[tuple[str, str | int], ...],
) -> None:
    """In a diary, in the weeks of one and at the desk: a hole in one file breaks no page."""
    reason = Reason(rule, 3, data)
    for said in (reason_text(reason), reason_text(reason, "Ines"), reason_line(reason)[1],
                 eased_sentence(Dose(3, 2, 75, 150, 70, (reason,)))):
        assert said.endswith(".")
    if not data and rule in (RuleId.PAIN, RuleId.SYMPTOMS, RuleId.DAYS):
        assert reason_text(reason) == WITHOUT_DETAILS


@pytest.mark.parametrize(("level", "data", "said"), [
    (2, (("spot", "left knee"), ("value", 4)), "goes easy on"),
    (4, (("spot", "left knee"), ("value", 6)), "leaves out"),
    (7, (("spot", "left knee"), ("value", 8)), MUCH_FIRST),
    (7, (("spot", "back"), ("value", 5), ("look", 1)), LOOK_FIRST),
    (7, (("spot", "left calf"), ("value", 6), ("look", 1)), CALF_FIRST),
])
def test_pain_says_what_follows_from_it(level: int, data: tuple[tuple[str, str | int], ...], said: str) -> None:
    """Where there is no session, nothing is said of what it leaves out; a calf needs no fall to be looked at."""
    told = reason_text(Reason(RuleId.PAIN, level, data))
    assert said in told
    assert ("today leaves out" in told) is (said == "leaves out")
