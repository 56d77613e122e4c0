"""What counts as holding on: a hand on something that does not give way."""
from __future__ import annotations

from app.domain.model.exercise import CLEAR, Axis, Exercise, Limb, Support
from app.domain.model.limbs import leans_of, leaves_a_hand

#: What somebody holds on to where they stand; a wall takes both hands, a worktop or a chair's back as well.
STEADY = frozenset({"wall", "worktop"})
#: What a hand can close on, or press down on. A flat wall gives nothing to somebody whose legs give way.
GRASPED = frozenset({"worktop", "chair"})


def may_hold(exercise: Exercise) -> bool:
    """Whether its words leave it open to hold on, and it leaves a hand for that."""
    return exercise.support is Support.OPTIONAL and leaves_a_hand(exercise)


def is_held_throughout(exercise: Exercise) -> bool:
    """Whether somebody can hold on throughout: it says so, it may be, or the hands are on a wall or a worktop.

    Where one leg carries, what may be held is something to grasp.
    """
    # hands that slide up a wall hold nothing
    on_it = bool(STEADY & set(exercise.equipment)) and not leaves_a_hand(exercise) \
        and exercise.asks(Axis.OVERHEAD_SHOULDER) < CLEAR
    firm = exercise.asks(Axis.SINGLE_LEG_BALANCE) < CLEAR or bool(GRASPED & set(exercise.equipment))
    return ((exercise.support is Support.REQUIRED or may_hold(exercise)) and firm) or on_it


def hands_help(exercise: Exercise) -> bool:
    """Whether a hand carries or holds on while somebody stands up from a seat."""
    return bool({Limb.ARM, Limb.OTHER_ARM} & leans_of(exercise)) or exercise.support is Support.REQUIRED
