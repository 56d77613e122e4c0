"""What earlier readers had left as lesser, each mended as a rule for its kind.

The people of it are told in `tests/findings.md`, "What had been left".
"""
from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from app.domain.dosing.limb_caps import with_limb_caps
from app.domain.dosing.limits import limits_today
from app.domain.dosing.look import looked_at_from
from app.domain.model.body import BODY_REGIONS, Region, Spot
from app.domain.model.client import Client, Condition, ConditionTerms, Place
from app.domain.model.diary import Fall, Last
from app.domain.model.exercise import Axis
from app.domain.model.level import Level
from app.domain.model.plan import StepSide
from app.words.client import safety
from tests.domain.dosing.test_dose import but, dose
from tests.domain.shipped import SESSIONS, SOME, TODAY, WELL, compiled, library
from tests.test_fresh_reading import done, only, operated

KIT = frozenset(kit for one in library().values() for kit in one.equipment)
LEFT, RIGHT = Spot(Region.HIP, "left"), Spot(Region.HIP, "right")
THIN = only(Condition.OSTEOPOROSIS)


def after(**pain_at: int) -> Last:
    """A session three days ago in which that hip hurt."""
    told = {Spot(Region.HIP, side): level for side, level in pain_at.items()}
    return Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=max(told.values(), default=0), pain_at=told)


def test_z1_with_thin_bones_new_pain_is_new_in_the_side_that_hurts() -> None:
    """A hip that hurt last time hides nothing in the other one; one whose side was not named may be either."""
    assert dose(replace(WELL, pain={RIGHT: 5}, last=after(left=5)), THIN).level == Level.ASK_FIRST
    assert dose(replace(WELL, pain={LEFT: 5}, last=after(left=5)), THIN).level < Level.ASK_FIRST
    assert dose(replace(WELL, pain={Spot(Region.HIP): 5}, last=after(left=5)), THIN).level < Level.ASK_FIRST
    assert dose(replace(WELL, pain={RIGHT: 5}, last=after(left=5))).level < Level.ASK_FIRST


@pytest.mark.parametrize("region", BODY_REGIONS)
def test_z2_with_thin_bones_clear_pain_after_a_fall_is_looked_at_wherever_it_is(region: Region) -> None:
    """A wrist, a shoulder and a rib break in such a fall as well. Without thin bones 6 does, as before."""
    fell = but(pain={}, fall=Fall(days_ago=5, hurt=False))
    assert looked_at_from(THIN, fell, TODAY)[Spot(region)] == 4
    assert looked_at_from(Client(), fell, TODAY)[Spot(region)] == (
        4 if region in (Region.HIP, Region.THIGH, Region.BACK, Region.NECK) else 6)
    assert dose(replace(fell, pain={Spot(region): 4}), THIN).level == Level.ASK_FIRST


def test_z3_ribs_break_by_little_where_bones_are_thin() -> None:
    """By a cough; looked at from 4 where it is new, and from 6 in any case."""
    new, old = (Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=was, pain_at={Spot(Region.RIBS): was})
                for was in (0, 4))
    assert dose(replace(WELL, pain={Spot(Region.RIBS): 4}, last=new), THIN).level == Level.ASK_FIRST
    assert dose(replace(WELL, pain={Spot(Region.RIBS): 4}, last=old), THIN).level < Level.ASK_FIRST
    broken = only(Condition.SPINE_FRACTURE)
    assert dose(replace(WELL, pain={Spot(Region.RIBS): 6}, last=old), broken).level == Level.ASK_FIRST
    assert dose(replace(WELL, pain={Spot(Region.RIBS): 6}, last=old)).level < Level.ASK_FIRST


@pytest.mark.parametrize(("weeks", "looked"), [(2, True), (None, True), (8, False)])
def test_z4_a_shoulder_with_new_leads_is_looked_at_from_much_pain(weeks: int | None, looked: bool) -> None:
    """In the weeks in which leads settle, and while nobody knows when that was."""
    client = operated(Condition.PACEMAKER, weeks)
    assert (dose(but(pain={Spot(Region.SHOULDER, "left"): 6}), client).level == Level.ASK_FIRST) is looked
    assert dose(but(pain={Spot(Region.SHOULDER, "left"): 5}), client).level < Level.ASK_FIRST


@pytest.mark.parametrize("weeks", [3, 8, 14, None])
@pytest.mark.parametrize("session", ["quick-up-slow-down", "quick-in-the-chair", "legs-with-weights", *SOME])
def test_z5_an_operated_back_rises_slowly_and_steps_up_to_nothing(weeks: int | None, session: str) -> None:
    """As every other operation until the go-ahead."""
    got = done(compiled(session, operated(Condition.SPINAL_SURGERY, weeks)))
    assert got and not [one.id for one in got if one.rises_briskly or one.bends_in_stride or "step" in one.needs()]


@pytest.mark.parametrize("client", [only(Condition.PARKINSONS), only(Condition.POSTURAL_DIZZINESS),
                                    operated(Condition.HIP_REPLACEMENT, 3)], ids=["parkinsons", "dizzy", "new hip"])
def test_z6_a_chair_stand_that_goes_by_time_takes_its_six_seconds_too(client: Client) -> None:
    """Counted, so that nobody fills forty seconds with as many as they can."""
    steps = [step for session in SOME for step in compiled(session, client).steps if step.is_effort and step.exercise]
    quick = {one.id for one in library().values() if one.is_chair_stand and 0 < one.rep_ms < 6_000}
    stands = [step for step in steps if step.exercise in quick and step.length_ms >= 6_000]
    assert stands and all(step.reps and step.length_ms >= 6_000 * step.reps for step in stands)


@pytest.mark.parametrize("client", [only(Condition.WALKING_AID), operated(Condition.KNEE_REPLACEMENT, 3)],
                         ids=["aid", "new knee"])
def test_z7_no_knee_bends_ahead_in_a_stretch_either(client: Client) -> None:
    """The stretches of the front of the hip are stood in the same stride."""
    strides = {one.id for one in library().values() if one.bends_in_stride}
    assert {"split-hip-flexor-stretch", "wall-hip-flexor-stretch", "supported-split-squat"} <= strides
    today = limits_today(client, Place(), WELL, KIT, TODAY)
    assert not [one for one in strides if not today.against(library()[one])]


def test_z8_a_seated_bow_over_one_leg_bows_over_the_other_hip_too() -> None:
    """So that a hip that hurts is not bowed over from the other side."""
    bow = library()["seated-hamstring-stretch"]
    hurts = but(pain={LEFT: 6})
    today = with_limb_caps(limits_today(Client(), Place(), hurts, KIT, TODAY), Client(), hurts, TODAY)
    assert Axis.DEEP_HIP_FLEXION in today.over(bow, StepSide.RIGHT)
    written = [session for session in SESSIONS if bow in done(compiled(session))]
    assert written and not [session for session in written if bow in done(compiled(session, diary=hurts))]


@pytest.mark.parametrize(("condition", "line"), [
    (Condition.OSTEOPOROSIS, safety.SAFETY_THIN_BONES), (Condition.SPINE_FRACTURE, safety.SAFETY_BROKEN_SPINE),
    (Condition.SPINAL_SURGERY, safety.SAFETY_SPINE), (Condition.HEART_CONDITION, safety.SAFETY_HEART[0]),
    (Condition.EPILEPSY, safety.SAFETY_SEIZURE[0])])
def test_z9_what_may_do_harm_is_said_before_the_start(condition: Condition, line: str) -> None:
    """The lines that are about an operation or a break end with the go-ahead."""
    assert line in safety.safety_lines(only(condition), led=False)
    assert line not in safety.safety_lines(Client(), led=False)
    yes = ConditionTerms(TODAY - timedelta(weeks=20), cleared_by="Ms Field, physiotherapist", cleared=TODAY)
    cleared = safety.safety_lines(Client(conditions=frozenset({condition}), terms={condition: yes}), led=False)
    assert (line in cleared) is (condition not in (Condition.SPINE_FRACTURE, Condition.SPINAL_SURGERY))


def test_z9_memory_loss_is_not_told_how_to_train_alone() -> None:
    """One line says together; none beside it says alone."""
    lines = safety.safety_lines(replace(only(Condition.MEMORY_LOSS), alone=True), led=False)
    assert safety.SAFETY_TOGETHER[0] in lines and safety.SAFETY_ALONE[0] not in lines
