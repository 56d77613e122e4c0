"""Reasons speak to the person, or of them where somebody leads them."""
from __future__ import annotations

import re

import pytest

from app.domain.model.plan import Reason
from app.domain.model.rules import RuleId
from app.words.reasons import REASONS, reason_text

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
