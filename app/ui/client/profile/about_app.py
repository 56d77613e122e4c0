"""What the brand shows of itself: its picture, whom to ask, and its pages elsewhere."""
from __future__ import annotations

import flet as ft

import app
from app.device.store_place import StorePlace
from app.domain.branding.brand import Brand, Link
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.raster import raster
from app.words import brand as words
from app.words.machine import web

PICTURE_HIGH, PICTURE_HIGH_WIDE = 150, 180
"""Height of the welcome's picture, px; what stands out at the sides is cut."""


def picture_pieces(c: Card, brand: Brand) -> list[ft.Control]:
    """The picture between rules, and the app's name under it."""
    shown = [] if brand.picture is None else [ft.Container(
        ft.Semantics(image=True, label=brand.picture.words, content=raster(
            brand.picture.data, fit=ft.BoxFit.COVER, height=PICTURE_HIGH_WIDE if c.is_wide else PICTURE_HIGH,
            width=c.width, gapless_playback=True)),
        border=ft.Border.symmetric(vertical=ft.BorderSide(t.RULE_THICK, c.p.ink)))]
    return [*shown, c.caption(brand.name)]


def about_pieces(c: Card, brand: Brand, place: StorePlace) -> list[ft.Control]:
    """What it is, which version runs and whether a newer one waits, whom to ask, and links."""
    asked = [c.body(line) for line in words.contact_lines(brand.contact)]
    rows = [link_row(c, link) for link in brand.links]
    body: list[ft.Control] = [*([c.subhead(words.ASK), *asked] if asked else []), *([c.rows(rows, 2)] if rows else [])]
    waits = [c.body(web.NEWER_WAITS)] if place.newer_waits else []
    return [c.head(words.ABOUT), c.body(brand.name), c.soft(brand.description),
            c.soft(web.version_line(app.__version__)), *waits, *body]


def link_row(c: Card, link: Link) -> ft.Control:
    """A page elsewhere, opened by the client itself, since a browser wants it inside the press."""
    row = c.row(link.words, link.address.removeprefix("mailto:").removeprefix("tel:"), lambda _: None,
                name=link.words, icon=ft.Icons.OPEN_IN_NEW_SHARP)
    assert isinstance(row, ft.Container)
    row.url = ft.Url(link.address, target=ft.UrlTarget.BLANK)
    return row
