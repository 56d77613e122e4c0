"""What all pages of the coach's side share: the navigation, their width, and columns beside one another."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.ui.parts import Card, Destination, Nav
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words.coach import desk as words

MEASURE = 1120
"""Widest column of a desk page, px."""
BESIDE = 40
"""Between two columns, px."""


def coach_nav(shell: Shell, chosen: str) -> Nav:
    """Desk, people, publish, settings."""
    places = tuple(Destination(key, name) for key, name in words.NAVIGATION.items())
    return Nav(places, chosen, lambda key: shell.go(f"/{key}"), shell.brand.name)


def coach_page(shell: Shell, chosen: str, body: Sequence[ft.Control]) -> ft.Control:
    """A page of the desk."""
    return shell.card().page(body, nav=coach_nav(shell, chosen), measure=MEASURE)


def room(shell: Shell) -> float:
    """Width of a page's column, px."""
    return shell.card().room(coach_nav(shell, ""), MEASURE)


def has_columns(shell: Shell) -> bool:
    """Whether two columns have room beside one another."""
    return room(shell) >= 860 * max(1.0, shell.scale / t.LARGE_PRINT)


def columns(shell: Shell, left: Sequence[ft.Control], right: Sequence[ft.Control], left_width: float) -> ft.Control:
    """Two columns where there is room, else one under the other."""
    c: Card = shell.card()
    if not has_columns(shell):
        return c.stack([*left, *right], t.GAP_L)
    return ft.Row(
        [ft.Container(c.stack(left, t.GAP_L), width=left_width), ft.Container(c.stack(right, t.GAP_L), expand=True)],
        spacing=BESIDE, vertical_alignment=ft.CrossAxisAlignment.START,
    )
