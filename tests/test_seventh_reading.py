"""What a seventh fresh reader of compiled sessions found, each as a rule for its kind.

The people of it are told in `tests/findings.md`, "A seventh reader".
"""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Fall, Last
from app.domain.model.exercise import Pattern
from app.domain.model.level import Level
from app.domain.model.plan import ChangeStage
from tests.domain.dosing.test_dose import but, dose
from tests.domain.shipped import SOME, WELL, compiled
from tests.test_fresh_reading import done, only, operated

STANDS = (ChangeStage.UP, ChangeStage.STAND, ChangeStage.RISE)


@pytest.mark.parametrize("limb", ["leg", ""])
@pytest.mark.parametrize("session", ["morning-on-the-bed", *SOME])
def test_x1_whose_leg_rests_ends_sitting_and_is_never_told_to_stand(session: str, limb: str) -> None:
    """Neither at the end nor in between."""
    client = Client(rest_side="left", rest_limb=limb, rest_side_because="in plaster")
    hotel = Place(kit=frozenset({"chair", "worktop", "dumbbell"}), floor=False)
    for place in (Place(), hotel):
        got = compiled(session, client, place)
        assert not [step.stage for step in got.steps if step.stage in STANDS], place
    if session == "morning-on-the-bed":
        assert got.steps[-1].stage is ChangeStage.SIT


@pytest.mark.parametrize("session", ["legs-with-weights", "lift-and-carry", *SOME])
@pytest.mark.parametrize("client", [
    operated(Condition.KNEE_REPLACEMENT, 2), operated(Condition.HIP_REPLACEMENT, 8),
    operated(Condition.SPINE_FRACTURE), only(Condition.WALKING_AID)], ids=["knee", "hip", "spine", "aid"])
def test_x2_nobody_steps_up_on_a_leg_that_was_operated_on_or_with_a_walking_aid(client: Client, session: str) -> None:
    """Until the go-ahead; with an aid never."""
    assert all("step" not in one.needs() for one in done(compiled(session, client)))


@pytest.mark.parametrize("region", [Region.HIP, Region.THIGH, Region.BACK])
def test_x3_clear_pain_in_what_carries_is_looked_at_soon_after_a_fall(region: Region) -> None:
    """From 4 on, for a fortnight; elsewhere from 6."""
    spot = Spot(region, "" if region is Region.BACK else "left")
    fell = but(pain={spot: 4}, fall=Fall(days_ago=2, hurt=False))
    assert dose(fell).level == Level.ASK_FIRST
    assert dose(replace(fell, pain={spot: 3})).level < Level.ASK_FIRST
    assert dose(replace(fell, fall=None)).level < Level.ASK_FIRST
    assert dose(replace(fell, pain={Spot(Region.WRIST, "left"): 5})).level < Level.ASK_FIRST


@pytest.mark.parametrize("session", ["fuller-circuit", "down-to-the-floor", "band-at-the-door", *SOME])
def test_x4_a_new_or_a_sore_hip_stands_in_no_split_stance(session: str) -> None:
    """The hind thigh carries behind the body, the front one almost alone."""
    sore_hip = compiled(session, Client(), diary=but(pain={Spot(Region.HIP, "left"): 5}))
    new = (compiled(session, operated(Condition.HIP_REPLACEMENT, weeks)) for weeks in (2, 8, None))
    for got in (sore_hip, *new):
        assert all(one.pattern is not Pattern.LUNGE for one in done(got))


@pytest.mark.parametrize("region", [Region.HIP, Region.THIGH, Region.BACK])
@pytest.mark.parametrize("client", [only(Condition.OSTEOPOROSIS), operated(Condition.HIP_REPLACEMENT, 2),
                                    operated(Condition.SPINAL_SURGERY, 2)], ids=["thin", "hip", "back"])
def test_x3_no_reason_to_look_takes_another_away(client: Client, region: Region) -> None:
    """After a fall 4 counts, also for thin bones and what was operated on; whatever else was known of the pain."""
    spot = Spot(region, "" if region is Region.BACK else "left")
    was = Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=4, pain_at={spot: 4})
    fell = replace(WELL, pain={spot: 4}, last=was, fall=Fall(days_ago=2, hurt=False))
    assert dose(fell, client).level == Level.ASK_FIRST
    assert dose(replace(fell, fall=None), client).level < Level.ASK_FIRST
