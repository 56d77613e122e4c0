"""The player standing at one moment, for measuring: python -m tests.browser.still_player DATA_DIR --port N

Prints its address; each moment of `still_moments.py` has its own: `/work/light`. A mark says what is drawn, so that
nobody measures the page before.
"""
from __future__ import annotations

import sys
from pathlib import Path

import flet as ft

from app.actions.people import current_person
from app.actions.training.today import today
from app.device.clock import SystemClock
from app.device.recording import RecordingDevice
from app.resources import resource_dir
from app.serving.server import serve
from app.storage.database import open_store
from app.ui.client.player.live_session import EasierTaken, Live
from app.ui.client.player.session_view import player_page
from app.ui.client.player.watched_session import pictured_in
from app.ui.parts import probe
from app.ui.parts import theme as t
from app.ui.shell.moving_figures import MotionComfort
from app.ui.shell.shell import Shell, Tools
from tests.browser.still_moments import MOMENTS, moment

STORE, CLOCK = open_store(Path(sys.argv[1])), SystemClock()


def live_at(shell: Shell, name: str) -> Live:
    """A session that stands there; its buttons do what they always do, to a session that is not kept."""
    person = current_person(STORE)
    assert person
    live = Live(shell, lambda: None)
    live.playing = moment(name, today(STORE, CLOCK, person.id))
    live.pictured, live.motion = pictured_in(live.playing.state), MotionComfort.FREE
    option = live.playing.easier()
    if MOMENTS[name].eased and option:
        live.eased = EasierTaken(live.playing.library[live.playing.state.step.exercise or ""], option)
    return live


@ft.component
def Still() -> ft.Control:
    """The moment that the address names."""
    page = ft.context.page
    size, set_size = ft.use_state((page.width or 412.0, page.height or 915.0))
    scale, set_scale = ft.use_state(1.0)
    route, set_route = ft.use_state(page.route or "/")

    def follow() -> None:
        page.on_resize = lambda e: set_size((e.width, e.height))
        page.on_route_change = lambda e: set_route(e.route)

    ft.use_effect(follow, dependencies=[])
    name, theme = ([one for one in route.split("?")[0].split("/") if one] + ["work", "light"])[:2]
    palette = t.DARK if theme == "dark" else t.LIGHT
    tools = Tools(STORE, RecordingDevice(), CLOCK, page)  # type: ignore[arg-type]
    shell = Shell(tools, size[0], size[1], scale, palette, 0, lambda: None, lambda _: None)
    told = f"drawn {name} {theme} {size[0]:.0f}x{size[1]:.0f} {scale:.1f}"
    mark = ft.Semantics(content=ft.Container(width=2, height=2), container=True, label=told)
    # another key, since the client's tree keeps a node's old scale where its size stays the same
    paper = ft.Container(player_page(shell, live_at(shell, name)), bgcolor=palette.paper, expand=True, key=told)
    return ft.Stack([probe(set_scale), paper, ft.Container(mark, right=0, bottom=0)], expand=True)


async def main(page: ft.Page) -> None:
    """One page."""
    page.theme, page.dark_theme = t.flet_theme(t.LIGHT), t.flet_theme(t.DARK)  # type: ignore[assignment]
    page.padding = 0
    page.update()
    page.render(Still)


if __name__ == "__main__":
    serve(main, data_dir=Path(sys.argv[1]), assets_dir=resource_dir("assets"), port=int(sys.argv[3]),
          on_ready=lambda address: print(address, flush=True), name="")
