"""How large the person reads: measured from a line of words, since Flet does not tell."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

#: A child of a Stack is never told its size; one in a Column's Row is, and is free to be as large as it likes.
_SIZE = 50


def probe(on_scale: Callable[[float], Any]) -> ft.Control:
    """An unseen line that calls `on_scale(1.0–3.0)` once laid out and whenever the person's text size changes.

    Put one into the root of the app, above or below the page, outside anything that scrolls.
    """
    def measured(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if event.height:
            on_scale(min(3.0, max(1.0, round(event.height / _SIZE, 2))))

    line = ft.Text("0", style=ft.TextStyle(size=_SIZE, height=1.0, font_family="Roboto"))
    free = ft.Column([ft.Row([ft.Container(line, on_size_change=measured)])], width=1, height=1, opacity=0)
    return ft.Semantics(content=free, exclude_semantics=True)
