"""Who stands by the welcome: a figure with each of its bodies."""
from __future__ import annotations

import asyncio

import flet as ft

from app.domain.model.figure_body import FigureBody
from app.ui.parts import theme as t
from app.ui.parts.figure import Facing, stills
from app.ui.shell.shell import Shell

HIGH = 108
"""Of a figure, px."""
AFTER_S = 0.1
"""Until it is drawn: what is read and pressed stands first."""


@ft.component
def GreetingRow(shell: Shell) -> ft.Control:
    """Its room is there from the beginning, so that nothing jumps."""
    drawn, draw = ft.use_state(tuple[str, ...]())

    async def come() -> None:
        await asyncio.sleep(AFTER_S)
        from app.domain.figure.drawing.dressed import dressed
        from app.domain.figure.greeting import greeting

        draw(tuple(stills(dressed(greeting(), body), shell.palette, Facing.AS_DRAWN)[0] for body in FigureBody))

    ft.use_effect(come, dependencies=[shell.palette])
    images: list[ft.Control] = [
        ft.Image(src=one, width=HIGH, height=HIGH, fit=ft.BoxFit.CONTAIN, exclude_from_semantics=True) for one in drawn]
    return ft.Container(ft.Row(images, spacing=t.GAP_S), height=HIGH)
