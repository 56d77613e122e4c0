"""What eased a session is one true sentence in anybody's diary: how, because of what, and without a percentage."""
from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.measures.weeks import weeks_of
from app.domain.model.diary import Symptom
from app.domain.model.plan import Dose, Reason
from app.domain.model.record import CheckIn, Event, EventKind
from app.domain.model.rules import RuleId
from app.words.client.diary_weeks import CAUSES, eased_sentence, week_line
from app.words.reasons import REASONS
from tests.domain.past import stamp
from tests.words.test_text import assert_plain

HIP = Reason(RuleId.PAIN, 2, (("spot", "right hip"), ("value", 4)))
HIP_BEFORE = Reason(RuleId.PAIN, 2, (("spot", "right hip"), ("last", 5)))
HARD = Reason(RuleId.EFFORT, 2, (("rpe", 7), ("target", 5)))
LESSER = Reason(RuleId.CLEAN_SESSIONS, 1)


def test_it_says_how_and_because_of_what() -> None:
    """The votes that decided, each spot once, and none of the lesser ones."""
    said = eased_sentence(Dose(2, 2, 75, 150, 70, (HIP, HIP_BEFORE, LESSER, HARD)))
    assert said == ("Gentler than planned: shorter work, longer rests, lighter weights and 2 rounds, because the right "
                    "hip hurt 4 out of 10 and the session before was harder than planned.")


@pytest.mark.parametrize(("reasons", "said"), [
    ((), ""), ((LESSER,), ""),
    ((Reason(RuleId.MINUTES, 0, (("minutes", 20), ("rounds", 2))),), "Cut to fit 20 minutes."),
    ((Reason(RuleId.LIGHTER_WEEK, 0, (("rounds", 2),)),), "A lighter week."),
])
def test_what_took_nothing_is_not_told(reasons: tuple[Reason, ...], said: str) -> None:
    """Holding what was gained is no easing; a cut for the minutes is one of its own."""
    assert eased_sentence(Dose(1, 3, 100, 100, 100, reasons)) == said


@given(st.integers(2, 5), st.integers(1, 4), st.integers(40, 100), st.sampled_from(sorted(CAUSES)))
def test_every_cause_can_be_said(level: int, rounds: int, work: int, rule: RuleId) -> None:
    """Plainly, whoever reads it."""
    data = (("spot", "left knee"), ("value", 4), ("symptom", Symptom.HEAD_COLD), ("days", 1), ("hours", 48))
    said = eased_sentence(Dose(level, rounds, work, 100, work, (Reason(rule, level, data),)))
    assert_plain(said)
    assert "%" not in said and ", because " in said and "you" not in said.lower().split()


def test_every_rule_that_votes_has_its_cause() -> None:
    """But for what changes a session without a vote."""
    assert set(REASONS) - set(CAUSES) == {RuleId.CONDITION, RuleId.MINUTES, RuleId.LIGHTER_WEEK}


def test_a_week_in_a_line() -> None:
    """Without a session it says what else was written down."""
    (week,) = weeks_of([CheckIn(stamp("a")), CheckIn(stamp("b")), Event(stamp("c"), EventKind.GOAL)])
    assert week.monday == date(2026, 3, 2) and week_line(week) == "2 check-ins and 1 note"
