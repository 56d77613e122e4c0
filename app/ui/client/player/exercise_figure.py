"""Where a moving figure stands in the player. Nothing stands there for an exercise without one."""
from __future__ import annotations

import flet as ft

from app.domain.model.exercise import Exercise
from app.domain.player.player_state import Status
from app.ui.client.player.live_session import Live
from app.ui.client.player.watched_session import Pictured, pictured_in
from app.ui.shell.moving_figures import Play, moving_figure

LEAST = 60
"""Smaller than this a figure tells nothing, px."""


def main_figure(live: Live, width: float, height: float) -> list[ft.Control]:
    """The exercise under way or coming, moving while the session runs; at most so wide and so high, px."""
    at, exercise, side = _pictured(live)
    found = live.now.library.get(exercise)
    if found is None or min(width, height) < LEAST:
        return []
    drawn = moving_figure(live.shell, live.now.pack, found, width=width, height=height, play=_play(live),
                          motion=live.motion, side=side, key=str(at))
    return [drawn] if drawn else []


def easier_figure(live: Live, option: Exercise, size: float) -> ft.Control | None:
    """The easier option, for its card; none while the page still shows the figure of another exercise."""
    at, exercise, side = _pictured(live)
    if exercise != pictured_in(live.now.state).exercise:
        return None
    return moving_figure(live.shell, live.now.pack, option, width=size, height=size, play=_play(live),
                         motion=live.motion, side=side, key=f"easier {at}")


def _pictured(live: Live) -> Pictured:
    """What stands there, unless that was no exercise's."""
    stood = live.pictured
    return stood if stood and stood.exercise in live.now.library else pictured_in(live.now.state)


def _play(live: Live) -> Play:
    return Play.RUNS if live.status is Status.RUNNING and not live.hushed else Play.STANDS
