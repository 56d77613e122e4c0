"""Somebody who leads an older relative: where they stand and what they hold, from what an exercise asks of the body.

Conventions of working beside somebody unsteady, not medical advice: near, on the open side, never pulling at an
arm. [P]
"""
from __future__ import annotations

from enum import StrEnum

from app.domain.model.exercise import Axis, Exercise, Position, Support

UNSTEADY = 1
"""From this demand on balance on, a hand is kept ready."""
CHAIR = "chair"


class HelperStand(StrEnum):
    """Where who leads stands."""

    OPEN_SIDE = "open_side"
    """Beside them, away from what they hold on to."""
    ARMS_LENGTH = "arms_length"
    """Beside and half a step behind, within arm's reach."""
    IN_FRONT = "in_front"
    """Before the chair, to one side, in sight."""
    BESIDE_CHAIR = "beside_chair"
    """At the side of the chair that they get up from."""
    AT_SHOULDER = "at_shoulder"
    """On the floor at their shoulder."""
    BED_EDGE = "bed_edge"
    """At the edge of the bed, so that they cannot roll out."""


class HelperHold(StrEnum):
    """What who leads holds."""

    CHAIR_STILL = "chair_still"
    """The chair, so that it does not slide."""
    HAND_READY = "hand_ready"
    """A hand open near the waist, without touching."""
    GIVES_WEIGHT = "gives_weight"
    """The weight, until they are in position, and again before they get up."""
    NOTHING = "nothing"


def stand_for(exercise: Exercise) -> HelperStand:
    """Where to stand for it."""
    if exercise.position is Position.ON_BED:
        return HelperStand.BED_EDGE
    if exercise.on_floor:
        return HelperStand.AT_SHOULDER
    if exercise.position is Position.SEATED:
        return HelperStand.BESIDE_CHAIR if exercise.asks(Axis.DEEP_KNEE_FLEXION) >= 1 else HelperStand.IN_FRONT
    held = exercise.support is not Support.NONE or "wall" in exercise.equipment or "worktop" in exercise.equipment
    return HelperStand.OPEN_SIDE if held else HelperStand.ARMS_LENGTH


def holds_for(exercise: Exercise) -> tuple[HelperHold, ...]:
    """What to hold for it; one thing at least."""
    unsteady = exercise.asks(Axis.SINGLE_LEG_BALANCE) >= UNSTEADY or stand_for(exercise) is HelperStand.ARMS_LENGTH
    found = [(CHAIR in exercise.equipment, HelperHold.CHAIR_STILL), (exercise.loaded, HelperHold.GIVES_WEIGHT),
             (unsteady and not exercise.on_floor, HelperHold.HAND_READY)]
    return tuple(hold for applies, hold in found if applies) or (HelperHold.NOTHING,)
