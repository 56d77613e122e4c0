"""How large the person reads: measured from a line of words, since Flet does not tell."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

_SIZE = 50


def probe(on_scale: Callable[[float], Any]) -> ft.Control:
    """An unseen line that calls `on_scale(1.0–3.0)` once laid out and whenever the person's text size changes.

    Put one into the root of the app, above or below the page, outside anything that scrolls.
    """
    def measured(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if event.height:
            on_scale(min(3.0, max(1.0, round(event.height / _SIZE, 2))))

    line = ft.Text("0", style=ft.TextStyle(size=_SIZE, height=1.0, font_family="Roboto"))
    seen = ft.Container(line, on_size_change=measured, opacity=0, left=0, top=0)
    window = ft.Stack([seen], width=1, height=1, clip_behavior=ft.ClipBehavior.HARD_EDGE)
    return ft.Semantics(content=window, exclude_semantics=True)
