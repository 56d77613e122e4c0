"""How safe the records are where the app runs, and a copy of everything: saved, or put back."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import flet as ft

from app.actions.backup import backup_of, put_back
from app.device.abilities import PickedFile
from app.device.store_place import StorePlace, ask_to_keep
from app.ui.parts import Card, Look, bind
from app.ui.shell.shell import Shell, safe
from app.words.client import today, welcome
from app.words.machine import web


@dataclass(frozen=True)
class _Now:
    """What was said last, and the file that waits for a yes."""

    told: str = ""
    waiting: PickedFile | None = None


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


@ft.component
def KeptPart(shell: Shell) -> ft.Control:
    """A section of the settings."""
    now, put = ft.use_state(_Now())
    c = shell.card()

    async def save() -> None:
        name, data = backup_of(shell.store, shell.clock)
        saved = await shell.device.files.save_bytes(name, data)
        put(_Now(web.SAVED_ALL if saved else web.NOT_SAVED))

    async def pick() -> None:
        picked = await shell.device.files.pick_files()
        put(_Now(waiting=picked[0]) if picked else _Now())

    def back(file: PickedFile) -> None:
        put(_Now())
        put_back(shell.store, file.name, file.data)
        shell.say(web.BACK_AGAIN)
        shell.go("/")
        shell.refresh()

    pieces = [*_browser(c, shell.device.place), c.soft(web.SAVE_ALL_WHY), c.side_by_side([
        c.button(web.SAVE_ALL, safe(shell, lambda _: shell.run(save)), icon=ft.Icons.SAVE_ALT_SHARP),
        c.button(web.PUT_BACK, safe(shell, lambda _: shell.run(pick)), icon=ft.Icons.RESTORE_SHARP),
    ])]
    if now.waiting is not None:
        acts = [c.small_button(web.PUT_BACK_NOW, safe(shell, bind(back, now.waiting))),
                c.small_button(today.CANCEL, safe(shell, bind(put, _Now())))]
        pieces.append(c.notice(now.waiting.name, web.PUT_BACK_SURE, acts=acts))
    pieces += [c.notice(now.told, icon=ft.Icons.INFO_SHARP)] if now.told else []
    return c.stack(pieces, 12)


def _browser(c: Card, place: StorePlace) -> list[ft.Control]:
    if not place.in_browser:
        return []
    tried = web.offline_since(place.offline_start) if place.offline_start else web.NOT_TRIED
    kept = web.IS_KEPT if place.is_kept else web.NOT_KEPT
    uses = [c.body(web.uses(place.uses_bytes))] if place.uses_bytes else []
    ask = [c.note(web.KEEP_WHY), c.side_by_side([c.button(web.KEEP_ASK, bind(ask_to_keep, place))])] \
        if place.asks_to_keep and not place.is_kept else []
    return [c.subhead(web.KEPT_HEAD), c.body(tried), c.body(kept), *ask,
            c.body(web.HOME if place.on_home_screen else web.LOSES), *uses]
