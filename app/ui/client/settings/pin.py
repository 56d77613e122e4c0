"""A PIN for one person on a shared device, or for the coach's desk: chosen, changed, removed."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.actions import pins as acting
from app.actions.pin_locks import DESK, has_pin
from app.domain.model.person import Person
from app.ui.client.profile.profile_draft import use_held
from app.ui.client.profile.secret_field import pin_field
from app.ui.client.today.locked_card import goes
from app.ui.parts import Look
from app.ui.shell.complaints import SecretAct, complaint_of
from app.ui.shell.shell import Shell, safe
from app.words.client import today
from app.words.machine import pins as words


@ft.component
def PinPage(shell: Shell, person: Person | None) -> ft.Control:
    """Of a person; of the desk where there is none."""
    c, owner = shell.card(), person.id if person else DESK
    before, new, again = use_held(lambda: ""), use_held(lambda: ""), use_held(lambda: "")
    (wrong, told, turn), put = ft.use_state(("", "", 0))
    is_set = has_pin(shell.store, owner)

    async def choose() -> str:
        if new.value.strip() != again.value.strip():
            return words.NOT_THE_SAME
        if is_set:
            await acting.check_pin(shell.store, shell.clock, owner, before.value)
        await acting.choose_pin(shell.store, owner, new.value)
        return ""

    async def remove() -> str:
        await acting.remove_pin(shell.store, shell.clock, owner, before.value)
        return ""

    def press(act: SecretAct, done: str) -> Callable[[Any], None]:
        async def acted() -> None:
            if complaint := await complaint_of(act):
                put((complaint, "", turn))
                return
            shell.tools.opened.add(owner)  # whoever chose it need not give it at once
            for typed in (before, new, again):
                typed.note("")
            put(("", done, turn + 1))
        return safe(shell, lambda _: shell.run(acted))

    pieces: list[ft.Control] = [c.title(words.title(person.name if person else "")), c.body(words.WHY),
                                c.note(words.NO_LOCK)]
    if is_set:
        pieces.append(pin_field(c, words.PIN_NOW, before, key=f"now {turn}"))
    pieces += [pin_field(c, words.NEW_PIN, new, key=f"new {turn}"),
               pin_field(c, words.ONCE_MORE, again, key=f"again {turn}"),
               *([c.notice(wrong)] if wrong else []),
               *([c.notice(told, icon=ft.Icons.INFO_SHARP)] if told else []),
               c.button(words.CHANGE if is_set else words.CHOOSE, press(choose, words.CHOSEN), look=Look.SOLID)]
    if is_set:
        pieces.append(c.button(words.REMOVE, press(remove, words.REMOVED)))
    page = c.page(pieces, [c.button(today.BACK, goes(shell, "/settings"))])
    page.key = "pin"
    return page
