"""What is said while somebody gets down, up or over: shown, and spoken. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.model.plan import ChangeStage, Step

DOWN, UP = "Get down", "Get up"
DOWN_HOW = "Get down to the floor in your own time. Hold on to a chair, or something else that stands firm."
UP_HOW = "From hands and knees, hold on to something firm, put one foot forward and stand. Then one slow breath."
#: Each other part of a change of position: its word, and its line.
STAGES: Mapping[ChangeStage, tuple[str, str]] = {
    ChangeStage.SIT: ("Sit", "Roll onto your better side, knees bent, and push up with a good arm. Stay "
                              "sitting, move your feet, breathe."),
    ChangeStage.STAND: ("Stand still", "Stand and hold on to something steady. Light-headed? Sit down again."),
    ChangeStage.UP: ("Get up", "Push off the bed with a good arm and stand. Hold on to something steady."),
    ChangeStage.RISE: ("Stand up", "Stand up in your own time, with your stick or frame if you use one."),
    ChangeStage.TURN: ("Turn over", "Come up to your knees in your own time, holding on to something firm."),
    ChangeStage.LIE: ("Lie down", "Sit on the edge of the bed, then lie down in your own time."),
}


def change_words(step: Step) -> tuple[str, str]:
    """The word and the line of one part of a change of position."""
    if step.stage is not None:
        return STAGES[step.stage]
    return (UP, UP_HOW) if step.to_floor is False else (DOWN, DOWN_HOW)
