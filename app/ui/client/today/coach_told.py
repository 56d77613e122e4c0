"""Whether the coach knows of a stop, and what to do about it."""
from __future__ import annotations

from datetime import date, datetime

import flet as ft

from app.actions.files.coach_heard import CoachHeard, coach_of
from app.domain.model.person import Person
from app.ui.client.reach import reach
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import coach_told as words
from app.words.client import today


def coach_line(shell: Shell, person: Person, heard: CoachHeard) -> str:
    """`Your coach does not know yet.`, or when it was sent and answered."""
    def day(instant: datetime | None) -> date | None:
        return shell.clock.local(instant).day if instant else None

    now = shell.clock.local(shell.clock.now()).day
    return words.coach_knows(day(heard.sent), day(heard.answered), now, person.asked)


def coach_told(c: Card, shell: Shell, person: Person, heard: CoachHeard, contact: str = "") -> list[ft.Control]:
    """The same as a head, then how the coach hears of it, or how to reach them sooner. Nothing is sent by itself."""
    coach = coach_of(shell.store, person)
    pieces: list[ft.Control] = [c.head(coach_line(shell, person, heard))]
    if heard.is_kept_back:
        return [*pieces, c.body(today.said(words.KEPT_BACK, person.asked)), *reach(c, contact)]
    if coach and not heard.answered:
        told = words.tell_coach(coach.name, sent=heard.sent is not None, reached=bool(contact), asked=person.asked)
        pieces += [c.body(told), *reach(c, contact)]
    if not heard.sent:
        act = safe(shell, lambda _: shell.go("/send"))
        pieces.append(c.button(today.said(today.SEND_DIARY, person.asked), act))
    return pieces
