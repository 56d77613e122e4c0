"""Wires store, device and clock to the root component."""
from __future__ import annotations

from collections.abc import Awaitable, Callable

import flet as ft

from app.actions.senses import apply_senses
from app.device.abilities import Device
from app.device.clock import Clock
from app.storage.database import Store
from app.ui.root import Root, dress, saved_mode
from app.ui.shell import Tools

OpenDevice = Callable[[ft.Page], Device]


def build_app(store: Store, device: OpenDevice, clock: Clock) -> Callable[[ft.Page], Awaitable[None]]:
    """The app as Flet runs it. `clock` also sleeps, so a whole session can run in a second."""
    async def main(page: ft.Page) -> None:
        page.title = "Evenload"
        tools = Tools(store, device(page), clock, page)
        apply_senses(store, tools.device)
        dress(page, saved_mode(tools))
        page.update()
        page.render(Root, tools)
    return main
