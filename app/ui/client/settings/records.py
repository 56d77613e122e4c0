"""Erasing, asked twice."""
from __future__ import annotations

import asyncio
from typing import Any

import flet as ft

from app.actions.erasing import erase, erase_device
from app.actions.files.bundled import take_bundled
from app.actions.people import Role, current_person, current_role
from app.domain.errors import AppError, EraseUnfinished
from app.domain.model.person import Person
from app.ui.client.profile.questions import both_ways
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import settings as words
from app.words.client import today
from app.words.errors import error_text

PERSON, DEVICE = "person", "device"


@ft.component
def ErasePage(shell: Shell) -> ft.Control:
    """What is erased, then whether really."""
    c, person = shell.card(), current_person(shell.store)
    wanted, want = ft.use_state("")
    erasing, set_erasing = ft.use_state(False)
    begun = ft.use_ref(False)  # a second press may come before the page is drawn anew
    coach = current_role(shell.store) is Role.COACH
    if wanted:
        async def do_it() -> None:
            if begun.current:
                return
            begun.current = True
            set_erasing(True)
            await asyncio.sleep(0.1)  # so that it is read before the work begins
            try:
                said = await _erased(shell, wanted, person)
            except AppError:
                begun.current = False
                set_erasing(False)
                raise
            shell.say(said)
            shell.go("/")
            shell.refresh()
        if erasing:
            return _under_way(c)
        return _really(c, shell, wanted, safe(shell, lambda _: want("")), safe(shell, lambda _: shell.run(do_it)))
    body: list[ft.Control] = [c.title(words.ERASE)]
    if person is not None and not coach:
        body += [c.head(words.erase_person_words(person.name)), c.body(words.ERASE_PERSON_SAYS), c.soft(words.COPIES),
                 c.button(words.erase_person_words(person.name), safe(shell, lambda _: want(PERSON)))]
    body += [c.head(words.ERASE_DEVICE), c.body(_device_says(shell)),
             c.button(words.ERASE_DEVICE, safe(shell, lambda _: want(DEVICE)))]
    page = c.page(body, [c.button(today.BACK, goes(shell, "/settings"))])
    page.key = "erase"
    return page


async def _erased(shell: Shell, wanted: str, person: Person | None) -> str:
    """After everything, what came with this app is taken in again, which may take a while."""
    said = words.ERASED
    try:
        if wanted == PERSON and person is not None:
            erase(shell.store, person.id)
        elif wanted == DEVICE:
            erase_device(shell.store)
    except EraseUnfinished as unfinished:  # the rows are gone all the same
        said = error_text(unfinished)
    if wanted == DEVICE:
        await take_bundled(shell.store, shell.clock, shell.tools.brand, shell.tools.bundled())
    return said


def _under_way(c: Card) -> ft.Control:
    page = c.page([c.title(words.ERASE), c.body(words.ERASING)])
    page.key = "erasing"
    return page


def _device_says(shell: Shell) -> str:
    return f"{words.ERASE_DEVICE_SAYS} {words.BUNDLED_STAYS}" if shell.tools.brand.packs else words.ERASE_DEVICE_SAYS


def _really(c: Card, shell: Shell, wanted: str, back: Any, act: Any) -> ft.Control:
    says = words.ERASE_PERSON_SAYS if wanted == PERSON else _device_says(shell)
    foot = both_ways(c, today.CANCEL, back, words.ERASE_NOW, act)
    page = c.page([c.title(words.ERASE_HEAD), c.body(says)], [foot])
    page.key = "really"
    return page
