"""Which arms and legs an exercise works, which it leans on, and which of a body may take part today.

An exercise names limbs from the side that is trained: `arm` and `leg` are those of that side, `other_arm` and
`other_leg` those across. Trained with both sides at once, `arm` means both arms.
"""
from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from app.domain.model.body import Region, Spot
from app.domain.model.client import Client
from app.domain.model.exercise import Axis, Exercise, Limb, Pattern, Position, Sides
from app.domain.model.plan import StepSide

LEFT, RIGHT = StepSide.LEFT, StepSide.RIGHT
ACROSS: Mapping[StepSide, StepSide] = {LEFT: RIGHT, RIGHT: LEFT}
OTHERS = {Limb.OTHER_ARM: Limb.ARM, Limb.OTHER_LEG: Limb.LEG}
#: A limb of a body: its side, and `arm` or `leg`.
BodyLimb = tuple[StepSide, Limb]
LIMBS: tuple[BodyLimb, ...] = tuple((side, kind) for side in (LEFT, RIGHT) for kind in (Limb.ARM, Limb.LEG))

#: The limb that a region belongs to; neck and back belong to none. By name, so that a region more is no fault here.
_REGION_LIMBS: Mapping[str, Limb] = {
    **dict.fromkeys(("shoulder", "elbow", "wrist", "hand"), Limb.ARM),
    **dict.fromkeys(("hip", "thigh", "knee", "calf", "ankle", "foot"), Limb.LEG),
}
#: Demands that lie on one limb alone. Any other (turning, jarring, the floor) is felt by the body as a whole.
LOCAL_AXES = frozenset({
    Axis.WRIST_WEIGHT_BEARING, Axis.OVERHEAD_SHOULDER, Axis.SHOULDER_LOAD, Axis.ELBOW_LOAD, Axis.GRIP,
    Axis.DEEP_HIP_FLEXION, Axis.DEEP_KNEE_FLEXION, Axis.KNEELING, Axis.ANKLE_LOAD})

_ARM_AXES = (Axis.WRIST_WEIGHT_BEARING, Axis.OVERHEAD_SHOULDER, Axis.SHOULDER_LOAD, Axis.ELBOW_LOAD, Axis.GRIP)
_LEG_AXES = (Axis.DEEP_HIP_FLEXION, Axis.DEEP_KNEE_FLEXION, Axis.KNEELING, Axis.ANKLE_LOAD)
_LEG_PATTERNS = frozenset({Pattern.SQUAT, Pattern.HINGE, Pattern.LUNGE, Pattern.GAIT, Pattern.BALANCE})
_ARM_PATTERNS = frozenset({Pattern.HORIZONTAL_PUSH, Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PUSH,
                           Pattern.VERTICAL_PULL, Pattern.CARRY})


def limb_of(spot: Spot) -> BodyLimb | None:
    """The one limb that a spot lies on; None without a side, and for neck and back."""
    kind = _REGION_LIMBS.get(spot.region.value)
    return (StepSide(spot.side), kind) if kind and spot.side else None


def has_limb(region: Region) -> bool:
    """Whether a region lies on an arm or a leg."""
    return region.value in _REGION_LIMBS


def rests_arm(client: Client) -> bool:
    """Whether an arm is to rest, on its own or with its leg."""
    return bool(client.rest_side) and client.rest_limb != "leg"


def rests_leg(client: Client) -> bool:
    """Whether a leg rests, so that getting up and going over to a bed is done on the other alone."""
    return bool(client.rest_side) and client.rest_limb != "arm"


# ------------------------------------------------------------------ what an exercise says, or what must be assumed

def loads_of(exercise: Exercise) -> frozenset[Limb]:
    """The limbs it works. Where the coach says nothing: every limb that its pattern, demands or weight may work."""
    if exercise.loads is not None:
        return frozenset(exercise.loads)
    arms = exercise.loaded or exercise.pattern in _ARM_PATTERNS or any(exercise.asks(a) for a in _ARM_AXES)
    legs = exercise.pattern in _LEG_PATTERNS or any(exercise.asks(a) for a in _LEG_AXES)
    return frozenset(limb for limb, works in ((Limb.ARM, arms), (Limb.LEG, legs)) if works)


def leans_of(exercise: Exercise) -> frozenset[Limb]:
    """The limbs that carry or hold on. Where the coach says nothing: all that its position may lean on."""
    if exercise.leans_on is not None:
        return frozenset(exercise.leans_on)
    on_hands = exercise.position in (Position.QUADRUPED, Position.PRONE) or exercise.asks(Axis.WRIST_WEIGHT_BEARING)
    found = {Limb.ARM, Limb.OTHER_ARM} if on_hands else set()
    return frozenset(found | ({Limb.LEG, Limb.OTHER_LEG} if on_feet(exercise) else set()))


def on_feet(exercise: Exercise) -> bool:
    """Whether the legs carry it: standing, or getting down to the floor for it and up again."""
    return exercise.position is Position.STANDING or exercise.on_floor


def lies_on_side(exercise: Exercise) -> bool:
    """Whether it is done lying on one side: rated so, or on a bed with the arm and the leg across under the body."""
    under = {Limb.OTHER_ARM, Limb.OTHER_LEG}
    return exercise.position is Position.SIDE_LYING or (
        exercise.position is Position.ON_BED and under <= leans_of(exercise))


def takes_both_arms(exercise: Exercise) -> bool:
    """Whether both arms take part at the same time: they work, carry or hold on."""
    return _both_arms(loads_of(exercise) | leans_of(exercise), exercise)


def leaves_a_hand(exercise: Exercise) -> bool:
    """Whether one hand may hold on while it is done: not both arms work in the same bout."""
    return not _both_arms(loads_of(exercise), exercise)


def _both_arms(limbs: frozenset[Limb], exercise: Exercise) -> bool:
    return {Limb.ARM, Limb.OTHER_ARM} <= limbs or (Limb.ARM in limbs and exercise.sides is Sides.BOTH)


def _of_body(limbs: Iterable[Limb], side: StepSide) -> frozenset[BodyLimb]:
    found: set[BodyLimb] = set()
    for limb in limbs:
        kind = OTHERS.get(limb, limb)
        if side in ACROSS:
            found.add((ACROSS[side] if limb in OTHERS else side, kind))
        else:
            found |= {(LEFT, kind), (RIGHT, kind)}
    return frozenset(found)


def used(exercise: Exercise, side: StepSide) -> frozenset[BodyLimb]:
    """Every limb that takes part in a bout of that side in any way: works, carries, or holds on.

    Getting down to the floor and up again takes both arms as well as both legs. [P]
    """
    legs = {Limb.LEG, Limb.OTHER_LEG} if on_feet(exercise) else set()
    arms = {Limb.ARM, Limb.OTHER_ARM} if exercise.on_floor else set()
    return _of_body(loads_of(exercise) | leans_of(exercise) | legs | arms, side)


def idle_across(exercise: Exercise, side: StepSide) -> frozenset[BodyLimb]:
    """The limbs of the other side, of a kind that it trains on this one, that take no part in the bout at all."""
    if side not in ACROSS:
        return frozenset()
    kinds = {OTHERS.get(limb, limb) for limb in loads_of(exercise)}
    return frozenset((ACROSS[side], kind) for kind in kinds) - used(exercise, side)


def worked(exercise: Exercise, side: StepSide) -> Counter[BodyLimb]:
    """How much of a bout of that side each limb works, in halves: 2 all the time, 1 where the sides take turns."""
    turns = (LEFT, RIGHT) if side is StepSide.ALTERNATING else (side, side)
    return Counter(limb for turn in turns for limb in _of_body(loads_of(exercise), turn))


def sides_of(exercise: Exercise) -> tuple[StepSide, ...]:
    """The bouts that make one whole of it: left and right, or one of both or in turn."""
    if exercise.sides is Sides.EACH:
        return (LEFT, RIGHT)
    return (StepSide.BOTH if exercise.sides is Sides.BOTH else StepSide.ALTERNATING,)


# ------------------------------------------------------------------ a side that rests

def resting(client: Client) -> frozenset[BodyLimb]:
    """The limbs that are not to be trained nor used in any way."""
    if not client.rest_side:
        return frozenset()
    kinds = (Limb(client.rest_limb),) if client.rest_limb else (Limb.ARM, Limb.LEG)
    return frozenset((StepSide(client.rest_side), kind) for kind in kinds)


def rests(exercise: Exercise, side: StepSide, client: Client) -> bool:
    """Whether a bout of that side would use what is to rest; where a whole side rests, also what has no limb."""
    if not client.rest_side:
        return False
    whole = not client.rest_limb and (side.value == client.rest_side or side is StepSide.ALTERNATING)
    return whole or bool(used(exercise, side) & resting(client))
