"""What stands after something was written down: what follows from it, and a way to undo it."""
from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft

from app.actions.training import events as acting
from app.actions.training.events import Noted
from app.actions.training.today import today
from app.domain.model.person import Person
from app.ui.client.nav import client_nav
from app.ui.client.reach import call_button, reach
from app.ui.client.today.locked_card import coach_unaware, goes, number_size
from app.ui.parts import Card, Look
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words import signs
from app.words.client import events as words


def written_page(
    c: Card, shell: Shell, noted: Noted, pieces: Sequence[ft.Control], undone: Callable[[], None]
) -> ft.Control:
    """What was written, what follows, and Undo. After a stop also that the coach does not know."""
    def undo(_: object) -> None:
        acting.undo(shell.store, noted)
        shell.say(words.UNDONE)
        undone()

    event = noted.event
    body: list[ft.Control] = [c.title(words.WRITTEN), c.lead(words.event_line(event)), *pieces]
    if event.stopped_by:
        body += coach_unaware(c, shell, today(shell.store, shell.clock, noted.person.id),
                              event.stamp.id)
    body.append(c.button(words.UNDO, safe(shell, undo)))
    foot = [ft.Row([c.button(words.TO_DIARY, goes(shell, "/diary"), expand=True),
                    c.button(words.TO_TODAY, goes(shell, "/today"), look=Look.SOLID, expand=True)], spacing=8)]
    page = c.page(body, foot, client_nav(shell, "diary"))
    page.key = "written"
    return page


def urgent(c: Card, person: Person, sign: str) -> ft.Control:
    """The number to call in large figures, and what to do."""
    lines = signs.what_to_do(sign, person.emergency_number, person.asked)
    pieces: list[ft.Control] = [
        c.text(lines[0], t.T_LEAD, t.EXTRA),
        c.text(person.emergency_number, number_size(c, person.emergency_number), t.EXTRA, height=1.0),
        *(c.body(line) for line in lines[1:]),
    ]
    told = ft.Semantics(content=c.stack(pieces, 10), live_region=True)  # words alone: a button would be lost in it
    ways = [call_button(c, person.emergency_number), *reach(c, person.emergency_contact)]
    return c.harm_box(c.stack([told, *ways], 10))
