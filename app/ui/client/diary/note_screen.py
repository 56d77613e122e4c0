"""Noting something around the sessions: what happened, in a tap or two, with the next question where one is due."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.actions.people import current_person
from app.domain.model.person import Person
from app.domain.model.record import EventKind
from app.ui.client.diary.note_fall import FallPage
from app.ui.client.diary.note_goal import GoalPage
from app.ui.client.diary.note_simple import ActivityPage, IllnessPage, MedicinePage, PausePage
from app.ui.client.nav import client_nav
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words.client import events as words
from app.words.client import today

PAGES: dict[str, Callable[..., ft.Control]] = {
    EventKind.FALL: FallPage, EventKind.ILLNESS: IllnessPage, EventKind.MEDICINE: MedicinePage,
    EventKind.ACTIVITY: ActivityPage, EventKind.GOAL: GoalPage, EventKind.PAUSE: PausePage,
}
#: The everyday first, harm by itself.
EVERYDAY = (EventKind.ACTIVITY, EventKind.ILLNESS, EventKind.MEDICINE, EventKind.PAUSE, EventKind.GOAL)


@ft.component
def NoteScreen(shell: Shell) -> ft.Control:
    """`/note`, or `/note/KIND`."""
    c, person = shell.card(), current_person(shell.store)
    if person is None:
        return c.page([], nav=client_nav(shell, "diary"))
    page = PAGES.get(shell.route_id())
    return page(shell, person) if page else _menu(c, shell, person)


def _menu(c: Card, shell: Shell, person: Person) -> ft.Control:
    asked = person.name if person.led_by else ""
    body: list[ft.Control] = [c.title(words.TITLE, t.T_HEAD if c.scale > t.LARGE_PRINT else t.T_TITLE)]
    for kind in EVERYDAY:
        name = words.kind_words(kind, asked)
        act = c.button(name, goes(shell, f"/note/{kind}"), height=72)
        body.append(c.stack([act, c.soft(words.KIND_NOTES[kind])], 4))
    fall = words.kind_words(EventKind.FALL, asked)
    body.append(c.stack([c.harm_button(fall, goes(shell, f"/note/{EventKind.FALL}")),
                         c.soft(words.KIND_NOTES[EventKind.FALL])], 4))
    page = c.page(body, [c.button(today.BACK, goes(shell, "/diary"))], client_nav(shell, "diary"))
    page.key = "note-menu"
    return page
