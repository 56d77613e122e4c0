"""What somebody who leads may see in a person who is not as always, and the number to call above it."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.domain.model.person import Person
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.words.client import lead
from app.words.client import player as says


def amiss_rows(c: Card, person: Person, tell: Callable[[str], Callable[[Any], Any]]) -> list[ft.Control]:
    """One tap each; `tell` makes the handler of a sign, empty for tired and unwilling."""
    rows = [c.row(words, note, tell(sign)) for sign, words, note in says.AMISS]
    return [c.soft(says.whose(person.name)), c.title(lead.not_themselves(person.sex)), *call_lines(c, person),
            c.lead(says.AMISS_LEAD), c.harm_box(c.rows(rows, 4))]


def call_lines(c: Card, person: Person) -> list[ft.Control]:
    """The number, big, and whom else to ring."""
    pieces: list[ft.Control] = [c.text(says.call(person.emergency_number), t.T_TITLE, t.EXTRA)]
    pieces += [c.lead(says.contact(person.emergency_contact))] if person.emergency_contact else []
    return pieces
