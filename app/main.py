"""Wires store, device and clock to the root component."""
from __future__ import annotations

from collections.abc import Awaitable, Callable

import flet as ft

from app.actions.files.bundled import Bundled
from app.actions.output_settings import apply_senses
from app.device.abilities import Device
from app.device.clock import Clock
from app.domain.branding.brand import EVENLOAD, Brand
from app.storage.database import Store
from app.ui.root import Root, dress, saved_mode
from app.ui.routes import screen_named
from app.ui.shell.session_lead import Leading
from app.ui.shell.shell import Tools

OpenDevice = Callable[[ft.Page, str], Device]
"""The device of a page, for a program of that name."""


#: Screens that a start shows or that are next to it. The others load a compiled library, which no memory can keep.
AHEAD = ("today", "welcome", "check-in", "play")


def load_ahead() -> None:
    """Loads what a start needs and no page.

    So a browser can keep Python's memory as it then is, and a server does it while the browser is still starting.
    """
    for screen in AHEAD:
        screen_named(screen)


def build_app(
    store: Store, device: OpenDevice, clock: Clock, brand: Brand = EVENLOAD, bundled: Bundled = tuple,
) -> Callable[[ft.Page], Awaitable[None]]:
    """The app as Flet runs it. `clock` also sleeps, so a whole session can run in a second.

    `bundled`: the packs that came with the app, for a device on which everything was erased.
    """
    leading = Leading()

    async def main(page: ft.Page) -> None:
        page.title = brand.name
        tools = Tools(store, device(page, brand.name), clock, page, brand, leading, bundled)
        apply_senses(store, tools.device)
        dress(page, brand, saved_mode(tools))
        page.update()
        page.render(Root, tools)
    return main
