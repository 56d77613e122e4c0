"""What a third fresh reader of compiled sessions found, each as a rule for its kind.

The people of it are told in `tests/findings.md`, "A third reader".
"""
from __future__ import annotations

import re
from dataclasses import replace

import pytest

from app.domain.compile.posture import changes_between
from app.domain.compile.substitution import against_side
from app.domain.dosing.limits import limits_today
from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Fall, Last
from app.domain.model.exercise import Axis, Limb, Position
from app.domain.model.kit import CHAIR
from app.domain.model.level import Level
from app.domain.model.limbs import leans_of, loads_of, takes_both_arms
from app.domain.model.plan import ChangeStage
from app.domain.model.rules import RuleId
from app.words.client.safety import SAFETY_BRAKES, SAFETY_FALLS, SUPPORT, look_lines, safety_lines
from app.words.demands import OTHER
from app.words.reasons import reason_text
from tests.domain.dosing.test_dose import but, dose
from tests.domain.shipped import SOME, TODAY, WELL, compiled, library
from tests.test_fresh_reading import done, only, operated

HELD = (Condition.FALLS, Condition.VERTIGO, Condition.PARKINSONS, Condition.NEUROPATHY, Condition.WALKING_AID,
        Condition.POSTURAL_DIZZINESS, Condition.BLOOD_THINNER, Condition.EPILEPSY)
PLASTER = Client(rest_side="right", rest_limb="leg", rest_side_because="plaster")


# ------------------------------------------------------------------ from a chair to a bed

@pytest.mark.parametrize("session", SOME)
@pytest.mark.parametrize("client", [only(Condition.FALLS), only(Condition.PARKINSONS), PLASTER],
                         ids=["falls", "parkinsons", "plaster"])
def test_t1_with_a_chair_at_hand_nobody_goes_over_to_the_bed(session: str, client: Client) -> None:
    """Neither for what a chair does nor for what is done standing."""
    got = compiled(session, replace(client, kit=frozenset({CHAIR, "worktop"})))
    for swap in got.substitutions:
        written, other = library()[swap.written], library()[swap.to]
        if written.position in (Position.STANDING, Position.SEATED):
            assert other.position is not Position.ON_BED, (swap.written, swap.to)


def test_t1_from_a_bed_to_a_chair_one_stands_up_walks_over_and_is_not_hurried() -> None:
    """After lying a stand with a hand on something comes first; and the same the other way."""
    edge = next(e for e in library().values() if e.position is Position.ON_BED and not e.lies)
    flat = next(e for e in library().values() if e.position is Position.ON_BED and e.lies)
    chair = library()["seated-march"]
    told = {(a.id, b.id): [(c.stage, c.seconds) for c in changes_between(a, b, Client())]
            for a, b in ((edge, chair), (chair, edge), (flat, chair), (chair, flat), (flat, edge))}
    assert told[edge.id, chair.id] == told[chair.id, edge.id] == [(ChangeStage.RISE, 20)]
    assert [stage for stage, _ in told[flat.id, chair.id]] == [ChangeStage.SIT, ChangeStage.UP, ChangeStage.STAND]
    assert [stage for stage, _ in told[chair.id, flat.id]] == [ChangeStage.RISE, ChangeStage.LIE]
    assert [stage for stage, _ in told[flat.id, edge.id]] == [ChangeStage.SIT]


def test_t2_on_the_edge_of_a_bed_a_hand_stays_on_it_while_one_shifts() -> None:
    """It has no arms and no back to fall against."""
    assert "One hand on the bed" in " ".join(library()["steady-sit-on-bed"].cues.action)


# ------------------------------------------------------------------ standing up

@pytest.mark.parametrize("session", SOME)
@pytest.mark.parametrize("condition", [Condition.POSTURAL_DIZZINESS, Condition.PARKINSONS, Condition.VERTIGO])
def test_t3_nobody_who_gets_dizzy_or_rises_late_is_told_to_stand_up_briskly(condition: Condition, session: str) -> None:
    """By the mark."""
    assert not any(e.rises_briskly for e in done(compiled(session, only(condition))))


def test_t3_what_says_to_stand_up_briskly_is_marked_and_the_reason_has_words() -> None:
    """And nothing else."""
    brisk = "(stand up|toes|heels up|step forward) (briskly|quickly)|stand up and .*briskly"
    told = {e.id for e in library().values() if re.search(brisk,
                                                        " ".join((e.name, *e.cues.action)).casefold())}
    assert told == {e.id for e in library().values() if e.rises_briskly} and len(told) == 5
    assert OTHER["brisk"] and OTHER["hands_free"]


@pytest.mark.parametrize("session", SOME)
def test_t5_with_a_walking_aid_the_hands_help_up(session: str) -> None:
    """From a chair, raised or not, and from the stand."""
    for one in done(compiled(session, only(Condition.WALKING_AID))):
        if one.is_chair_stand:
            assert {Limb.ARM, Limb.OTHER_ARM} & leans_of(one), one.id


@pytest.mark.parametrize("condition", HELD)
def test_t4_who_holds_on_is_told_so_before_the_start(condition: Condition) -> None:
    """Among what to see to, and what to look at in the room."""
    assert SAFETY_FALLS in safety_lines(only(condition), led=False)
    assert SUPPORT[0] in look_lines(only(condition), ())
    assert SAFETY_FALLS not in safety_lines(only(Condition.HERNIA), led=False)


def test_t4_what_is_done_on_one_leg_or_with_steps_away_from_a_worktop_names_the_hand() -> None:
    """Wherever a hand may stay, its words put it on something."""
    for one in library().values():
        if one.support == "optional" and one.asks(Axis.UNHELD_BALANCE) >= 2:
            said = " ".join((*one.cues.set_up, *one.cues.safety)).casefold()
            assert re.search("hand on|hand above|hand over|hand glides|fingertips on|hand stays", said), one.id


# ------------------------------------------------------------------ what asks for a look

@pytest.mark.parametrize("level", [5, 6, 7])
def test_t6_much_pain_after_a_fall_in_thin_bones_or_where_one_was_operated_on_wants_a_look(level: int) -> None:
    """From 6 on; 5 that is not new only eases; an answer is asked for first, and nothing is called a break."""
    hip, back = Spot(Region.HIP, "left"), Spot(Region.BACK)
    fell = but(pain={Spot(Region.KNEE, "left"): level}, fall=Fall(days_ago=3, hurt=False))
    before = Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=level, pain_at={back: level})
    new = operated(Condition.HIP_REPLACEMENT, 3)
    as_before = replace(WELL, pain={back: level}, last=before)
    for client, diary in ((Client(), fell), (only(Condition.OSTEOPOROSIS), as_before), (new, but(pain={hip: level}))):
        got = dose(diary, client)
        assert (got.level >= Level.ASK_FIRST) == (level >= 6), (client, level)
        told = [reason_text(reason) for reason in got.reasons if reason.rule is RuleId.PAIN]
        assert any("look at that before any training" in said for said in told) == (level >= 6), told
    for client in (Client(), operated(Condition.HIP_REPLACEMENT, 20, cleared=True)):
        assert dose(but(pain={hip: level}), client).level < Level.ASK_FIRST


# ------------------------------------------------------------------ limbs, hips, seats

def test_t7_what_moves_the_legs_names_them() -> None:
    """So that a plaster keeps it away; what leaves them in peace stays."""
    for name in ("seated-knees-rest-on-bed", "seated-hip-rest"):
        assert Limb.LEG in loads_of(library()[name]) and against_side(library()[name], PLASTER)
    assert not against_side(library()["sit-tall"], PLASTER)


def test_t8_nobody_leans_their_elbows_on_their_thighs() -> None:
    """That bends hips and back further than it is rated."""
    for one in library().values():
        said = " ".join((*one.cues.set_up, *one.cues.action)).casefold()
        assert not re.search("(elbows?|forearms?) on your (thighs|knees)", said), one.id


@pytest.mark.parametrize("session", SOME)
def test_t9_in_a_wheelchair_nobody_arches_over_its_back(session: str) -> None:
    """And the brakes are on before the start."""
    client = only(Condition.WHEELCHAIR)
    assert not any(e.asks(Axis.SPINAL_EXTENSION) > 1 for e in done(compiled(session, client)))
    assert SAFETY_BRAKES in safety_lines(client, led=False)
    assert SAFETY_BRAKES not in safety_lines(Client(), led=False)


def test_t10_folded_arms_take_both_arms() -> None:
    """A shoulder in its first weeks is not folded across the chest."""
    folded = [e for e in library().values()
              if re.search("arms folded|fold your arms on", " ".join(e.cues.set_up).casefold())]
    assert len(folded) == 3 and all(map(takes_both_arms, folded))
    for weeks in (3, None):
        limits = limits_today(operated(Condition.SHOULDER_REPLACEMENT, weeks), Place(), None, frozenset({CHAIR}), TODAY)
        assert all("both_arms" in limits.against(one) for one in folded)
