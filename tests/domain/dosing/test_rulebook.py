"""What is read about the rules is what they do."""
from __future__ import annotations

from itertools import pairwise

import pytest

from app.domain.dosing.dose import AMOUNTS, decide_dose, rounds_at
from app.domain.dosing.rulebook import Stretch, answers, given, level_of_one
from app.domain.dosing.votes import votes
from app.domain.model.client import Client
from app.domain.model.rules import PRESETS, RuleId, RuleTable, rule_table
from tests.domain.dosing.test_dose import but
from tests.domain.past import T0

TABLES = [rule_table(preset) for preset in PRESETS] + [
    rule_table("careful", {RuleId.PAIN: 2, RuleId.DAYS: -1}), rule_table("steady", {RuleId.COMPLETION: -1})]
#: How far each scale goes; beyond it nobody can answer.
SCALES = {RuleId.PAIN: range(11), RuleId.PAIN_RISE: range(-10, 11), RuleId.SORENESS: range(11),
          RuleId.EFFORT: range(-10, 11), RuleId.COMPLETION: range(101), RuleId.READINESS: range(3, 16),
          RuleId.DAYS: range(400)}


def holds(stretch: Stretch, value: int) -> bool:
    """Whether a value lies in it."""
    return (stretch.first is None or value >= stretch.first) and (stretch.last is None or value <= stretch.last)


@pytest.mark.parametrize("table", TABLES, ids=lambda t: t.preset)
@pytest.mark.parametrize("rule", SCALES)
def test_every_answer_lies_in_one_stretch_with_the_level_it_votes_for(table: RuleTable, rule: RuleId) -> None:
    """Neighbours differ, and they stand in order."""
    found = answers(table)[rule]
    for value in SCALES[rule]:
        level, = [s.level for s in found if holds(s, value)]
        assert level == voted(table, rule, value)
    if rule is not RuleId.DAYS:
        assert all(a.level != b.level for a, b in pairwise(found))


def voted(table: RuleTable, rule: RuleId, value: int) -> int:
    """What the table itself says of a value."""
    if rule is RuleId.COMPLETION:
        return table.completion.level(100 - value)
    if rule is RuleId.READINESS:
        return table.readiness.level(15 - value)
    if rule is RuleId.DAYS and value < 2:
        return (table.days_same, table.days_next)[value]
    return getattr(table, rule.value).level(value)  # type: ignore[no-any-return]


def test_an_item_at_1_votes_what_is_said_of_it() -> None:
    """However well the others are."""
    for table in TABLES:
        reasons = votes(but(slept=1, energy=5, calm=5), Client(), T0.date(), strength=True, table=table)
        assert max((r.level for r in reasons if r.rule is RuleId.READINESS), default=0) == max(
            level_of_one(table), table.readiness.level(4))


def test_what_a_level_gives_is_what_the_dose_takes() -> None:
    """All nine of them."""
    told = list(given())
    assert [g.level for g in told] == list(range(9))
    for one in told:
        assert one.rounds == tuple(rounds_at(one.level, n) for n in (2, 3, 4))
        amount = AMOUNTS.get(one.level)
        assert (one.work, one.rest, one.load) == ((amount.work, amount.rest, amount.load) if amount else (0, 0, 0))
    dose = decide_dose(but(pain=None), Client(), 3, T0.date(), strength=True)
    assert (dose.rounds, dose.work) == (told[dose.level].rounds[1], told[dose.level].work)
