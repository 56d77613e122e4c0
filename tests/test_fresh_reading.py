"""What a fresh reader of compiled sessions found, each as a rule for its kind: over all sessions, or over the library.

The people of it are told in `tests/findings.md`, "A fresh reader".
"""
from __future__ import annotations

import re
from datetime import timedelta

import pytest

from app.domain.dosing.holding import may_hold
from app.domain.dosing.limits import limits_today
from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, Region, Spot
from app.domain.model.client import Client, Condition, ConditionTerms, Place
from app.domain.model.exercise import Axis, Exercise, Limb, Position, Support
from app.domain.model.limbs import leans_of, lies_on_side, loads_of, takes_both_arms
from app.domain.model.plan import ChangeStage, StepKind, Timeline
from app.words.client.safety import SAFETY_ARM, safety_lines
from app.words.demands import OTHER, WEIGHT
from tests.domain.dosing.test_dose import but
from tests.domain.shipped import SOME, TODAY, compiled, efforts, library

NEW = (Condition.HIP_REPLACEMENT, Condition.KNEE_REPLACEMENT, Condition.SHOULDER_REPLACEMENT, Condition.SPINAL_SURGERY,
       Condition.PACEMAKER)


def operated(condition: Condition, weeks: int | None = None, *, cleared: bool = False) -> Client:
    """Somebody with an operation so many weeks ago, or nobody knows when; with or without a clinician's word."""
    told = ConditionTerms(since=None if weeks is None else TODAY - timedelta(weeks=weeks),
                          cleared_by="Ms Field, physiotherapist" if cleared else "", cleared=TODAY if cleared else None)
    return Client(conditions=frozenset({condition}), terms={condition: told})


def only(*conditions: Condition) -> Client:
    """Somebody with these."""
    return Client(conditions=frozenset(conditions))


def sore(region: Region, level: int) -> dict[Spot, int]:
    """On the left, where there is a left."""
    return {Spot(region, "left" if region in PAIRED_REGIONS else ""): level}


def done(got: Timeline) -> list[Exercise]:
    """What is done of a session, each bout."""
    return [library()[step.exercise or ""] for step in efforts(got)]


def is_on_floor(got: Timeline) -> bool:
    """Whether anybody gets down."""
    return any(step.to_floor for step in got.steps)


# ------------------------------------------------------------------ before a clinician's word

@pytest.mark.parametrize("session", SOME)
@pytest.mark.parametrize("weeks", [2, 8, None])
def test_r1_a_new_hip_bends_lies_and_balances_as_promised_until_the_go_ahead(weeks: int | None, session: str) -> None:
    """No seated bow, no ordinary chair stand, nothing on a side, no weighted bow, both feet down."""
    for one in done(compiled(session, operated(Condition.HIP_REPLACEMENT, weeks))):
        assert one.asks(Axis.DEEP_HIP_FLEXION) <= 1 and one.asks(Axis.LOADED_SPINAL_FLEXION) <= 1, one.id
        assert one.asks(Axis.SINGLE_LEG_BALANCE) <= 1, one.id
        assert one.asks(Axis.UNHELD_BALANCE) == 0 or may_hold(one), one.id
        assert not lies_on_side(one), one.id


def test_r1_a_bow_from_a_seat_bends_the_hip_clearly() -> None:
    """Sitting is 90° already."""
    bows = [e for e in library().values() if e.position is Position.SEATED and any(
        words in " ".join(e.cues.action).casefold() for words in ("bow forward", "lean forward a little"))]
    assert {"seated-bow", "seated-inner-thigh", "seated-hamstring-stretch"} <= {e.id for e in bows}
    assert all(e.asks(Axis.DEEP_HIP_FLEXION) >= 2 for e in bows)


@pytest.mark.parametrize("session", SOME)
@pytest.mark.parametrize("condition", NEW)
def test_r2_r3_nobody_newly_operated_gets_down_to_the_floor(condition: Condition, session: str) -> None:
    """A new knee cannot be knelt on, a new shoulder carries nobody up, and a new lead is not to be pulled."""
    for weeks in (2, None):
        assert not is_on_floor(compiled(session, operated(condition, weeks)))


@pytest.mark.parametrize("session", SOME)
def test_r3_a_new_shoulder_carries_no_weight_and_does_not_lean_before_the_go_ahead(session: str) -> None:
    """Without a date as in the first weeks: nothing hangs from it. After that, what a light hold carries."""
    for weeks in (2, None):
        assert not any(e.loaded or e.asks(Axis.SHOULDER_LOAD) for e in done(
            compiled(session, operated(Condition.SHOULDER_REPLACEMENT, weeks))))
    for one in done(compiled(session, operated(Condition.SHOULDER_REPLACEMENT, 8))):
        assert max(one.asks(Axis.GRIP), one.asks(Axis.ELBOW_LOAD)) <= 1 and one.asks(Axis.SHOULDER_LOAD) == 0, one.id


def test_r3_without_a_date_the_first_weeks_count_and_a_word_or_a_date_ends_them() -> None:
    """Of every condition that has such weeks."""
    def caps(client: Client) -> dict[Axis, int]:
        return dict(limits_today(client, Place(), None, frozenset(), TODAY).caps)

    for condition in (Condition.SHOULDER_REPLACEMENT, Condition.PACEMAKER, Condition.SPINAL_SURGERY):
        assert caps(operated(condition)) == caps(operated(condition, 2)) != caps(operated(condition, 8))
        assert caps(operated(condition, cleared=True)) == caps(operated(condition, 2, cleared=True))


@pytest.mark.parametrize("session", SOME)
def test_r4_after_an_operation_on_the_back_six_weeks_of_walking_and_loosening(session: str) -> None:
    """No bow, nothing that strains, no weight, the neck left in peace."""
    for weeks in (2, None):
        for one in done(compiled(session, operated(Condition.SPINAL_SURGERY, weeks))):
            assert not one.loaded and one.asks(Axis.BEARING_DOWN) == one.asks(Axis.LOADED_SPINAL_FLEXION) == 0, one.id
            assert one.asks(Axis.NECK_LOAD) == one.asks(Axis.HEAD_TURNING) == 0, one.id


# ------------------------------------------------------------------ today's soreness

@pytest.mark.parametrize("session", SOME)
@pytest.mark.parametrize("region", [r for r in BODY_REGIONS if r not in (Region.NECK, Region.RIBS)], ids=str)
def test_r5_nobody_gets_down_whom_getting_up_would_hurt(region: Region, session: str) -> None:
    """From 6 with any limb or the back; from 4 with the back, a hip or a knee."""
    early = (4,) if region in (Region.BACK, Region.HIP, Region.KNEE) else ()
    for level in (6, 7, *early):
        assert not is_on_floor(compiled(session, diary=but(pain=sore(region, level))))


def test_r6_a_sore_wrist_is_not_pressed_upon() -> None:
    """What presses hand on hand says that the wrists are straight, and none of it is done from 6 on."""
    presses = [e for e in library().values() if "palms together" in " ".join(e.cues.set_up).casefold()]
    assert len(presses) == 3 and all("wrists straight" in " ".join(e.cues.set_up) for e in presses)
    limits = limits_today(Client(), Place(), but(pain=sore(Region.WRIST, 7)), frozenset({"chair"}), TODAY)
    for one in (*presses, library()["seated-side-lean"], library()["standing-side-lean"]):
        assert Axis.WRIST_WEIGHT_BEARING in limits.against(one), one.id


@pytest.mark.parametrize("session", SOME)
def test_r10_nobody_lies_on_a_sore_side_or_stands_on_a_sore_leg_alone(session: str) -> None:
    """Hip, shoulder and ribs from 4; hip and knee as the ankle is."""
    for region in (Region.HIP, Region.SHOULDER, Region.RIBS):
        assert not any(map(lies_on_side, done(compiled(session, diary=but(pain=sore(region, 4))))))
    for region in (Region.HIP, Region.KNEE):
        assert all(e.asks(Axis.SINGLE_LEG_BALANCE) == 0 for e in done(
            compiled(session, diary=but(pain=sore(region, 7)))))


def test_r10_lying_on_a_side_is_known_on_the_floor_and_on_the_bed() -> None:
    """By position, or by what carries; and there is a sentence for it."""
    on_side = {e.id for e in library().values() if lies_on_side(e)}
    assert on_side == {"side-lying-leg-lift", "side-lying-leg-lift-on-bed"}
    assert OTHER["on_side"] and WEIGHT["lying"]


# ------------------------------------------------------------------ conditions

@pytest.mark.parametrize("session", SOME)
def test_r7_who_walks_with_an_aid_has_a_hand_for_it(session: str) -> None:
    """Standing with both arms at work is done against a wall or a worktop only."""
    for one in done(compiled(session, only(Condition.WALKING_AID))):
        if one.position is Position.STANDING and one.support is not Support.REQUIRED:
            both = {Limb.ARM, Limb.OTHER_ARM} <= loads_of(one) or (
                Limb.ARM in loads_of(one) and one.sides.value == "both")
            assert not both or {"wall", "worktop"} & set(one.equipment), one.id
            assert one.support is Support.OPTIONAL or both, one.id


def test_r7_walking_leaves_the_hands_to_stick_wall_or_frame() -> None:
    """Its words name the aid, and swing no arm that should hold on."""
    said = " ".join(library()["room-walk"].cues.set_up)
    assert "stick or frame" in said
    for one in library().values():
        if one.support is Support.OPTIONAL:
            words = " ".join((*one.cues.set_up, *one.cues.action)).casefold()
            assert "arms loose" not in words and "arms swing" not in words, one.id


@pytest.mark.parametrize("session", SOME)
def test_r8_with_epilepsy_no_weight_is_lifted_lying_down(session: str) -> None:
    """Nothing could fall on the face."""
    assert not any(e.loaded and e.lies for e in done(compiled(session, only(Condition.EPILEPSY))))


@pytest.mark.parametrize("condition", [Condition.POSTURAL_DIZZINESS, Condition.PARKINSONS])
def test_r9_up_from_a_chair_slowly_and_a_stand_with_a_hand_on_something(condition: Condition) -> None:
    """After each rise 15 s; chair stands no quicker than one in six seconds."""
    rises = stands = 0
    for session in SOME:
        steps = compiled(session, only(condition)).steps
        for at, step in enumerate(steps):
            if step.stage is ChangeStage.RISE:
                rises += 1
                assert steps[at + 1].stage is ChangeStage.STAND and steps[at + 1].length_ms >= 15_000
            if step.kind is StepKind.WORK and step.reps and library()[step.exercise or ""].is_chair_stand:
                stands += 1
                assert step.reps == 1 or step.length_ms >= 6_000 * step.reps
    assert rises and stands


def test_r11_what_goes_round_the_feet_or_takes_two_hands_is_rated_so() -> None:
    """Getting ready is part of an exercise."""
    for one in ("towel-row", "seated-band-row", "quick-band-pull", "towel-calf-stretch", "seated-knee-extension",
                "seated-leg-press-band", "band-hip-abduction", "band-side-steps"):
        assert library()[one].asks(Axis.DEEP_HIP_FLEXION) >= 2, one
    for one in ("seated-knee-extension", "band-hip-abduction", "band-side-steps", "seated-band-knees-apart"):
        assert Limb.ARM in leans_of(library()[one]), one


@pytest.mark.parametrize("session", SOME)
def test_r12_nobody_bows_forward_in_a_wheelchair(session: str) -> None:
    """Nor sits at the edge for it."""
    for one in done(compiled(session, only(Condition.WHEELCHAIR))):
        assert one.asks(Axis.DEEP_HIP_FLEXION) <= 1, one.id
        assert "at the edge" not in " ".join(one.cues.set_up).casefold(), one.id


# ------------------------------------------------------------------ a second reader

@pytest.mark.parametrize("session", SOME)
def test_s1_s2_a_new_shoulder_leans_on_nothing_and_holds_with_one_hand(session: str) -> None:
    """In the first weeks nothing takes both arms."""
    for weeks in (3, None):
        assert not any(map(takes_both_arms, done(compiled(session, operated(Condition.SHOULDER_REPLACEMENT, weeks)))))


def test_s2_who_has_a_new_shoulder_is_told_before_the_session_never_to_push_with_it() -> None:
    """Until the go-ahead; among what to see to before the start."""
    for weeks in (3, 8, None):
        assert SAFETY_ARM in safety_lines(operated(Condition.SHOULDER_REPLACEMENT, weeks), led=False)
    assert SAFETY_ARM not in safety_lines(operated(Condition.SHOULDER_REPLACEMENT, 8, cleared=True), led=False)


def test_s2_no_chair_stand_invites_both_hands() -> None:
    """But those that are named after them."""
    for one in library().values():
        if one.is_chair_stand and not one.asks(Axis.WRIST_WEIGHT_BEARING):
            said = " ".join((*one.cues.set_up, *one.cues.action, *one.cues.safety)).casefold()
            assert "use your hands" not in said and "push on" not in said, one.id


@pytest.mark.parametrize("session", SOME)
def test_s3_in_a_wheelchair_one_sits_well_back(session: str) -> None:
    """What is done at the front of the seat says so, by its words and by its mark."""
    assert not any(e.sits_forward for e in done(compiled(session, only(Condition.WHEELCHAIR))))


def test_s3_the_front_of_the_seat_is_marked_wherever_it_is_said() -> None:
    """And nowhere else."""
    told = {e.id for e in library().values() if e.position is Position.SEATED and re.search(
        "near the front|front edge|at the edge|away from the chair back", " ".join(e.cues.set_up).casefold())}
    assert told == {e.id for e in library().values() if e.sits_forward} and len(told) > 5


@pytest.mark.parametrize("session", SOME)
def test_s4_new_leads_carry_no_weight_and_no_body(session: str) -> None:
    """In the first six weeks, and where no day is known."""
    for weeks in (2, None):
        for one in done(compiled(session, operated(Condition.PACEMAKER, weeks))):
            assert not one.loaded and one.asks(Axis.SHOULDER_LOAD) == 0, one.id
