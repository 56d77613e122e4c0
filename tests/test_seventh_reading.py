"""What a seventh fresh reader of compiled sessions found, each as a rule for its kind.

The people of it are told in `tests/findings.md`, "A seventh reader".
"""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.dosing.limits import limits_today
from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Fall, Last
from app.domain.model.exercise import CLEAR, Axis, Pattern, Position
from app.domain.model.level import Level
from app.domain.model.plan import ChangeStage
from app.domain.model.record import Hurt
from app.domain.player.pain_response import spare
from app.domain.player.player_state import open_player
from app.words.client.safety import SAFETY_LEADS, safety_lines
from tests.domain.dosing.test_dose import but, dose
from tests.domain.shipped import SOME, TODAY, WELL, compiled, library
from tests.test_fresh_reading import done, only, operated

KIT = frozenset(kit for one in library().values() for kit in one.equipment)
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


# ------------------------------------------------------------------ what that reader called less, and is mended

@pytest.mark.parametrize("session", ["round-the-worktop", "walk-and-turn", "loosen-and-balance", *SOME])
def test_x5_with_a_walking_aid_nobody_stands_heel_to_toe_or_lifts_both_hands_at_a_flat_wall(session: str) -> None:
    """Where one leg carries there is something to grasp, even where the words put a hand on the wall."""
    for one in done(compiled(session, only(Condition.WALKING_AID))):
        if one.position is Position.STANDING and not {"worktop", "chair"} & set(one.equipment):
            assert one.asks(Axis.SINGLE_LEG_BALANCE) < CLEAR and one.asks(Axis.OVERHEAD_SHOULDER) < CLEAR, one.id


@pytest.mark.parametrize("condition", [Condition.HIP_REPLACEMENT, Condition.KNEE_REPLACEMENT])
def test_x6_a_new_joint_neither_steps_quickly_nor_bends_with_one_foot_ahead(condition: Condition) -> None:
    """Nor, with a new hip, turns round on it or leans back to lift the knees; nothing in the library gets by."""
    today = limits_today(operated(condition, 2), Place(), WELL, KIT, TODAY)
    for one in (one for one in library().values() if not today.against(one)):
        assert not one.rises_briskly, one.id
        assert not (one.pattern is Pattern.LUNGE and one.position is Position.STANDING), one.id
        if condition is Condition.HIP_REPLACEMENT:
            assert one.asks(Axis.TURNING_ROUND) <= 1 and one.asks(Axis.BEARING_DOWN) <= 1, one.id


def test_x7_whoever_keeps_the_same_order_is_given_nothing_new_after_that_hurts() -> None:
    """It is left out."""
    client = only(Condition.MEMORY_LOSS)
    state = open_player(compiled("dumbbell-circuit", client))
    effort = next(s for s in state.steps if s.is_effort and s.exercise and library()[s.exercise].easier)
    hurt = Hurt(Spot(Region.KNEE, "left"), 5, exercise=effort.exercise)
    for body, is_swapped in ((client, False), (Client(), True)):
        limits = limits_today(body, Place(), WELL, KIT, TODAY)
        found = spare(state, hurt, library(), body, limits)
        assert bool(found.swaps) is is_swapped and (found.leave_out or is_swapped)


def test_x8_new_leads_are_said_before_the_start_and_no_longer_after_six_weeks() -> None:
    """And where no day is known."""
    for weeks, is_said in ((2, True), (5, True), (7, False)):
        lines = safety_lines(operated(Condition.PACEMAKER, weeks), led=False, today=TODAY)
        assert (SAFETY_LEADS[0] in lines) is is_said, weeks
    assert SAFETY_LEADS[0] in safety_lines(only(Condition.PACEMAKER), led=False, today=TODAY)
    assert any("Anna’s elbow" in line for line in safety_lines(only(Condition.PACEMAKER), led=True, asked="Anna"))
