"""Which repetition of counted movements is due at their tempo."""
from __future__ import annotations

from app.domain.model.plan import Step
from app.domain.player.player_state import PlayerState


def repetition(state: PlayerState) -> int:
    """The one under way, from 1 on; 0 where nothing is counted."""
    step = state.step
    return repetition_at(step, state.at_ms) if step.is_effort and step.reps else 0


def repetition_at(step: Step, at_ms: int) -> int:
    """Of a step with repetitions, at a position within it; the last stays until the step ends."""
    reps = step.reps or 1
    into_ms = max(0, at_ms - step.start_ms)
    return min(reps, into_ms * reps // max(1, step.length_ms) + 1)
