"""The moving figure of an exercise for a screen: looked up, turned to its side, set to its tempo, calm where asked."""
from __future__ import annotations

from enum import Enum

import flet as ft

from app.actions.files.figure_body import figure_of
from app.actions.files.pack_media import photo_of
from app.device.window import answer_of, is_gone
from app.domain.figure.drawing.picture import Picture
from app.domain.model.exercise import Exercise, Mode, Sides
from app.domain.model.figure_body import FigureBody
from app.domain.model.plan import StepSide
from app.ui.parts import figure as part
from app.ui.parts.figure import Facing, Play
from app.ui.shell.shell import Shell
from app.words import moving_figures

__all__ = ["MotionComfort", "Play", "moving_figure", "still_figure", "wanted_motion"]


class MotionComfort(Enum):
    """What is known of whether somebody bears motion."""

    UNKNOWN = "unknown"
    FREE = "free"
    CALM = "calm"


async def wanted_motion() -> MotionComfort:
    """What the machine says; one that cannot be asked has nothing against it, and of one that has gone nobody knows."""
    features = None if is_gone() else await answer_of(ft.SemanticsService().get_accessibility_features)
    if features is None:
        return MotionComfort.UNKNOWN if is_gone() else MotionComfort.FREE
    return MotionComfort.CALM if features.disable_animations or features.reduce_motion else MotionComfort.FREE


def moving_figure(
    shell: Shell, pack: str, exercise: Exercise, *, width: float, height: float, play: Play, motion: MotionComfort,
    side: StepSide | None = None, key: str = "",
) -> ft.Control | None:
    """The figure of an exercise, as large as its room allows; stills for who wants no motion. None where there is none.

    Args:
        shell: the screen's surroundings.
        pack: SHA-256 of the pack that the exercise comes from.
        exercise: what it shows; its tempo is kept.
        width: of the room, px.
        height: of the room, px.
        play: whether it moves or holds its frame.
        motion: until it is known whether motion is borne, the figure stands at its beginning.
        side: which side works now; the figure is turned round for the left one.
        key: changes where it is to begin anew.
    """
    picture = figure_of(shell.store, pack, exercise)
    size = min(width, height)
    if picture is None:
        return _photo(shell, pack, exercise, size)
    label = shell.said(moving_figures.figure_label(exercise.name, picture))
    turned = facing(picture, exercise, side)
    if motion is MotionComfort.CALM:
        return part.stills_in(picture, shell.palette, turned, width, height, label)
    rep_ms = exercise.rep_ms if exercise.mode is Mode.REPS else 0
    return part.moving(picture, shell.palette, turned, size, label, rep_ms=rep_ms, key=f"{side} {key}",
                       play=play if motion is MotionComfort.FREE else Play.STANDS)


def still_figure(
    shell: Shell, pack: str, exercise: Exercise, *, size: float, side: StepSide | None = None,
    body: FigureBody | None = None,
) -> ft.Control | None:
    """A still for a list, `size` px square; with another `body` than the one shown here. None: there is no figure."""
    picture = figure_of(shell.store, pack, exercise, body)
    if picture is None:
        return _photo(shell, pack, exercise, size)
    label = shell.said(moving_figures.figure_label(exercise.name, picture))
    return part.still(picture, shell.palette, facing(picture, exercise, side), size, label)


def _photo(shell: Shell, pack: str, exercise: Exercise, size: float) -> ft.Control | None:
    data = photo_of(shell.store, pack, exercise)
    return None if data is None else part.photo(data, size, exercise.name)


def facing(picture: Picture, exercise: Exercise, side: StepSide | None) -> Facing:
    """Figures are drawn for the right side."""
    one_sided = exercise.sides is Sides.EACH and not picture.alternates and picture.mirrors
    return Facing.TURNED if one_sided and side is StepSide.LEFT else Facing.AS_DRAWN
