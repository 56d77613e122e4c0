"""A page with one message and nothing else, for when there is no store to build a screen on."""
from __future__ import annotations

import flet as ft

from app.domain.branding.brand import Brand
from app.ui.parts import Card
from app.ui.root import dress, palette_of


def show_notice(page: ft.Page, brand: Brand, title: str, words: str) -> None:
    """Puts the message in the page's place."""
    page.title = brand.name
    dress(page, brand, ft.ThemeMode.SYSTEM)
    c = Card(palette_of(page, brand), page.width or 412.0, 1.0, page.height or 915.0)
    page.controls = [ft.SafeArea(ft.Container(c.page([c.title(title), c.lead(words)]), expand=True), expand=True)]
    page.update()
