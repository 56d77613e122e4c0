"""What one more tick, or one more limit, does to the choice of exercises: it never gives back what was kept away."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from itertools import combinations

import pytest

from app.domain.dosing.limits import limits_today
from app.domain.model.body import Region, Spot
from app.domain.model.client import AxisLimit, Client, Condition, ConditionTerms, Place
from app.domain.model.diary import Diary, Fall
from app.domain.model.exercise import Axis
from tests.domain.shipped import TODAY, WELL, library
from tests.sampling import is_whole

KIT = frozenset(kit for one in library().values() for kit in one.equipment)


def body(*conditions: Condition, weeks: int = 2) -> Client:
    """With these, so many weeks old."""
    terms = ConditionTerms(since=TODAY - timedelta(weeks=weeks))
    return Client(conditions=frozenset(conditions), terms=dict.fromkeys(conditions, terms))


def allowed(client: Client, diary: Diary = WELL) -> frozenset[str]:
    """What nothing speaks against with everything at hand."""
    today = limits_today(client, Place(), diary, KIT, TODAY)
    return frozenset(one.id for one in library().values() if not today.against(one))


def pairs() -> Iterator[tuple[Condition, Condition]]:
    """All of them under `--all`; otherwise those that hold on or were operated on, with all others."""
    some = {Condition.FALLS, Condition.WALKING_AID, Condition.HIP_REPLACEMENT, Condition.KNEE_REPLACEMENT}
    return (pair for pair in combinations(Condition, 2) if is_whole() or some & set(pair))


@pytest.mark.parametrize("weeks", [2, 20])
def test_a_second_condition_allows_nothing_that_the_first_forbids(weeks: int) -> None:
    """Neither way round."""
    alone = {one: allowed(body(one, weeks=weeks)) for one in Condition}
    for one, other in pairs():
        assert allowed(body(one, other, weeks=weeks)) <= alone[one] & alone[other], (one, other)


@pytest.mark.parametrize("condition", [None, *Condition])
def test_a_fall_an_arm_at_rest_a_limit_or_a_pain_allows_nothing_more(condition: Condition | None) -> None:
    """Whatever was ticked before."""
    client = body(condition) if condition else Client()
    before = allowed(client)
    assert allowed(client, replace(WELL, fall=Fall(days_ago=2, hurt=False))) <= before
    assert allowed(client, replace(WELL, pain={Spot(Region.KNEE, "left"): 5})) <= before
    assert allowed(replace(client, rest_side="left", rest_limb="arm", rest_side_because="in plaster")) <= before
    for axis in Axis:
        for most in (0, 1, 2):
            assert allowed(replace(client, told_limits=(AxisLimit(axis, most, "Ms Field"),))) <= before, (axis, most)
