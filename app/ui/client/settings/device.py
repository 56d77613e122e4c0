"""This device: light or dark, a screen reader, sound, vibration, speech."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.actions.appearance import English, choose_english, choose_read_aloud, english, is_read_aloud
from app.actions.files.figure_body import choose_body, chosen_body, model
from app.actions.output_settings import (
    Counting,
    Sense,
    apply_senses,
    choose_counting,
    counting,
    senses,
    switch_off,
    switch_on,
)
from app.actions.training.reminding import choose_remind_hour, remind_hour
from app.domain.model.figure_body import FigureBody
from app.ui.client.sound_check import SoundCheck
from app.ui.parts import AnswerOption, Card
from app.ui.parts import theme as t
from app.ui.shell.moving_figures import still_figure
from app.ui.shell.shell import Shell, safe
from app.words import sound
from app.words.client import pauses
from app.words.client import settings as words

STILL = 96
"""Edge of a body's picture, px."""


def device_pieces(c: Card, shell: Shell) -> list[ft.Control]:
    """The section of the settings."""
    def look(value: str) -> None:
        shell.choose_theme(ft.ThemeMode(value))

    looks = [AnswerOption(value, name, name=f"{words.LOOK}: {name}") for value, name in words.LOOKS.items()]
    pieces: list[ft.Control] = [
        c.head(words.DEVICE), c.subhead(words.LOOK), c.one_of(looks, _mode(shell), safe(shell, look)),
        *_english(c, shell), *_bodies(c, shell), *_reader(c, shell),
    ]
    for sense, on in senses(shell.store).items():
        name, note = words.SENSES[sense]
        place = shell.device.place
        lacks = [c.soft(words.NO_VOICE)] if sense is Sense.SPEECH and place.in_browser and not place.has_voice else []
        pieces.append(c.stack([c.text(name, t.T_BODY, t.EXTRA), c.soft(note), *lacks,
                               c.yes_no(name, on, safe(shell, _switch(shell, sense)))], 6))
    check = SoundCheck(shell, "", None, key="sound-check")  # type: ignore[call-arg]
    return [*pieces, check, *_counting(c, shell), *_reminder(c, shell)]


def _english(c: Card, shell: Shell) -> list[ft.Control]:
    """Worktop or counter, physio or physical therapist."""
    def choose(value: str) -> None:
        choose_english(shell.store, English(value))
        apply_senses(shell.store, shell.device)
        shell.refresh()

    among = [AnswerOption(value, name, name=f"{words.ENGLISH}: {name}") for value, name in words.ENGLISHES.items()]
    return [c.subhead(words.ENGLISH), c.one_of(among, english(shell.store).value, safe(shell, choose))]


def _bodies(c: Card, shell: Shell) -> list[ft.Control]:
    """Each with its name under a move of the programme; nothing as long as there is none."""
    def choose(value: FigureBody | None) -> None:
        choose_body(shell.store, value)
        shell.refresh()

    shown = model(shell.store)
    if shown is None:
        return []
    pack, exercise = shown
    stills = [still_figure(shell, pack, exercise, size=STILL, body=body) for body in FigureBody]
    among = [AnswerOption(value, name, name=f"{words.BODIES_HEAD}: {name}") for value, name in words.BODIES.items()]
    row = ft.Row([one for one in stills if one], spacing=t.GAP_S, wrap=True)
    return [c.subhead(words.BODIES_HEAD), ft.Semantics(content=row, exclude_semantics=True),
            c.one_of(among, chosen_body(shell.store), safe(shell, choose))]


def _reader(c: Card, shell: Shell) -> list[ft.Control]:
    """Only of a page in a browser: everywhere else the system says whether a screen reader is there."""
    async def choose(wanted: bool) -> None:
        choose_read_aloud(shell.store, wanted)
        await shell.device.tree.tell_all(wanted)
        shell.refresh()

    if not shell.tools.page.web:
        return []
    return [c.stack([c.text(words.READER, t.T_BODY, t.EXTRA), c.soft(words.READER_NOTE),
                     c.yes_no(words.READER, is_read_aloud(shell.store), safe(shell, choose))], 6)]


def _reminder(c: Card, shell: Shell) -> list[ft.Control]:
    """From which hour on."""
    def choose(value: int) -> None:
        choose_remind_hour(shell.store, value)
        shell.refresh()

    among = [AnswerOption(hour, name, name=f"{sound.REMIND}: {name}") for hour, name in sound.REMIND_AT.items()]
    return [c.stack([c.text(sound.REMIND, t.T_BODY, t.EXTRA), c.soft(sound.REMIND_NOTE),
                     c.one_of(among, remind_hour(shell.store), safe(shell, choose))], 6)]


def _counting(c: Card, shell: Shell) -> list[ft.Control]:
    """Whether counted movements end by time or by a tap."""
    def choose(value: str) -> None:
        choose_counting(shell.store, Counting(value))
        shell.refresh()

    among = [AnswerOption(value, name, name=f"{pauses.COUNTED_HEAD}: {name}") for value, name in pauses.COUNTED.items()]
    return [c.stack([c.text(pauses.COUNTED_HEAD, t.T_BODY, t.EXTRA), c.soft(pauses.COUNTED_NOTE),
                     c.one_of(among, counting(shell.store).value, safe(shell, choose))], 6)]


def _mode(shell: Shell) -> str:
    mode = shell.tools.page.theme_mode
    return mode.value if mode else ft.ThemeMode.SYSTEM.value


def _switch(shell: Shell, sense: Sense) -> Callable[[bool], None]:
    def switch(on: bool) -> None:
        (switch_on if on else switch_off)(shell.store, shell.device, sense)
        shell.refresh()
    return switch
