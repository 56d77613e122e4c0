"""What a sixth fresh reader of compiled sessions found, each as a rule for its kind.

The people of it are told in `tests/findings.md`, "A sixth reader".
"""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.dosing.limits import limits_today
from app.domain.model.body import Region, Spot
from app.domain.model.client import Condition, Place
from app.domain.model.exercise import Axis, Position
from app.domain.model.level import Level
from tests.domain.dosing.test_dose import but, dose
from tests.domain.shipped import SOME, TODAY, WELL, compiled, library
from tests.test_fifth_reading import HOLDS_ON, SLING, words
from tests.test_fresh_reading import done, only, operated


@pytest.mark.parametrize("session", SOME)
def test_w1_a_broken_spine_keeps_the_neck_still_until_the_go_ahead(session: str) -> None:
    """Nobody asks where the break is."""
    for one in done(compiled(session, operated(Condition.SPINE_FRACTURE, 2))):
        assert one.asks(Axis.HEAD_TURNING) == one.asks(Axis.NECK_LOAD) == 0, one.id


@pytest.mark.parametrize("session", SOME)
def test_w2_a_new_hip_with_a_walking_aid_stands_up_from_a_raised_seat_with_the_hands(session: str) -> None:
    """Never from an ordinary one; and what raises the seat stays."""
    new = operated(Condition.HIP_REPLACEMENT, 2)
    client = replace(new, conditions=new.conditions | {Condition.WALKING_AID})
    got = compiled(session, client)
    for one in done(got):
        assert not one.is_chair_stand or "cushion" in words(one), one.id
    for swap in got.substitutions:
        if swap.written == "raised-seat-sit-to-stand":
            assert swap.to == "raised-seat-hands-on-stand"


@pytest.mark.parametrize("session", [*SOME, "lift-and-carry", "push-pull-carry"])
def test_w3_with_an_arm_at_rest_nothing_is_lifted_while_standing(session: str) -> None:
    """The one hand that there is stays free to catch."""
    for client in (SLING, replace(SLING, rest_limb=""), replace(SLING, rest_side="left")):
        for one in done(compiled(session, client)):
            assert not one.loaded or one.position is not Position.STANDING, one.id


def test_w4_an_ordinary_seat_bends_hip_and_knee_whatever_the_hands_do() -> None:
    """As its anchors say; a raised one less."""
    for name in ("hands-on-sit-to-stand", "fingertips-sit-to-stand", "sit-to-stand"):
        assert library()[name].asks(Axis.DEEP_HIP_FLEXION) == library()[name].asks(Axis.DEEP_KNEE_FLEXION) == 2
    assert library()["raised-seat-hands-on-stand"].asks(Axis.DEEP_HIP_FLEXION) == 1


def test_w5_much_pain_in_a_hip_with_thin_bones_is_looked_at_first() -> None:
    """And in a thigh: a neck of a femur may be broken without a fall that anybody remembers."""
    for region in (Region.HIP, Region.THIGH):
        spot = Spot(region, "left")
        assert dose(but(pain={spot: 6}), only(Condition.OSTEOPOROSIS)).level == Level.ASK_FIRST
        assert dose(but(pain={spot: 6})).level < Level.ASK_FIRST


@pytest.mark.parametrize("condition", HOLDS_ON)
def test_w6_whoever_holds_on_lets_go_of_nothing_on_one_leg(condition: Condition) -> None:
    """However far they have come: nothing that takes the hand away, nor a brisk rise on to the toes."""
    kit = frozenset(k for e in library().values() for k in e.needs())
    limits = limits_today(only(condition), Place(), WELL, kit, TODAY)
    for name in ("head-turn-one-leg", "long-reach-taps", "paused-tandem-walk", "quick-up-toe-rise"):
        assert limits.against(library()[name]), name
