"""What a session holds, to read before it begins: part by part, with a still picture where there is one."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

import flet as ft

from app.domain.compile.exercise_list import Listed, outline
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Step
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.shell.moving_figures import still_figure
from app.ui.shell.shell import Shell
from app.words.client import session_list as words_of

STILL = 72


def exercise_list(c: Card, shell: Shell, pack: str, steps: Sequence[Step], library: Mapping[str, Exercise],
                  pounds: bool) -> list[ft.Control]:
    """Every exercise once for each part, with its amount."""
    pieces: list[ft.Control] = []
    for part, listed in outline(steps).items():
        rows = [_row(c, shell, pack, one, library[one.exercise], pounds) for one in listed if one.exercise in library]
        pieces.append(c.stack([c.subhead(words_of.PARTS[part]), c.rows(rows, 6)], 6))
    return pieces


def _row(c: Card, shell: Shell, pack: str, one: Listed, exercise: Exercise, pounds: bool) -> ft.Control:
    words = c.stack([c.strong(exercise.name), c.soft(words_of.listed_line(one, pounds=pounds))], 0)
    words.expand = True
    picture = still_figure(shell, pack, exercise, size=STILL)
    if picture is None or c.scale > t.LARGE_PRINT:
        return ft.Row([words])
    return ft.Row([picture, words], spacing=t.GAP_S)
