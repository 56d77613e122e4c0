"""Where the records are kept, said before there are any, and the browser asked to keep them."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.device.store_place import StorePlace, ask_to_keep
from app.ui.parts import Card, Look, bind
from app.ui.shell.shell import Shell, safe
from app.words.client import welcome
from app.words.machine import web


def alone_words(place: StorePlace) -> str:
    """That it works without a network is said of a browser only after it was tried there."""
    return welcome.WORKS_ALONE if not place.in_browser or place.offline_start else web.HERE


def keep_page(c: Card, shell: Shell, onward: Callable[[], None]) -> ft.Control:
    """Before the browser asks the person whether it may keep the records: why it will, in our own words."""
    def ask(_: object) -> None:
        ask_to_keep(shell.device.place)
        onward()

    pieces = [c.title(web.KEEP_HEAD), c.rule(), c.lead(web.KEEP_WHY), c.soft(web.KEEP_LATER_WHY)]
    foot = [c.button(web.KEEP_LATER, safe(shell, bind(onward))),
            c.button(web.KEEP_ASK, safe(shell, ask), look=Look.SOLID)]
    page = c.page(pieces, foot)
    page.key = "page-keep"
    return page
