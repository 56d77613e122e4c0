"""Every figure that is shipped passes every check, as solved and as exported, and every exercise has one."""
from __future__ import annotations

import math

import pytest

from app.domain.figure.checking.figure_checks import failed
from app.domain.figure.checking.figure_finding import moments
from app.domain.figure.drawing.keyframes import FRAMES_S
from app.domain.figure.drawing.lottie import lottie
from app.domain.figure.drawing.lottie_reader import ExportedFigure
from app.domain.figure.rig.figure_data import Repeat
from app.domain.model.exercise import Sides
from app.words.moving_figures import findings_line
from tests.domain.figures import failed_export, motion_of, shipped_tables
from tests.domain.shipped import library

FIGURES = tuple(shipped_tables())
PLAYBACK_H = 0.6
"""How far a bone may be from where it was solved, %H. Quick feet of walks come near it; most figures stay below 0.2."""


@pytest.mark.whole(keep=24)
@pytest.mark.parametrize("figure", FIGURES)
def test_a_shipped_figure_passes_every_check_as_solved(figure: str) -> None:
    """At every frame of its round."""
    found = failed(motion_of(shipped_tables()[figure]))
    assert not found, findings_line(found)


@pytest.mark.whole(keep=12)
@pytest.mark.parametrize("figure", FIGURES)
def test_a_shipped_figure_passes_every_check_as_exported(figure: str) -> None:
    """Where the file puts each bone, which is where it was solved, to within what nobody sees."""
    motion = motion_of(shipped_tables()[figure])
    text = lottie(motion)
    found = failed_export(motion, text)
    assert not found, findings_line(found)
    solved = moments(motion, 30)
    shown = ExportedFigure(text).states(motion, solved)
    off = max(math.dist(a.places[bone], b.places[bone])
              for (_, a), (_, b) in zip(solved, shown, strict=True) for bone in a.places)
    assert off < PLAYBACK_H, f"{off:.2f} %H at {FRAMES_S} frames a second"


def test_every_exercise_has_a_figure() -> None:
    """Of its own id, or the one that it names; and no figure belongs to nothing."""
    named = {exercise.figure or exercise.id for exercise in library().values()}
    assert named <= set(FIGURES)
    assert set(FIGURES) <= named | {e.id for e in library().values()}


def test_one_sided_exercises_can_be_shown_on_both_sides() -> None:
    """Turned round, or both in one round; where a picture may not be turned, it shows both by itself."""
    for exercise in library().values():
        motion = motion_of(shipped_tables()[exercise.figure or exercise.id])
        if exercise.sides is Sides.EACH:
            assert motion.figure.mirrors or motion.figure.repeat is Repeat.ALTERNATE, exercise.id
