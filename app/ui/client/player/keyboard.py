"""The keyboard of the player, and the remote of a presenter: space, arrows, E and H."""
from __future__ import annotations

import asyncio
from collections.abc import Callable

import flet as ft

from app.device.clock import loop_s
from app.domain.player import player as events
from app.domain.player.player_state import Status
from app.ui.client.player.live_session import Live, Panel

ECHO_S = 0.3
"""A space bar and the button that it presses arrive within this of one another."""
LISTENS = frozenset({Status.RUNNING, Status.PAUSED, Status.WAITING})


async def press_key(live: Live, event: ft.KeyboardEvent) -> None:
    """What a key does. Space waits for a moment, since a button under the focus takes it for itself."""
    task = tasks(live).get(event.key)
    if task is None or event.ctrl or event.alt or event.meta or not _listens(live):
        return
    if event.key == " ":
        await asyncio.sleep(ECHO_S / 2)
        if loop_s() - live.pressed_at < ECHO_S:
            return
    if _listens(live):
        task()


def tasks(live: Live) -> dict[str, Callable[[], None]]:
    """Each key that the player knows; a presenter's remote sends page up, page down, a full stop or B."""
    def back() -> None:
        live.do(events.WentBack())

    def skip() -> None:
        live.do(events.Skipped())

    return {
        " ": live.toggle, ".": live.toggle, "B": live.toggle, "Arrow Left": back, "Page Up": back,
        "Arrow Right": skip, "Page Down": skip, "Arrow Up": lambda: live.do(events.LongerRest()),
        "Arrow Down": lambda: live.do(events.Ready()), "E": live.ease, "H": live.stand_still,
    }


def _listens(live: Live) -> bool:
    return live.status in LISTENS and live.panel is Panel.NONE and not live.elsewhere
