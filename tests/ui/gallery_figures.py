"""The gallery's sheet of moving figures: one that runs, one that stands, one turned round, and the stills."""
from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

import flet as ft

from app.domain.figure.build import build_figure
from app.domain.figure.drawing.picture import Picture, read_picture
from app.ui.parts import Card
from app.ui.parts.figure import Facing, Play, moving, still, stills_in
from tests.domain.figures import example

SIZE = 240
RUNS, STANDS, TURNED, STILL, PAIR = "It runs", "It stands", "It is turned round", "A still", "Start and turn"


@cache
def picture(name: str) -> Picture:
    """An example as it would come out of a pack."""
    made = build_figure(example(name), name)
    found = read_picture(name, made.moving, made.start, made.turn)
    assert found is not None
    return found


def figures(c: Card, tell: Callable[[Any], None], told: str) -> ft.Control:
    """Under one another, each with its name."""
    squat, row = picture("squat"), picture("band-row")
    drawn, turned = Facing.AS_DRAWN, Facing.TURNED
    return c.page([
        moving(squat, c.p, drawn, SIZE, RUNS, rep_ms=0, play=Play.RUNS, key="a"),
        moving(squat, c.p, drawn, SIZE, STANDS, rep_ms=0, play=Play.STANDS, key="a"),
        moving(row, c.p, turned, SIZE, TURNED, rep_ms=0, play=Play.STANDS, key="a"),
        still(row, c.p, drawn, SIZE, STILL),
        stills_in(squat, c.p, drawn, SIZE, SIZE / 2, PAIR),
    ])
