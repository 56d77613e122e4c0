"""A page with one message and at most one button, for when there is no store to build a screen on."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.domain.branding.brand import Brand
from app.ui.parts import Card
from app.ui.root import dress, palette_of


def show_notice(page: ft.Page, brand: Brand, title: str, words: str) -> None:
    """Puts the message in the page's place."""
    _put(page, brand, title, words)


def show_choice(page: ft.Page, brand: Brand, title: str, words: str, label: str, act: Callable[[], str]) -> None:
    """The same with a button; once it was pressed, what `act` says stands in the message's place."""
    _put(page, brand, title, words, (label, lambda _: show_notice(page, brand, title, act())))


def _put(page: ft.Page, brand: Brand, title: str, words: str,
         choice: tuple[str, Callable[[ft.Event[ft.Button]], None]] | None = None) -> None:
    page.title = brand.name
    dress(page, brand, ft.ThemeMode.SYSTEM)
    c = Card(palette_of(page, brand), page.width or 412.0, 1.0, page.height or 915.0)
    foot = [c.button(*choice)] if choice else []
    shown = c.page([c.title(title), c.lead(words)], foot)
    page.controls = [ft.SafeArea(ft.Container(shown, expand=True), expand=True)]
    page.update()
