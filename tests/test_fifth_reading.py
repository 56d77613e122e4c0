"""What a fifth fresh reader of compiled sessions found, each as a rule for its kind.

The people of it are told in `tests/findings.md`, "A fifth reader".
"""
from __future__ import annotations

import re
from dataclasses import replace

import pytest

from app.domain.compile.posture import CROSS_S, STAND_UP_S, changes_between
from app.domain.dosing.limits import limits_today
from app.domain.dosing.screening import SETS
from app.domain.model.body import PAIRED_REGIONS, Region, Spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Fall, Last
from app.domain.model.exercise import Axis, Exercise, Position, Support
from app.domain.model.kit import WEIGHTS
from app.domain.model.level import Level
from app.domain.model.limbs import leaves_a_hand, lies_on_side, takes_both_arms
from app.domain.model.record import Hurt
from app.domain.player.pain_response import spare, spared, wants_a_look
from app.domain.player.player import Started, handle
from app.domain.player.player_state import open_player
from app.words.client.safety import SAFETY_FALLS, safety_lines
from tests.domain.dosing.test_dose import but, dose
from tests.domain.player.test_player import at
from tests.domain.shipped import SOME, TODAY, WELL, compiled, library
from tests.sampling import is_whole
from tests.test_fresh_reading import done, only, operated, sore

HOLDS_ON = (Condition.FALLS, Condition.PARKINSONS, Condition.NEUROPATHY, Condition.WALKING_AID,
            Condition.POSTURAL_DIZZINESS, Condition.BLOOD_THINNER, Condition.EPILEPSY, Condition.CANNOT_RISE)
SLING = Client(rest_side="right", rest_limb="arm", rest_side_because="in a sling")
FLOOR_SESSIONS = ("dumbbell-circuit", "down-to-the-floor", "fuller-circuit") if is_whole() else ("dumbbell-circuit",)


def words(exercise: Exercise) -> str:
    """What one is told to do."""
    return " ".join((*exercise.cues.set_up, *exercise.cues.action))


def hurting(session: str, exercise: str, hurt: Hurt, client: Client | None = None) -> tuple[set[str], bool]:
    """What is still done after "that hurts" in the first bout of an exercise, and whether the session ends."""
    client = client or Client()
    got = compiled(session, client)
    index = next(i for i, step in enumerate(got.steps) if step.is_effort and step.exercise == exercise)
    state = handle(handle(open_player(got), Started(), at(0)), Started(), at(got.steps[index].start_ms + 1_000))
    limits = limits_today(client, Place(), WELL, frozenset(k for e in library().values() for k in e.needs()), TODAY)
    sparing = spare(state, Hurt(hurt.spot, hurt.level, exercise=exercise), library(), client, limits)
    swaps = {written: other.id for written, other in sparing.swaps}
    ahead = {s.exercise for s in got.steps[index:] if s.is_effort and s.exercise} - set(sparing.leave_out)
    return {swaps.get(one, one) for one in ahead}, sparing.ends


# ------------------------------------------------------------------ v1–v3: newly operated

@pytest.mark.parametrize("session", SOME)
@pytest.mark.parametrize("weeks", [2, 8, None])
def test_v1_a_new_knee_bends_little_and_carries_no_weight_until_the_go_ahead(weeks: int | None, session: str) -> None:
    """No chair stand without help, no squat with a weight, no brisk rise, no ankle on the new knee."""
    for one in done(compiled(session, operated(Condition.KNEE_REPLACEMENT, weeks))):
        assert one.asks(Axis.DEEP_KNEE_FLEXION) <= 1 and one.asks(Axis.BEARING_DOWN) <= 1, one.id
        assert one.asks(Axis.LEG_CROSSING) <= 1 and not one.rises_briskly, one.id


@pytest.mark.parametrize("session", [*SOME, "morning-on-the-bed"])
@pytest.mark.parametrize("weeks", [2, 8, None])
def test_v2_a_new_hip_lies_nowhere_and_circles_no_knee_until_the_go_ahead(weeks: int | None, session: str) -> None:
    """On the way up the upper leg falls inwards; a seated circle does the same."""
    got = compiled(session, operated(Condition.HIP_REPLACEMENT, weeks))
    for one in done(got):
        assert not one.lies and one.asks(Axis.LEG_CROSSING) == 0 and not one.rises_briskly, one.id
    assert done(got), "something is left to do"


@pytest.mark.parametrize("session", [*SOME, "upper-back-ease", "band-at-the-door"])
@pytest.mark.parametrize("client", [operated(Condition.SHOULDER_REPLACEMENT, 2), SLING], ids=["new", "sling"])
def test_v3_without_a_saving_arm_nobody_balances(client: Client, session: str) -> None:
    """Both feet down, nothing unheld; neither waist nor hips are held with an arm in a sling."""
    for one in done(compiled(session, client)):
        held = one.asks(Axis.UNHELD_BALANCE) == 0 or one.support is Support.OPTIONAL
        assert one.asks(Axis.SINGLE_LEG_BALANCE) <= 1 and held, one.id
        assert not re.search(r"[Hh]ands on (your |)(waist|hips|lower ribs)|[Ff]old your arms", words(one)), one.id


def test_v3_what_asks_for_both_arms_says_so() -> None:
    """Two hands on the body are two arms at work."""
    for one in library().values():
        if re.search(r"[Hh]ands on (your |)(waist|hips|lower ribs)|[Ff]old your arms", words(one)):
            assert takes_both_arms(one), one.id


# ------------------------------------------------------------------ v4, v5, v7: what counts as holding on

@pytest.mark.parametrize("condition", HOLDS_ON)
def test_v4_nobody_who_holds_on_steps_with_a_band_round_the_legs(condition: Condition) -> None:
    """It stops the step that would save them."""
    for session in ("band-at-the-door", *SOME):
        for one in done(compiled(session, only(condition))):
            assert one.position is not Position.STANDING or one.support is Support.REQUIRED \
                or not re.search(r"[Bb]and round your shins", words(one)), (session, one.id)


@pytest.mark.parametrize("condition", HOLDS_ON)
def test_v5_v7_a_back_on_a_wall_and_a_flat_hand_on_it_while_stepping_back_hold_nobody(condition: Condition) -> None:
    """No slide down a wall, no lunge backwards beside one, no step up with a weight in the hand."""
    for session in ("first-steps", "band-at-the-door", *SOME):
        got = {one.id for one in done(compiled(session, only(condition)))}
        assert not got & {"wall-knee-bend", "reverse-lunge", "slow-step-down", "step-up"}, session


@pytest.mark.parametrize("session", SOME)
def test_v7_with_a_walking_aid_one_leg_is_stood_on_with_something_to_grasp(session: str) -> None:
    """A worktop or the back of a chair."""
    for one in done(compiled(session, only(Condition.WALKING_AID))):
        if one.position is Position.STANDING and one.asks(Axis.SINGLE_LEG_BALANCE) >= 2:
            assert one.support is Support.REQUIRED or {"worktop", "chair"} & set(one.equipment), one.id


# ------------------------------------------------------------------ v6: a broken bone in the spine

@pytest.mark.parametrize("session", SOME)
@pytest.mark.parametrize("weeks", [4, None])
def test_v6_a_broken_spine_neither_bends_nor_lifts_until_the_go_ahead(weeks: int | None, session: str) -> None:
    """No floor, no bow, no twist, nothing heavy; the question that is asked sets it."""
    assert SETS["spine_fracture"] is Condition.SPINE_FRACTURE
    got = compiled(session, operated(Condition.SPINE_FRACTURE, weeks))
    assert not any(step.to_floor for step in got.steps)
    for one in done(got):
        assert one.asks(Axis.SPINAL_ROUNDING) == one.asks(Axis.LOADED_SPINAL_FLEXION) == 0, one.id
        assert one.asks(Axis.LOADED_TWIST) == 0 and one.asks(Axis.BEARING_DOWN) <= 1, one.id
        assert not one.loaded and not WEIGHTS & one.needs(), one.id


def test_v6_new_pain_in_a_back_with_thin_bones_is_looked_at_first() -> None:
    """From 4 where it is new; where it was there before it eases; and without a go-ahead any such pain."""
    back = Spot(Region.BACK)
    was = Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=4, pain_at={back: 4})
    thin, broken = only(Condition.OSTEOPOROSIS), operated(Condition.SPINE_FRACTURE, 4)
    assert dose(but(pain={back: 4}), thin).level == Level.ASK_FIRST
    assert dose(replace(WELL, pain={back: 4}, last=was), thin).level < Level.ASK_FIRST
    assert dose(replace(WELL, pain={back: 4}, last=was), broken).level == Level.ASK_FIRST
    assert dose(but(pain={back: 3}), broken).level < Level.ASK_FIRST


def test_v6_much_pain_in_a_calf_is_looked_at_first_and_after_an_operation_sooner() -> None:
    """It may be a clot."""
    calf = Spot(Region.CALF, "left")
    assert dose(but(pain={calf: 5})).level < dose(but(pain={calf: 6})).level == Level.ASK_FIRST
    assert dose(but(pain={calf: 4}), operated(Condition.KNEE_REPLACEMENT, 3)).level == Level.ASK_FIRST
    assert dose(but(pain={calf: 4}), operated(Condition.KNEE_REPLACEMENT, 20, cleared=True)).level < Level.ASK_FIRST


# ------------------------------------------------------------------ v8: much pain in a leg

@pytest.mark.parametrize("region", [Region.HIP, Region.KNEE, Region.THIGH])
@pytest.mark.parametrize("level", [6, 7])
def test_v8_nobody_squats_on_a_leg_that_hurts_much(region: Region, level: int) -> None:
    """Neither down a wall nor at a worktop."""
    for session in SOME:
        got = {one.id for one in done(compiled(session, Client(), diary=but(pain=sore(region, level))))}
        assert not got & {"wall-knee-bend", "worktop-knee-bend"}, session


# ------------------------------------------------------------------ v9, v10: "that hurts"

@pytest.mark.parametrize("session", FLOOR_SESSIONS)
@pytest.mark.parametrize(("region", "level"), [
    (Region.HIP, 5), (Region.HIP, 7), (Region.BACK, 5), (Region.BACK, 7), (Region.SHOULDER, 6), (Region.THIGH, 6),
    (Region.ANKLE, 7)])
def test_v9_pain_in_the_session_spares_what_it_spares_in_the_morning(region: Region, level: int, session: str) -> None:
    """The floor, lying on it, and the front of the hip."""
    spot = Spot(region, "right" if region in PAIRED_REGIONS else "")
    morning = limits_today(Client(), Place(), but(pain={spot: level}), frozenset(), TODAY)
    free = limits_today(Client(), Place(), WELL, frozenset(), TODAY)
    now = spared(free, Hurt(spot, level))
    assert now.caps[Axis.FLOOR_TRANSFER] <= morning.caps[Axis.FLOOR_TRANSFER] <= 1
    assert (now.is_off_side, now.is_hip_front_spared) == (morning.is_off_side, morning.is_hip_front_spared)
    first = next(step.exercise for step in compiled(session).steps if step.is_effort and step.exercise)
    left, ends = hurting(session, first, Hurt(spot, level))
    assert not ends and left
    for one in (library()[i] for i in left):
        assert not one.on_floor, one.id
        assert not (now.is_off_side and lies_on_side(one)) and not (now.is_hip_front_spared and one.takes_thigh_back)


@pytest.mark.parametrize(("client", "spot"), [
    (operated(Condition.HIP_REPLACEMENT, 2), Spot(Region.HIP, "left")),
    (operated(Condition.KNEE_REPLACEMENT, 2), Spot(Region.KNEE, "left")),
    (operated(Condition.SHOULDER_REPLACEMENT, 2), Spot(Region.SHOULDER, "left")),
    (operated(Condition.SPINAL_SURGERY, 2), Spot(Region.BACK)), (only(Condition.OSTEOPOROSIS), Spot(Region.BACK))])
def test_v10_what_wants_a_look_in_the_morning_ends_the_session_as_well(client: Client, spot: Spot) -> None:
    """From 6 on; less is spared, and it goes on."""
    limits = limits_today(client, Place(), WELL, frozenset(), TODAY)
    assert wants_a_look(Hurt(spot, 6), limits) and not wants_a_look(Hurt(spot, 3), limits)
    first = next(step.exercise for step in compiled("first-steps", client).steps if step.is_effort and step.exercise)
    assert hurting("first-steps", first, Hurt(spot, 6), client)[1]
    assert not hurting("first-steps", first, Hurt(spot, 3), client)[1]


def test_v10_after_a_fall_much_pain_anywhere_ends_it_and_what_hurt_this_morning_is_not_new() -> None:
    """A fortnight; and thin bones with the back at 4 since the morning."""
    fell = limits_today(Client(), Place(), but(fall=Fall(days_ago=2, hurt=False)), frozenset(), TODAY)
    assert wants_a_look(Hurt(Spot(Region.HIP, "left"), 6), fell)
    thin, back = only(Condition.OSTEOPOROSIS), Spot(Region.BACK)
    was = Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=4, pain_at={back: 4})
    limits = limits_today(thin, Place(), replace(WELL, pain={back: 4}, last=was), frozenset(), TODAY)
    assert not wants_a_look(Hurt(back, 4), limits) and wants_a_look(Hurt(back, 6), limits)
    assert wants_a_look(Hurt(back, 4), limits_today(thin, Place(), WELL, frozenset(), TODAY))


# ------------------------------------------------------------------ less than a danger

@pytest.mark.parametrize("condition", [Condition.WALKING_AID, Condition.FALLS])
def test_v11_from_a_seat_to_where_one_stands_there_is_time_for_the_steps(condition: Condition) -> None:
    """With whatever they walk with."""
    seat, stand = library()["sit-tall"], library()["standing-breath"]
    up = [change.seconds for change in changes_between(seat, stand, only(condition))]
    assert up[0] >= STAND_UP_S + CROSS_S


# ------------------------------------------------------------------ a fall of late

@pytest.mark.parametrize("session", SOME)
def test_v12_after_a_fall_of_late_balance_is_held_and_it_is_said(session: str) -> None:
    """As with falls that were ticked; an arm that rests the same."""
    fell = but(fall=Fall(days_ago=5, hurt=False))
    for client, diary in ((Client(), fell), (SLING, WELL)):
        got = compiled(session, client, diary=diary)
        assert all(one.asks(Axis.SINGLE_LEG_BALANCE) <= 2 for one in done(got))
        lets_go = any(one.support is Support.OPTIONAL and one.asks(Axis.UNHELD_BALANCE) and leaves_a_hand(one)
                      for one in done(got))
        assert any(("what", "hand") in reason.data for reason in got.dose.reasons) == lets_go
    assert SAFETY_FALLS in safety_lines(Client(), led=False, holds_on=True)
    assert SAFETY_FALLS in safety_lines(SLING, led=False) and SAFETY_FALLS not in safety_lines(Client(), led=False)
