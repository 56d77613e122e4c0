"""Pieces of the page after a session: the effort in squares and words, pain, what to do after a stop, what it means."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.actions.files.coach_heard import coach_of, heard_of_record
from app.actions.training.afterwards import outlook
from app.domain.model.body import Spot
from app.domain.model.person import Person
from app.domain.model.record import Ending, SessionDone
from app.ui.client.reach import call_button, reach
from app.ui.client.today.coach_told import coach_line
from app.ui.parts import Card, options
from app.ui.parts import theme as t
from app.ui.parts.body_list import BodyPicker
from app.ui.shell.shell import Shell, safe
from app.words.client import diary as says
from app.words.client import player
from app.words.client import send as send_words
from app.words.contacts import ways_in
from app.words.signs import sign_is_emergency, sign_words, what_to_do

Act = Callable[[Any], Any]


def effort_scale(c: Card, chosen: int | None, choose: Act) -> list[ft.Control]:
    """0–10 in squares, and what the numbers mean in words."""
    wide = c.width >= 560 * c.scale
    anchors = [c.text(says.effort_words(n), t.T_BODY, t.EXTRA if n == chosen else t.REGULAR, height=1.2)
               for n in range(0, 11, 2)]
    half = [c.stack(anchors[:3], 2), c.stack(anchors[3:], 2)]
    for column in half:
        column.expand = True
    legend = ft.Row([*half], spacing=16, vertical_alignment=ft.CrossAxisAlignment.START) if wide \
        else c.stack(anchors, 2)
    told = [c.lead(says.effort_words(chosen))] if chosen is not None else []
    return [c.scale_0_10(says.HOW_HARD_SHORT, chosen, choose), *told, legend]


def asked_pain(c: Card, hurts: bool | None, levels: dict[Spot, int], say: Act, tell: Act,
               answers: tuple[str, str] = (says.NOTHING_HURTS, says.SOMETHING_HURTS)) -> list[ft.Control]:
    """Nothing, or where and how much."""
    among = options((False, answers[0]), (True, answers[1]))
    pieces: list[ft.Control] = [c.one_of(among, hurts, say)]
    return [*pieces, BodyPicker(c, levels, tell, says.HURT_ENDS)] if hurts else pieces


# ------------------------------------------------------------------ after a stop

def is_stop(done: SessionDone) -> bool:
    """Whether a clinician should hear of it before the next session."""
    return done.ending is Ending.SIGN or done.is_pain_stop


def stop_box(c: Card, shell: Shell, person: Person, done: SessionDone, mistaken: Act) -> list[ft.Control]:
    """What to do first, whom to call, and that nobody has been told."""
    if not is_stop(done):
        return []
    signed = done.ending is Ending.SIGN
    lines = what_to_do(done.sign, person.emergency_number, person.asked) if signed \
        else says.pain_stop_lines(person.emergency_number, person.asked)
    call = [c.text(player.call(person.emergency_number), t.T_TITLE, t.EXTRA)] \
        if signed and sign_is_emergency(done.sign) else []
    words = player.contact if call else player.ring
    ring = [c.lead(words(person.emergency_contact))] if person.emergency_contact else []
    ways = [call_button(c, person.emergency_number)] if call else []
    send = [*ways, *reach(c, person.emergency_contact if ways_in(person.emergency_contact) else ""),
            *_sending(c, shell, person)]
    pieces = [c.subhead(sign_words(done.sign) if signed else says.STOP_HEAD), *call, *ring,
              *[c.text(line, t.T_LEAD, height=1.2) for line in lines], _knows(c, shell, person, done.stamp.id)]
    undo = [c.link(says.MISTAKE, mistaken), c.soft(says.MISTAKE_NOTE)] if signed else []
    told = ft.Semantics(content=c.stack(pieces, 10), live_region=True)  # words alone: a button would be lost in it
    return [c.harm_box(c.stack([told, *send], 10)), *undo]


def _knows(c: Card, shell: Shell, person: Person, record_id: str) -> ft.Control:
    return c.strong(coach_line(shell, person, heard_of_record(shell.store, person, record_id)))


def _sending(c: Card, shell: Shell, person: Person) -> list[ft.Control]:
    coach = coach_of(shell.store, person)
    if coach is None:
        return []
    words = send_words.send_to(coach.name, person.asked)
    return [c.button(words, safe(shell, lambda _: shell.go("/send")))]


def meaning(c: Card, shell: Shell, person: Person, done: SessionDone) -> tuple[list[ft.Control], list[ft.Control]]:
    """Body and foot of the page once it is saved."""
    ahead = outlook(shell.store, shell.clock, person.id)
    lines = says.outlook_lines(ahead.dose, ahead.stop, person.asked)
    send = _sending(c, shell, person)
    unaware = [_knows(c, shell, person, ahead.stop.id)] if ahead.stop else []
    told = ft.Semantics(content=c.stack([c.lead(lines[0]), *unaware, *[c.body(line) for line in lines[1:]]]),
                        live_region=True)
    body = [c.title(says.KEPT), c.head(says.MEANS), told, *send,
            c.link(says.TO_DIARY, safe(shell, lambda _: shell.go("/diary")))]
    return body, [c.main_button(says.TO_TODAY, safe(shell, lambda _: shell.go("/today")))]
