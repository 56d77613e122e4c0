"""How the body is placed for an exercise, and the steps from one way to the next, each with its time and its source.

After lying, pressure falls most in the first 15 s of standing: a sit and a stand with a hand on something come first.
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from app.domain.dosing.conditions import rules_of
from app.domain.model.client import Client, Condition
from app.domain.model.exercise import Exercise, Position
from app.domain.model.kit import CHAIR
from app.domain.model.limbs import rests_leg
from app.domain.model.plan import ChangeStage

#: Getting down to the floor or up takes 4.1 ± 1.1 s; nobody is hurried. [P] Source: BOHANNON_LUSARDI_2004.
FLOOR_CHANGE_S, SLOW_FLOOR_CHANGE_S = 20, 30
#: From a seat to a stand, and from hands and knees to kneeling: some 3 s, and nobody is hurried. [P]
STAND_UP_S = 5
#: From a chair to a bed or back: a few steps, with whatever one walks with. [P]
CROSS_S = 15
#: From lying to sitting: over the side, with the arms; on the floor from lying to the knees the same. [P]
SIT_UP_S = 10
#: Lying down on a bed, over a sit on its edge. [P]
LIE_DOWN_S = 10
#: Sitting still after lying: 29 % of people over 65 have an early drop of pressure on standing. Source: TRAN_2021.
#: How long is practice: 30 s for everybody, the longer for `SLOW_TO_RISE`. [P]
SIT_S, LONG_SIT_S = 30, 60
#: Standing still, a hand on something: the drop is deepest in the first 15 s. Source: FREEMAN_2011. The longer is [P].
STAND_S, LONG_STAND_S = 15, 30
#: Conditions, by id, with which pressure or balance is late after lying. One that this version lacks is no fault.
SLOW_TO_RISE = frozenset({
    "falls", "high_blood_pressure", "postural_dizziness", "beta_blocker", "vertigo", "parkinsons"})

#: From a seat to where one stands they need the time of a few steps.
UNSTEADY = frozenset({Condition.WALKING_AID, Condition.FALLS})


class Posture(StrEnum):
    """How the body is placed, as far as a change takes time."""

    STANDING = "standing"
    SEATED = "seated"
    KNEELING = "kneeling"
    HANDS_KNEES = "hands_knees"
    LYING = "lying"
    """On the floor."""
    IN_BED = "in_bed"
    """Lying on a bed."""
    BED_EDGE = "bed_edge"
    """Sitting on it: from there to a chair one stands up and walks over."""


_BY_POSITION = {
    Position.STANDING: Posture.STANDING, Position.SEATED: Posture.SEATED, Position.KNEELING: Posture.KNEELING,
    Position.QUADRUPED: Posture.HANDS_KNEES, Position.SUPINE: Posture.LYING, Position.PRONE: Posture.LYING,
    Position.SIDE_LYING: Posture.LYING,
}
ON_FLOOR = frozenset({Posture.KNEELING, Posture.HANDS_KNEES, Posture.LYING})
LYING = frozenset({Posture.LYING, Posture.IN_BED})
ON_BED = frozenset({Posture.IN_BED, Posture.BED_EDGE})


def posture_of(exercise: Exercise | None) -> Posture:
    """The posture that an exercise takes; standing where there is none. On a bed one lies where it is so rated."""
    if exercise is None:
        return Posture.STANDING
    if exercise.position is not Position.ON_BED:
        return _BY_POSITION[exercise.position]
    return Posture.IN_BED if exercise.lies else Posture.BED_EDGE


def depth(exercise: Exercise) -> int:
    """How far down it is done: 0 sitting or standing, 1 lying on a bed, 2 on the floor."""
    posture = posture_of(exercise)
    return 2 if posture in ON_FLOOR else int(posture is Posture.IN_BED)


def gets_lower(exercise: Exercise, written: Exercise) -> bool:
    """Whether one would get down further for it than for what was written."""
    return depth(exercise) > depth(written)


def goes_over(exercise: Exercise, written: Exercise, kit: frozenset[str]) -> bool:
    """Whether one would go over to the edge of a bed for what is not done on one, with a chair at hand."""
    return CHAIR in kit and exercise.position is Position.ON_BED and written.position is not Position.ON_BED \
        and not depth(written)


# ------------------------------------------------------------------ from one to the next

@dataclass(frozen=True)
class PositionChange:
    """One step of a change. `to_floor`: down to the floor (True), up from it (False), or neither (None)."""

    seconds: int
    stage: ChangeStage | None = None
    to_floor: bool | None = None


def changes_between(before: Exercise | None, after: Exercise | None, client: Client) -> tuple[PositionChange, ...]:
    """The steps from one exercise to the next, in order; none where one stays as one is. None stands for standing."""
    was, now = posture_of(before), posture_of(after)
    if was is now or before is after:
        return ()
    loaded = any(e is not None and e.loaded for e in (before, after))
    floor_s = SLOW_FLOOR_CHANGE_S if loaded or is_slow_to_rise(client) or not client.rises_unaided else FLOOR_CHANGE_S
    if was in ON_FLOOR and now in ON_FLOOR:
        return _on_the_floor(was, now)
    return (*_up(was, now, client, floor_s), *_down(now, floor_s))


def changes_at_the_end(last: Exercise, client: Client) -> tuple[PositionChange, ...]:
    """Up from what was done last. Whose leg rests ends sitting on the bed: nobody stands up on the other one."""
    steps = changes_between(last, None, client)
    return tuple(s for s in steps if s.stage is ChangeStage.SIT) if rests_leg(client) else steps


def is_slow_to_rise(client: Client) -> bool:
    """Whether somebody needs longer before they stand after lying."""
    return any(condition.value in SLOW_TO_RISE for condition in client.conditions)


def _on_the_floor(was: Posture, now: Posture) -> tuple[PositionChange, ...]:
    """Rises alone take time of their own; lying down from the knees is part of the set-up."""
    if now is Posture.LYING or (was, now) == (Posture.KNEELING, Posture.HANDS_KNEES):
        return ()
    return (PositionChange(SIT_UP_S if was is Posture.LYING else STAND_UP_S, ChangeStage.TURN),)


def _up(was: Posture, now: Posture, client: Client, floor_s: int) -> Iterator[PositionChange]:
    """Up from where one is: to a seat or a stand; nothing from a stand, or from a seat to lower down."""
    slow = is_slow_to_rise(client)
    if was in LYING:
        yield PositionChange(SIT_UP_S + (LONG_SIT_S if slow else SIT_S), ChangeStage.SIT)
    if was in ON_FLOOR:
        yield PositionChange(floor_s, to_floor=False)
    over = (was in ON_BED and now is Posture.SEATED) or (was is Posture.SEATED and now in ON_BED)
    stands = now is Posture.STANDING or (now in ON_FLOOR and was is Posture.IN_BED) or over
    seat = was in (Posture.SEATED, Posture.BED_EDGE)
    if (seat or was is Posture.IN_BED) and stands:
        far = over or (seat and any(condition in client.conditions for condition in UNSTEADY))
        yield PositionChange(STAND_UP_S + far * CROSS_S, ChangeStage.RISE if seat else ChangeStage.UP)
    if was in LYING and stands:
        yield PositionChange(LONG_STAND_S if slow else STAND_S, ChangeStage.STAND)
    elif seat and stands and any(rule.is_slow_up for rule in rules_of(client)):
        yield PositionChange(STAND_S, ChangeStage.STAND)


def _down(now: Posture, floor_s: int) -> Iterator[PositionChange]:
    if now in ON_FLOOR:
        yield PositionChange(floor_s, to_floor=True)
    if now is Posture.IN_BED:
        yield PositionChange(LIE_DOWN_S, ChangeStage.LIE)
