"""What a fourth fresh reader of compiled sessions found, each as a rule for its kind.

The people of it are told in `tests/findings.md`, "A fourth reader".
"""
from __future__ import annotations

import re
from dataclasses import replace

import pytest

from app.domain.dosing.limits import limits_today
from app.domain.model.body import Region
from app.domain.model.client import Client, Condition, Place
from app.domain.model.exercise import Axis, Position, Support
from app.domain.model.kit import CHAIR
from app.domain.model.plan import ChangeStage
from app.words.client import lead
from app.words.client.safety import BESIDE_THE_TICK, SAFETY_HIP, rest_arm, rest_leg, safety_lines
from app.words.demands import OTHER
from app.words.positions import STAGES, UP_HOW
from tests.domain.dosing.test_dose import but
from tests.domain.shipped import SOME, TODAY, compiled, library
from tests.test_fresh_reading import done, only, operated, sore

#: A hand on something that does not move, or the aid itself.
ON_SOMETHING = re.compile(
    r"([Hh]ands?|[Ff]ingertips|[Ff]orearms?) (on|above)|against the wall|stick or frame|\b[Hh]old")
RISES_LATE = (Condition.PARKINSONS, Condition.FALLS, Condition.POSTURAL_DIZZINESS)
WALKING = Client(conditions=frozenset({Condition.WALKING_AID, Condition.CANNOT_RISE}), alone=True,
                 rises_unaided=False)


def plaster(limb: str) -> Client:
    """A left arm or leg that rests, with a chair and weights and a bed at hand."""
    return Client(rest_side="left", rest_limb=limb, rest_side_because="plaster",
                  kit=frozenset({CHAIR, "dumbbell", "worktop", "mat"}))


# ------------------------------------------------------------------ r1: nothing in the hands

@pytest.mark.parametrize("exercise", sorted(e.id for e in library().values()
                                            if e.position is Position.STANDING and e.support is not Support.NONE))
def test_r1_what_may_be_held_says_where_the_hand_goes(exercise: str) -> None:
    """Standing, “optional” and “required” count as held, so the words put the hand on something."""
    cues = library()[exercise].cues
    assert ON_SOMETHING.search(" ".join((*cues.set_up, *cues.action))), exercise


@pytest.mark.parametrize("session", SOME)
def test_r1_nobody_with_a_walking_aid_stands_with_both_arms_hanging(session: str) -> None:
    """Neither as it is written nor in the place of something."""
    for one in done(compiled(session, WALKING)):
        assert not re.search("arms hanging|near a wall", " ".join(one.cues.set_up)) \
            or one.position is not Position.STANDING, one.id


# ------------------------------------------------------------------ r2: the front of a hip

@pytest.mark.parametrize("session", SOME)
def test_r2_neither_a_new_hip_nor_a_sore_one_is_stretched_at_its_front(session: str) -> None:
    """From where it was operated nobody knows here; after twelve weeks still not without a go-ahead."""
    plans = [compiled(session, operated(Condition.HIP_REPLACEMENT, weeks)) for weeks in (2, 20)]
    for plan in (*plans, compiled(session, diary=but(pain=sore(Region.HIP, 5)))):
        assert not any(one.stretches_hip_front for one in done(plan))


def test_r2_a_cleared_hip_may_be_and_what_does_it_is_marked() -> None:
    """By their names, all of them; and the reason has words."""
    marked = {e.id for e in library().values() if e.stretches_hip_front}
    named = {e.id for e in library().values() if e.name.startswith("Front-of-hip stretch")}
    assert marked == named | {"wall-calf-stretch", "bent-knee-calf-stretch"} and len(marked) == 6
    cleared = limits_today(operated(Condition.HIP_REPLACEMENT, 20, cleared=True), Place(), None, frozenset(), TODAY)
    assert not cleared.is_hip_front_spared and OTHER["hip_front"]


# ------------------------------------------------------------------ r3, r4: up from lying

def test_r3_no_line_has_an_arm_push_that_may_not() -> None:
    """Up from a bed, said alike to everybody; and whose arm rests is told so before the start."""
    for line in (STAGES[ChangeStage.SIT][1], STAGES[ChangeStage.UP][1]):
        assert "with a good arm" in line
    assert rest_arm("left")[0] in safety_lines(plaster("arm"), led=False)
    assert rest_arm("left")[0] in safety_lines(replace(plaster("arm"), rest_limb=""), led=False)
    assert not any("arm rests" in line for line in safety_lines(plaster("leg"), led=False))
    assert rest_leg("left")[0] in safety_lines(plaster("leg"), led=False)
    assert "Anton’s left arm rests" in " ".join(safety_lines(plaster("arm"), led=True, asked="Anton"))


def test_r4_up_from_lying_goes_over_the_side_and_up_from_the_floor_has_a_way() -> None:
    """No straight sit-up is said to anybody, nor to whoever leads them; a new hip its own line."""
    for line in (STAGES[ChangeStage.SIT][1], lead.STAGES[ChangeStage.SIT][lead.YOU_SAY]):
        assert "Roll onto your better side" in line and "Sit up" not in line
    assert "hands and knees" in UP_HOW
    assert SAFETY_HIP in safety_lines(operated(Condition.HIP_REPLACEMENT, 2), led=False)
    assert SAFETY_HIP not in safety_lines(operated(Condition.HIP_REPLACEMENT, 20, cleared=True), led=False)


# ------------------------------------------------------------------ r5, r6

@pytest.mark.parametrize("session", ["dumbbell-circuit", "three-rounds-with-weights", *SOME])
def test_r5_nobody_goes_over_to_a_bed_on_one_leg(session: str) -> None:
    """Whatever was written elsewhere is not put on a bed for whose leg rests."""
    for client in (plaster("leg"), replace(plaster("leg"), rest_limb="")):
        for swap in compiled(session, client).substitutions:
            written, other = library()[swap.written], library()[swap.to]
            assert other.position is not Position.ON_BED or written.position is Position.ON_BED, (swap.written, swap.to)


@pytest.mark.parametrize("condition", RISES_LATE)
def test_r6_nobody_who_may_fall_backwards_pushes_off_or_reaches_out_quickly(condition: Condition) -> None:
    """A brisk push off a wall ends on the heels; quick turning reaches have no hand on anything."""
    for session in ("quick-up-slow-down", "first-steps"):
        got = {one.id for one in done(compiled(session, only(condition)))}
        assert not got & {"quick-wall-push", "shadow-punch", "step-and-punch"}, session
    for exercise in ("quick-wall-push", "shadow-punch", "step-and-punch"):
        assert library()[exercise].asks(Axis.UNHELD_BALANCE) >= 1


# ------------------------------------------------------------------ what a tick promises

@pytest.mark.parametrize("condition", sorted(BESIDE_THE_TICK))
def test_r7_what_a_tick_promises_is_said_before_the_start(condition: Condition) -> None:
    """Inhaler, tablets, soles, a knock on the head, brakes and footplates; to whoever leads, by name."""
    line = BESIDE_THE_TICK[condition]
    own, led = (line, line) if isinstance(line, str) else line
    assert own in safety_lines(only(condition), led=False) and own not in safety_lines(Client(), led=False)
    assert led.format(name="Anton") in safety_lines(only(condition), led=True, asked="Anton")


# ------------------------------------------------------------------ left by the reader as less than a danger

@pytest.mark.parametrize("session", SOME)
def test_r8_with_a_walking_aid_a_chair_stand_stays_one_with_the_hands(session: str) -> None:
    """What was written without the hands is done with them, and is no slide down a wall."""
    lead_in = replace(WALKING, alone=False)
    for swap in compiled(session, lead_in).substitutions:
        written = library()[swap.written]
        if "hands-on-sit-to-stand" in {o.to for o in (*written.easier, *written.swaps)} and written.is_chair_stand:
            assert library()[swap.to].is_chair_stand, (swap.written, swap.to)


def test_r9_after_an_operation_on_the_back_no_arms_overhead_in_the_first_weeks() -> None:
    """Until six weeks, or a clinician's yes; without a day until the yes."""
    for weeks, most in ((3, 1), (None, 1), (8, 3)):
        limits = limits_today(operated(Condition.SPINAL_SURGERY, weeks), Place(), None, frozenset(), TODAY)
        assert limits.caps[Axis.OVERHEAD_SHOULDER] == most


@pytest.mark.parametrize("session", SOME)
def test_r10_who_cannot_get_up_alone_has_a_hand_on_something(session: str) -> None:
    """No balance of two free hands: after a fall they would stay down."""
    for one in done(compiled(session, only(Condition.CANNOT_RISE))):
        assert one.asks(Axis.SINGLE_LEG_BALANCE) <= 2, one.id
        assert one.asks(Axis.UNHELD_BALANCE) == 0 or one.support is Support.OPTIONAL, one.id


def test_r11_a_bow_that_is_held_tips_the_head() -> None:
    """On a seat as well as standing."""
    for one in library().values():
        text = " ".join((*one.cues.set_up, *one.cues.action))
        if re.search(r"\bBow\b", text):
            assert one.asks(Axis.HEAD_BELOW_HEART) >= 1, one.id
