"""One page of questions of the welcome, answered anew."""
from __future__ import annotations

import flet as ft

from app.actions.people import change_person
from app.domain.model.person import Person
from app.ui.client.profile.profile_draft import draft_of, finished, use_held
from app.ui.client.profile.questions import CHANGEABLE, asked_page
from app.ui.shell.shell import Shell
from app.words.client import today


@ft.component
def PersonPage(shell: Shell, person: Person, page: str) -> ft.Control:
    """What is kept changes only with "Save"."""
    held = use_held(lambda: draft_of(person))
    questions = next(q for q in CHANGEABLE if q.key == page)

    def keep() -> None:
        changed = finished(held.value, shell.clock.now().year)
        if changed != person:
            change_person(shell.store, changed)
        shell.say(today.SAVED)
        shell.go("/settings")

    return asked_page(shell.card(), shell, held, questions, aside="", back=lambda: shell.go("/settings"), onward=keep,
                      onward_words=today.SAVE)
