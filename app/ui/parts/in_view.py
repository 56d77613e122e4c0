"""Bringing the question that was just opened into view."""
from __future__ import annotations

import asyncio
from typing import Any

import flet as ft

from app.device.window import answer_of
from app.ui.parts.body_list import ASKED

DEPTH = 4
"""The page, its landmark, that one's column, and what scrolls in it."""
LAID_OUT_S = 0.12
"""Until what was just opened has its place on the page."""


def scrolled(page: ft.Control) -> ft.Column | None:
    """The part of a drawn page that scrolls."""
    for _ in range(DEPTH):
        if isinstance(page, ft.Column) and page.scroll:
            return page
        inside = page.content if isinstance(page, ft.Semantics) else None
        inside = page.controls[0] if isinstance(page, ft.Column) and page.controls else inside
        if inside is None:
            return None
        page = inside
    return None


async def bring_into_view(held: Any) -> None:
    """Scrolls to the question; a page that has gone meanwhile is left alone."""
    await asyncio.sleep(LAID_OUT_S)
    if held.current is None:
        return
    column = held.current
    await answer_of(lambda: column.scroll_to(scroll_key=ASKED, duration=200))
