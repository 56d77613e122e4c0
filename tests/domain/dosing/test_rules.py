"""The coach's hand on the rule table: presets, levels moved by hand, and what may not be moved."""
from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.dosing.dose import decide_dose
from app.domain.errors import UnknownName, WrongValue
from app.domain.model.client import Client
from app.domain.model.diary import Symptom
from app.domain.model.rules import DEFAULT_RULES, PRESETS, SOFTENABLE, RuleId, rule_table, vote_source
from tests import generators
from tests.domain.dosing.test_dose import BACK, KNEE, but, dose
from tests.domain.shipped import TODAY, WELL
from tests.sampling import examples

SHIFTED = (RuleId.PAIN, RuleId.PAIN_RISE, RuleId.SORENESS, RuleId.EFFORT, RuleId.COMPLETION, RuleId.READINESS,
           RuleId.DAYS)


def test_the_usual_preset_is_the_default_table() -> None:
    """Nothing moved."""
    assert rule_table() == DEFAULT_RULES


def test_an_unknown_preset_is_refused_by_name() -> None:
    """The error knows the presets."""
    with pytest.raises(UnknownName) as caught:
        rule_table("brave")
    assert caught.value.what["known"] == tuple(PRESETS)


@pytest.mark.parametrize("rule", sorted(set(RuleId) - SOFTENABLE))
@pytest.mark.parametrize("by", [-1, -2])
def test_only_sleep_days_and_completion_can_be_softened(rule: RuleId, by: int) -> None:
    """Pain, soreness, symptoms and effort cannot."""
    with pytest.raises(WrongValue):
        rule_table(shift={rule: by})


@pytest.mark.parametrize("rule", sorted(SOFTENABLE))
@pytest.mark.parametrize("by", [-3, 3, 7])
def test_no_rule_moves_more_than_two_levels(rule: RuleId, by: int) -> None:
    """Either way."""
    with pytest.raises(WrongValue):
        rule_table(shift={rule: by})


@pytest.mark.parametrize(("shift", "changes", "level"), [
    ({RuleId.PAIN: 1}, {"pain": {KNEE: 3}}, 2),
    ({RuleId.PAIN: 2}, {"pain": {KNEE: 6}}, 5),
    ({RuleId.PAIN: 2}, {"pain": {KNEE: 8}}, 7),
    ({RuleId.PAIN: 2}, {"pain": {KNEE: 2}}, 0),
    ({RuleId.SORENESS: 1}, {"soreness": {BACK: 4}}, 2),
    ({RuleId.EFFORT: 2}, {"last_rpe": 6}, 3),
    ({RuleId.EFFORT: 2}, {"last_rpe": 8, "last_target_rpe": 4}, 5),
    ({RuleId.EFFORT: 2}, {"last_rpe": 9, "last_target_rpe": 4}, 5),
    ({RuleId.READINESS: -1}, {"slept": 3, "energy": 3, "calm": 3}, 0),
    ({RuleId.READINESS: -2}, {"slept": 1, "energy": 1, "calm": 1}, 2),
    ({RuleId.READINESS: 1}, {"slept": 1}, 3),
    ({RuleId.DAYS: -1}, {"last_days_ago": 8}, 1),
    ({RuleId.DAYS: -2}, {"last_days_ago": 1}, 3),
    ({RuleId.DAYS: -2}, {"last_days_ago": 0}, 6),
    ({RuleId.COMPLETION: -1}, {"last_completed": 50}, 2),
    ({RuleId.COMPLETION: 2}, {"last_completed": 94}, 3),
])
def test_a_level_moved_by_hand(shift: dict[RuleId, int], changes: dict[str, object], level: int) -> None:
    """Votes above nothing move; the all-clear stays all clear; what gives no session is not moved."""
    assert dose(but(**changes), table=rule_table(shift=shift)).level == level
    assert dose(WELL, table=rule_table(shift=shift)).level == 0


@pytest.mark.parametrize("preset", PRESETS)
def test_no_preset_softens_pain_soreness_symptoms_or_effort(preset: str) -> None:
    """Every such diary gives at least the level of the default table."""
    table = rule_table(preset)
    for changes in ([{"pain": {KNEE: v}} for v in range(11)] + [{"soreness": {BACK: v}} for v in range(11)]
                    + [{"pain_rise": {KNEE: v}} for v in range(5)] + [{"last_rpe": v} for v in range(11)]
                    + [{"symptoms": frozenset({s})} for s in Symptom]):
        assert dose(but(**changes), table=table).level >= dose(but(**changes)).level


def test_careful_eases_sooner_and_steady_leaves_tiredness_alone() -> None:
    """What the two other presets are for."""
    tired = but(slept=3, energy=3, calm=3)
    assert [dose(tired, table=rule_table(p)).level for p in ("careful", "usual", "steady")] == [2, 1, 0]
    assert dose(but(pain={KNEE: 3}), table=rule_table("careful")).level == 2


@settings(max_examples=examples(100, 10_000))
@given(generators.rule_choices(), generators.diaries, st.booleans())
def test_whatever_a_coach_moves_pain_soreness_symptoms_and_effort_are_never_softened(
    choice: generators.RuleChoice, diary: generators.Diary, strength: bool
) -> None:
    """With sleep, days and completion at their best, no table gives less than the default one."""
    kind = replace(diary, slept=5, energy=5, calm=5, last=replace(diary.last, days_ago=3, completed=100),
                   last_light=diary.last_light and replace(diary.last_light, days_ago=3, completed=100))
    table = rule_table(choice.preset, choice.shift)

    def level(t: object) -> int:
        return decide_dose(kind, Client(), 3, TODAY, strength=strength, table=t).level  # type: ignore[arg-type]

    assert level(table) >= level(DEFAULT_RULES)


@settings(max_examples=examples(60, 1_000))
@given(generators.rule_choices())
def test_every_table_a_coach_can_make_still_votes_higher_for_worse(choice: generators.RuleChoice) -> None:
    """From each value to the next worse one, rule by rule."""
    table = rule_table(choice.preset, choice.shift)
    runs = [
        [but(pain={KNEE: v}) for v in range(11)], [but(soreness={BACK: v}) for v in range(11)],
        [but(pain_rise={KNEE: v}) for v in range(4)], [but(last_completed=v) for v in range(100, -1, -1)],
        [but(last_rpe=v, last_target_rpe=4) for v in range(11)], [but(last_rpe=8, last_target_rpe=v) for v in
                                                                 range(10, 0, -1)],
        [but(slept=v) for v in range(5, 0, -1)], [but(slept=3, energy=3, calm=v) for v in range(5, 0, -1)],
        [but(last_days_ago=v) for v in range(2, 40)], [but(last_days_ago=v) for v in (2, 1, 0)],
    ]
    for run in runs:
        levels = [dose(diary, table=table).level for diary in run]
        assert levels == sorted(levels)


def test_a_dose_names_its_table_version() -> None:
    """Written into every plan, so that an old plan can be read with the table it was made by."""
    assert decide_dose(WELL, Client(), 2, date(2026, 1, 1), strength=True).rules_version == DEFAULT_RULES.version == 1


def test_preset_and_hand_together_move_two_levels_at_most() -> None:
    """`steady` already softens the morning's answers by one, so two more by hand come to two."""
    by_hand = rule_table("usual", {RuleId.READINESS: -2})
    assert rule_table("steady", {RuleId.READINESS: -2}).readiness == by_hand.readiness


@pytest.mark.parametrize("rule", [RuleId.SYMPTOMS, RuleId.RETURN, RuleId.CLEARANCE, RuleId.MINUTES])
def test_a_rule_without_bands_cannot_be_moved_and_says_so(rule: RuleId) -> None:
    """A shift that would do nothing is refused and not passed over."""
    with pytest.raises(UnknownName):
        rule_table("usual", {rule: 1})


def test_every_rule_has_a_source() -> None:
    """A coach reads rule, vote and source of every reason."""
    assert all(vote_source(rule) for rule in RuleId)
    assert "Silbernagel 2007" in vote_source(RuleId.PAIN)
