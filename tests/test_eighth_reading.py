"""What two more fresh readers of compiled sessions found, each as a rule for its kind.

The people of it are told in `tests/findings.md`, "An eighth and a ninth reader".
"""
from __future__ import annotations

import re
from dataclasses import replace

import pytest

from app.domain.dosing.limits import limits_today
from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Fall, Last
from app.domain.model.exercise import CLEAR, Axis, Exercise, Pattern, Position
from app.domain.model.level import Level
from tests.domain.dosing.test_dose import but, dose
from tests.domain.shipped import SOME, TODAY, WELL, compiled, library
from tests.test_fresh_reading import done, only, operated

KIT = frozenset(kit for one in library().values() for kit in one.equipment)
PUT_ON = re.compile(r"(band|towel)[^.]*(under|round|on)[^.]*(foot|feet|shins?|ankles?)|stand on the band|"
                    r"(foot|feet) into the (band|towel)", re.IGNORECASE)
PLASTER = Client(rest_side="left", rest_limb="arm", rest_side_because="wrist in plaster")
BROKEN = [operated(Condition.SPINE_FRACTURE, weeks) for weeks in (2, 8, 14, None)]


def is_put_on(exercise: Exercise) -> bool:
    """Whether one reaches down to foot or shin to get ready."""
    return any(PUT_ON.search(cue) for cue in (*exercise.cues.set_up, *exercise.cues.action))


def test_y1_reaching_down_to_put_on_a_band_or_a_towel_is_part_of_the_exercise() -> None:
    """It rounds the back, so that a broken one is never given it before the go-ahead; nothing gets by."""
    found = [one for one in library().values() if is_put_on(one)]
    assert len(found) >= 9
    assert not [one.id for one in found if one.asks(Axis.SPINAL_ROUNDING) < 1]
    for client in BROKEN:
        today = limits_today(client, Place(), WELL, KIT, TODAY)
        assert not [one.id for one in found if not today.against(one)]


@pytest.mark.parametrize("session", ["band-in-the-chair", "band-at-the-door"])
@pytest.mark.parametrize("client", BROKEN, ids=["2", "8", "14", "unknown"])
def test_y1_a_broken_back_reaches_down_to_no_band(client: Client, session: str) -> None:
    """In the sessions that are about one."""
    got = done(compiled(session, client))
    assert got and not [one.id for one in got if is_put_on(one)]


@pytest.mark.parametrize("session", ["loosen-and-balance", "walk-and-turn", "legs-with-weights", *SOME])
@pytest.mark.parametrize("client", [
    replace(PLASTER, conditions=frozenset({Condition.WALKING_AID})),
    replace(PLASTER, conditions=frozenset({Condition.WALKING_AID, Condition.FALLS, Condition.OSTEOPOROSIS})),
    replace(operated(Condition.SHOULDER_REPLACEMENT, 2),
            conditions=frozenset({Condition.SHOULDER_REPLACEMENT, Condition.WALKING_AID})),
], ids=["plaster", "after a fall", "new shoulder"])
def test_y2_with_one_arm_and_a_walking_aid_both_feet_carry(client: Client, session: str) -> None:
    """Nobody stands on one leg or walks with the only hand that is left; sitting goes on."""
    got = done(compiled(session, client))
    assert not [one.id for one in got if one.position is Position.STANDING and one.asks(Axis.SINGLE_LEG_BALANCE)]
    today = limits_today(client, Place(), WELL, KIT, TODAY)
    assert not [one.id for one in library().values()
                if one.asks(Axis.SINGLE_LEG_BALANCE) and not today.against(one)]


def test_y2_one_arm_alone_still_stands_on_one_leg_with_a_firm_hold() -> None:
    """Marching at a worktop, for instance; and an aid alone keeps it too."""
    for client in (PLASTER, only(Condition.WALKING_AID)):
        today = limits_today(client, Place(), WELL, KIT, TODAY)
        assert [one.id for one in library().values()
                if one.asks(Axis.SINGLE_LEG_BALANCE) == 1 < CLEAR and not today.against(one)]


@pytest.mark.parametrize("limb", ["leg", ""])
def test_y3_a_calf_that_hurts_in_a_leg_at_rest_is_looked_at_first(limb: str) -> None:
    """In plaster no swelling is seen. From 4 on; without a leg at rest from 6."""
    resting = Client(rest_side="left", rest_limb=limb, rest_side_because="in plaster")
    hurts = but(pain={Spot(Region.CALF, "left"): 4})
    assert dose(hurts, resting).level == Level.ASK_FIRST
    assert dose(but(pain={Spot(Region.CALF, "left"): 3}), resting).level < Level.ASK_FIRST
    assert dose(hurts).level < Level.ASK_FIRST
    assert dose(hurts, PLASTER).level < Level.ASK_FIRST


@pytest.mark.parametrize("others", [frozenset(), frozenset({Condition.FALLS, Condition.OSTEOPOROSIS})],
                         ids=["aid", "falls"])
@pytest.mark.parametrize("alone", [True, False])
def test_y4_with_a_walking_aid_nobody_goes_down_on_one_knee(others: frozenset[Condition], alone: bool) -> None:
    """Nor up again with one foot ahead: it is a deeper bend than the one that is left out while standing."""
    client = Client(conditions=others | {Condition.WALKING_AID}, alone=alone)
    today = limits_today(client, Place(), WELL, KIT, TODAY)
    barred = [one for one in library().values()
              if one.pattern is Pattern.LUNGE and one.position in (Position.STANDING, Position.KNEELING)]
    assert {"one-knee-down", "both-knees-down", "foot-forward-from-knees"} <= {one.id for one in barred}
    assert not [one.id for one in barred if not today.against(one)]
    assert not {one.id for one in done(compiled("down-to-the-floor", client))} & {one.id for one in barred}


def test_y5_a_neck_that_hurts_soon_after_a_fall_is_looked_at_first() -> None:
    """From 4 on, for a fortnight, in the morning and within a session."""
    fell = but(pain={Spot(Region.NECK): 4}, fall=Fall(days_ago=5, hurt=False))
    assert dose(fell).level == dose(fell, only(Condition.OSTEOPOROSIS)).level == Level.ASK_FIRST
    assert dose(replace(fell, pain={Spot(Region.NECK): 3})).level < Level.ASK_FIRST
    assert dose(replace(fell, fall=None)).level < Level.ASK_FIRST
    assert dose(replace(fell, fall=Fall(days_ago=20, hurt=False))).level < Level.ASK_FIRST
    assert limits_today(Client(), Place(), replace(fell, pain={}), KIT, TODAY).looked_at[Spot(Region.NECK)] == 4


@pytest.mark.parametrize("region", [Region.THIGH, Region.HIP])
def test_y6_new_pain_in_a_thigh_or_hip_with_thin_bones_is_looked_at_first(region: Region) -> None:
    """A crack announces itself there. What was there in the last session is not new; 6 is looked at all the same."""
    spot, thin = Spot(region, "right"), only(Condition.OSTEOPOROSIS)
    none, some = (Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=was, pain_at={spot: was}) for was in (0, 4))
    new = replace(WELL, pain={spot: 5}, last=none)
    assert dose(new, thin).level == Level.ASK_FIRST
    assert dose(new).level < Level.ASK_FIRST
    assert dose(replace(new, last=some), thin).level < Level.ASK_FIRST
    assert dose(replace(new, last=some, pain={spot: 6}), thin).level == Level.ASK_FIRST


@pytest.mark.parametrize("session", ["one-side-at-a-time", "upper-back-ease", "legs-with-weights", "fuller-circuit"])
def test_y6_with_a_thigh_that_hurts_one_leg_stands_only_with_a_firm_hold(session: str) -> None:
    """As with hip, knee, ankle and foot; on both sides alike, since the other leg steps too."""
    got = done(compiled(session, diary=but(pain={Spot(Region.THIGH, "right"): 5})))
    assert got and all(one.asks(Axis.SINGLE_LEG_BALANCE) <= 1 for one in got)
