"""The coach's own app: brand and shell chosen once, then a folder made at a press."""
from __future__ import annotations

import asyncio
from pathlib import Path

import flet as ft

from app.actions.desk import brand_apps
from app.actions.desk.brand_apps import OwnBrand
from app.domain.errors import AppError
from app.ui.parts import Look, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words import brand as words
from app.words.errors import error_text


@ft.component
def AppPanel(shell: Shell) -> ft.Control:
    """A button for the files, and one for each brand."""
    c = shell.card()
    told, tell = ft.use_state("")
    frame = brand_apps.shell_file(shell.store)

    async def take(_: object) -> None:
        picked = await shell.device.files.pick_files()
        if not picked:
            return
        try:
            brand = brand_apps.take_files(shell.store, picked)
        except AppError as error:
            tell(error_text(error))
            return
        tell(words.brand_here(brand.name) if brand else words.SHELL_HERE)

    async def make(own: OwnBrand, frame: Path) -> None:
        tell(words.MAKING)
        await asyncio.sleep(0.1)  # so that it is read before the work begins
        try:
            made = brand_apps.make_own(shell.store, own.path, frame)
        except AppError as error:
            tell(error_text(error))
            return
        tell(words.app_made(own.name, str(made.folder), made.size))

    pieces: list[ft.Control] = [
        c.head(words.APP_HEAD), c.soft(words.APP_WHY),
        c.side_by_side([c.small_button(words.TAKE_FILES, safe(shell, take), icon=ft.Icons.FOLDER_OPEN_SHARP)]),
    ]
    brands = brand_apps.own_brands(shell.store)
    pieces += [c.note(words.NO_SHELL)] if brands and frame is None else []
    for own in brands if frame else ():
        press = safe(shell, bind(make, own, frame))
        pieces.append(c.side_by_side([c.button(f"{words.MAKE_APP}: {own.name}", press, look=Look.SOLID)]))
    pieces += [c.notice(told, icon=ft.Icons.INFO_SHARP)] if told else []
    return c.stack(pieces, t.GAP_S)
