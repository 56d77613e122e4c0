"""Who is here: everybody who trains on this device, the coach's desk, and somebody new."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.actions import people as acting
from app.actions.people import Role
from app.storage import keys, people
from app.storage.people import Trains
from app.ui.shell.shell import Shell, safe
from app.words.client import welcome


@ft.component
def WhoScreen(shell: Shell) -> ft.Control:
    """A button for each."""
    c = shell.card()
    with shell.store.read() as db:
        everybody = people.people(db, Trains.HERE)
        has_coach = keys.keys(db, keys.COACH, "signing") is not None

    # the device is handed over: whoever is next gives a PIN anew
    ft.use_effect(shell.tools.opened.clear, dependencies=[])

    def take(person_id: str) -> Callable[[object], None]:
        def taken(_: object) -> None:
            acting.choose_person(shell.store, person_id)
            if shell.link:  # the address stays; what it names is opened now
                shell.refresh()
            else:
                shell.go("/today")
        return safe(shell, taken)

    def coach(_: object) -> None:
        acting.choose_role(shell.store, Role.COACH)
        shell.go("/desk")

    rows: list[ft.Control] = []
    for person in everybody:
        rows += [c.button(person.name, take(person.id)), c.soft(welcome.who_line(person))]
    if has_coach and Role.COACH in shell.brand.roles:
        rows += [c.button(welcome.WHO_COACH, safe(shell, coach))]
    rows += [c.link(welcome.WHO_NEW, safe(shell, lambda _: shell.go("/welcome")))]
    return c.page([c.title(welcome.WHO_TITLE), c.stack(rows)])
