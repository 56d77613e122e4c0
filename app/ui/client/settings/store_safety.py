"""How safe the records are where the app runs, and a copy of everything: saved, or put back."""
from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from app.actions.backup import (
    asks_passphrase,
    backup_of,
    opened_backup,
    put_back,
    sealed_backup_of,
    suggested_passphrase,
)
from app.device.abilities import PickedFile
from app.device.store_place import StorePlace, ask_to_keep
from app.domain.errors import SecretError
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.profile.secret_field import secret_field
from app.ui.parts import Card, Look, bind
from app.ui.shell.shell import Shell, safe
from app.words.client import at_rest as kept_words
from app.words.client import today
from app.words.errors import error_text
from app.words.machine import web


@dataclass(frozen=True)
class _Now:
    """What was said last, the file that waits for a yes, and whether a passphrase is being chosen."""

    told: str = ""
    waiting: PickedFile | None = None
    seals: bool = False
    offered: str = ""
    """A passphrase that was suggested."""
    wrong: str = ""
    """What is wrong with the passphrase that was typed."""


@ft.component
def KeptPart(shell: Shell) -> ft.Control:
    """A section of the settings."""
    now, put = ft.use_state(_Now())
    typed = use_held(lambda: "")
    c = shell.card()

    def clear(then: _Now) -> None:
        """What was typed goes with the panel that it was typed in."""
        typed.note("")
        put(then)

    async def save() -> None:
        await _saved(*backup_of(shell.store, shell.clock))

    async def save_sealed() -> None:
        try:
            name, data = await sealed_backup_of(shell.store, shell.clock, typed.value)
        except SecretError as error:
            put(replace(now, wrong=error_text(error)))
            return
        await _saved(name, data)

    async def _saved(name: str, data: bytes) -> None:
        saved = await shell.device.files.save_bytes(name, data)
        clear(_Now(web.SAVED_ALL if saved else web.NOT_SAVED))

    async def pick() -> None:
        picked = await shell.device.files.pick_files()
        clear(_Now(waiting=picked[0]) if picked else _Now())

    async def back(file: PickedFile) -> None:
        try:
            data = await opened_backup(file.name, file.data, typed.value)
        except SecretError as error:
            put(replace(now, wrong=error_text(error)))
            return
        clear(_Now())
        put_back(shell.store, file.name, data)
        shell.say(web.BACK_AGAIN)
        shell.go("/")
        shell.refresh()

    def suggest(_: Any) -> None:
        phrase = suggested_passphrase()
        typed.note(phrase)
        put(replace(now, offered=phrase, wrong=""))

    pieces = [*_browser(c, shell.device.place), c.subhead(kept_words.PROTECTS_HEAD),
              *map(c.body, kept_words.protects(shell.device.place.in_browser)),
              c.subhead(kept_words.COPY_HEAD), c.soft(kept_words.SAVE_ALL_WHY), c.side_by_side([
        c.button(kept_words.SAVE_SEALED, safe(shell, lambda _: clear(_Now(seals=True))), icon=ft.Icons.LOCK_SHARP),
        c.button(web.SAVE_ALL, safe(shell, lambda _: shell.run(save)), icon=ft.Icons.SAVE_ALT_SHARP),
        c.button(web.PUT_BACK, safe(shell, lambda _: shell.run(pick)), icon=ft.Icons.RESTORE_SHARP),
    ])]
    leave = c.small_button(today.CANCEL, safe(shell, lambda _: clear(_Now())))
    if now.seals:
        pieces += _sealing(c, now, typed, [
            c.button(kept_words.SUGGEST, safe(shell, suggest)),
            c.button(kept_words.SEAL_NOW, safe(shell, lambda _: shell.run(save_sealed)), look=Look.SOLID), leave])
    if now.waiting is not None:
        asks = asks_passphrase(now.waiting.data)
        acts = [c.small_button(web.PUT_BACK_NOW, safe(shell, lambda _: shell.run(back, now.waiting))), leave]
        pieces.append(c.notice(now.waiting.name, web.PUT_BACK_SURE, acts=[] if asks else acts))
        if asks:
            pieces += [secret_field(c, kept_words.ITS_PASSPHRASE, typed), *_wrong(c, now), c.side_by_side(acts)]
    pieces += [c.notice(now.told, icon=ft.Icons.INFO_SHARP)] if now.told else []
    return c.stack(pieces, 12)


def _sealing(c: Card, now: _Now, typed: Held[str], acts: list[ft.Control]) -> list[ft.Control]:
    """A passphrase is chosen: typed, or suggested and then shown to be written down."""
    shown = [c.strong(now.offered), c.soft(kept_words.WRITE_DOWN)] if now.offered else []
    return [c.subhead(kept_words.SAVE_SEALED), c.body(kept_words.SEALED_WHY), *shown,
            secret_field(c, kept_words.PASSPHRASE, typed, key=f"phrase {now.offered}"), *_wrong(c, now),
            c.side_by_side(acts)]


def _wrong(c: Card, now: _Now) -> list[ft.Control]:
    return [c.notice(now.wrong)] if now.wrong else []


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
