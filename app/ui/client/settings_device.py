"""This device: light or dark, sound, vibration, speech."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app import text_settings as words
from app.actions.senses import Sense, senses, switch_off, switch_on
from app.ui import theme as t
from app.ui.parts import Card, Option
from app.ui.shell import Shell, safe


def device_pieces(c: Card, shell: Shell) -> list[ft.Control]:
    """The section of the settings."""
    def look(value: str) -> None:
        shell.choose_theme(ft.ThemeMode(value))

    looks = [Option(value, name, name=f"{words.LOOK}: {name}") for value, name in words.LOOKS.items()]
    pieces: list[ft.Control] = [
        c.head(words.DEVICE), c.subhead(words.LOOK), c.one_of(looks, _mode(shell), safe(shell, look)),
    ]
    for sense, on in senses(shell.store).items():
        name, note = words.SENSES[sense]
        pieces.append(c.stack([c.text(name, t.T_BODY, t.EXTRA), c.soft(note),
                               c.yes_no(name, on, safe(shell, _switch(shell, sense)))], 6))
    return pieces


def _mode(shell: Shell) -> str:
    mode = shell.tools.page.theme_mode
    return mode.value if mode else ft.ThemeMode.SYSTEM.value


def _switch(shell: Shell, sense: Sense) -> Callable[[bool], None]:
    def switch(on: bool) -> None:
        (switch_on if on else switch_off)(shell.store, shell.device, sense)
        shell.refresh()
    return switch
