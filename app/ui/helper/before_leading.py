"""Before a session that somebody leads: whose it is, and how they are today."""
from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from typing import Any

import flet as ft

from app.actions.training.helper_stop import stop_today
from app.domain.model.person import Person
from app.ui.helper.stop_questions import amiss_rows
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import lead as says
from app.words.client import player


class LeadingStage(Enum):
    """How far the questions are."""

    WHOSE = "whose"
    HOW = "how"
    AMISS = "amiss"
    DONE = "done"


@ft.component
def LeadBefore(shell: Shell, live: Any, person: Person, then: Callable[..., ft.Control]) -> ft.Control:
    """Two questions, one tap each; then it begins where Start was pressed before them, else the look around."""
    asked, ask = ft.use_state(LeadingStage.WHOSE)
    c = shell.card()

    def to(step: LeadingStage) -> Callable[[Any], Any]:
        return safe(shell, lambda _: ask(step))

    def begin(_: Any) -> None:
        if live.is_wanted:
            live.start()
        else:
            ask(LeadingStage.DONE)

    if asked is LeadingStage.WHOSE:
        return _whose(c, shell, person, to(LeadingStage.HOW))
    if asked is LeadingStage.HOW:
        return _how(c, shell, person, safe(shell, begin), to(LeadingStage.AMISS))
    if asked is LeadingStage.AMISS:
        return _amiss(c, shell, person, to(LeadingStage.HOW))
    return then(shell, live)


def _whose(c: Card, shell: Shell, person: Person, yes: Any) -> ft.Control:
    body = [c.soft(player.whose(person.name)), c.title(says.whose_question(person.name)), c.body(says.WHOSE_WHY)]
    return c.page(body, [c.main_button(says.whose_yes(person.name), yes),
                         c.button(says.WHOSE_NO, safe(shell, lambda _: shell.go("/who")))])


def _how(c: Card, shell: Shell, person: Person, usual: Any, other: Any) -> ft.Control:
    body = [c.soft(player.whose(person.name)), c.title(says.how_today(person.name)), c.body(says.AS_USUAL_NOTE),
            c.harm_button(says.not_themselves(person.sex), other), c.soft(says.NOT_THEMSELVES_NOTE),
            c.link(player.NOT_NOW, safe(shell, lambda _: shell.go("/today")))]
    return c.page(body, [c.main_button(says.AS_USUAL, usual)])


def _amiss(c: Card, shell: Shell, person: Person, back: Any) -> ft.Control:
    """What is seen before a session stops it like a sign in the check-in does."""
    def tell(sign: str) -> Callable[[Any], Any]:
        def told(_: Any) -> None:
            stop_today(shell.store, shell.clock, person, sign, says.not_themselves(person.sex))
            shell.go("/today")
        return safe(shell, told)

    return c.page(amiss_rows(c, person, tell), [c.button(says.BACK, back)])
