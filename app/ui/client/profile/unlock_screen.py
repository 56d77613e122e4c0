"""A PIN before somebody's pages on a shared device, or before the coach's desk."""
from __future__ import annotations

from typing import Any

import flet as ft

from app.actions import pins as acting
from app.actions.people import current_person
from app.actions.pin_locks import DESK, is_training
from app.domain.errors import SecretError
from app.ui.client.profile.profile_draft import use_held
from app.ui.client.profile.secret_field import pin_field
from app.ui.parts import Card, Look
from app.ui.shell.local_times import here
from app.ui.shell.shell import Shell, safe
from app.words.client.today import moment_words
from app.words.errors import error_text
from app.words.machine import pins as words


@ft.component
def UnlockScreen(shell: Shell) -> ft.Control:
    """The PIN, somebody else's turn, and what to do where it is forgotten."""
    c, typed = shell.card(), use_held(lambda: "")
    wrong, set_wrong = ft.use_state("")
    person = None if shell.locked == DESK else current_person(shell.store)

    async def give() -> None:
        try:
            asked = await acting.check_pin(shell.store, shell.clock, shell.locked, typed.value)
        except SecretError as error:
            set_wrong(error_text(error))
            return
        shell.tools.opened.add(shell.locked)
        if asked is not None:
            shell.say(words.CALLED_OFF)
        shell.refresh()

    def press(_: Any) -> None:
        shell.run(give)

    pieces: list[ft.Control] = [
        c.title(words.title(person.name if person else "")),
        pin_field(c, words.PIN, typed, autofocus=True, on_submit=safe(shell, press)),
        *([c.notice(wrong)] if wrong else []),
        c.main_button(words.OPEN, safe(shell, press)),
        c.button(words.OTHERS, safe(shell, lambda _: shell.go("/who")))]
    if person is not None and is_training(shell.store, person.id):
        pieces.append(c.button(words.GO_ON, safe(shell, lambda _: shell.go("/play"))))
    page = c.page([*pieces, *_forgotten(c, shell)])
    page.key = f"unlock-{shell.locked}"
    return page


def _forgotten(c: Card, shell: Shell) -> list[ft.Control]:
    def ask(_: Any) -> None:
        acting.ask_without(shell.store, shell.clock, shell.locked)
        shell.refresh()

    def remove(_: Any) -> None:
        if acting.go_without(shell.store, shell.clock, shell.locked):
            shell.say(words.REMOVED)
        shell.refresh()

    pieces: list[ft.Control] = [c.subhead(words.FORGOTTEN, level=2), c.soft(words.FORGOTTEN_SAYS)]
    when = acting.may_go_without(shell.store, shell.locked)
    if when is None:
        return [*pieces, c.button(words.ASK_WITHOUT, safe(shell, ask))]
    if shell.clock.now() < when:
        return [*pieces, c.notice(words.from_when(moment_words(here(shell, when))), icon=ft.Icons.INFO_SHARP)]
    return [*pieces, c.button(words.GO_WITHOUT, safe(shell, remove), look=Look.BOX)]
