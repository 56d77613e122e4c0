"""Exercises that somebody was shown, and keeping everything the same as always. Every press is kept at once."""
from __future__ import annotations

from dataclasses import replace

import flet as ft

from app.actions.people import change_person
from app.actions.training.today import today
from app.domain.model.person import Person
from app.ui.client.today.locked_card import goes
from app.ui.parts import Look, options
from app.ui.shell.shell import Shell, safe
from app.words.client import settings as words
from app.words.client import today as today_words


@ft.component
def ShownPage(shell: Shell, person: Person) -> ft.Control:
    """The list of the programme that is followed."""
    c, names = shell.card(), today(shell.store, shell.clock, person.id).names

    def toggle(exercise: str) -> None:
        change_person(shell.store, replace(person, body=replace(person.body, shown=person.body.shown ^ {exercise})))
        shell.refresh()

    def same(value: bool) -> None:
        change_person(shell.store, replace(person, body=replace(person.body, same_as_always=value)))
        shell.refresh()

    among = options(*sorted(names.items(), key=lambda pair: pair[1]))
    body: list[ft.Control] = [
        c.title(words.STEADY), c.lead(words.SAME), c.body(words.SAME_HINT),
        c.yes_no(words.SAME_SHORT, person.body.same_as_always, safe(shell, same)), c.rule(), c.body(words.STEADY_HINT),
        c.several_of_list(among, person.body.shown, safe(shell, toggle)) if among else c.soft(words.NO_LIBRARY),
    ]
    page = c.page(body, [c.button(today_words.DONE, goes(shell, "/settings"), look=Look.SOLID)])
    page.key = "shown"
    return page
