"""The faces of the card on which there is no Start: what happened, what to do, and the way back."""
from __future__ import annotations

from datetime import timedelta
from typing import Any

import flet as ft

from app.actions.files.coach_heard import heard_of_record, heard_of_screening
from app.actions.training.today import Today
from app.domain.dosing.way_back import Stop
from app.domain.model.level import Level
from app.domain.model.record import CheckIn, Event, SessionDone
from app.domain.model.thresholds import FEVER_FREE
from app.ui.client.reach import call_button, reach
from app.ui.client.today.coach_told import coach_told
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words import signs as sign_words
from app.words.client import coach_told as words
from app.words.client import stop_questions, today, yes
from app.words.reasons import reason_text

NUMBER = 92


def number_size(c: Card, number: str) -> float:
    """Size of the number to call, px: as large as its box allows, in one line also in large print."""
    return min(NUMBER, (c.room() - 60) / (max(3, len(number)) * t.LETTER * c.scale))


def goes(shell: Shell, route: str) -> Any:
    """A handler that shows another screen."""
    return safe(shell, lambda _: shell.go(route))


def stop_causes(card: Today, stop: Stop | None) -> list[str]:
    """What stopped them, as plainly as the records say it."""
    record = next((r for r in card.records if stop and r.stamp.id == stop.id), None)
    signs: tuple[str, ...] = ()
    if isinstance(record, CheckIn):
        signs = record.signs
    elif isinstance(record, SessionDone) and record.sign:
        signs = (record.sign,)
    told = [sign_words.sign_words(sign) for sign in signs]
    if card.check_in and card.timeline and (stop is None or stop.id == card.check_in.stamp.id):
        told += [reason_text(r, card.person.asked) for r in card.timeline.dose.reasons
                 if r.level >= Level.ASK_FIRST and "symptom" not in dict(r.data)]
    return list(dict.fromkeys(told))


def stopped(c: Card, shell: Shell, card: Today) -> tuple[list[ft.Control], list[ft.Control]]:
    """A stop: in an emergency the number in large figures first."""
    stop = card.stop
    level = max(stop.level if stop else 0, card.timeline.dose.level if card.check_in and card.timeline else 0)
    urgent = level >= Level.EMERGENCY
    head = today.URGENT_HEAD if urgent else today.STOP_HEAD
    box: list[ft.Control] = [c.title(head, t.T_HEAD)]
    if urgent:
        number = card.person.emergency_number
        box += [c.text(today.call_words(), t.T_LEAD, t.EXTRA),
                c.text(number, number_size(c, number), t.EXTRA, height=1.0)]
        box += [c.body(line) for line in sign_words.what_to_do("", number, card.person.asked)[1:]]
        box += reach(c, card.person.emergency_contact)
    told = stop_causes(card, stop)
    causes: list[ft.Control] = [c.strong(line) for line in told]
    if stop:
        causes.append(c.soft(yes.stop_because(stop.because, here(shell, stop), told)))
    meant = today.URGENT_WORDS if urgent else today.said(today.STOP_WORDS, card.person.asked)
    box += [c.rule(), *causes, c.body(meant)]
    knows = coach_unaware(c, shell, card, stop.id if stop else "")
    body: list[ft.Control] = [c.harm_box(c.stack(box, 12)), *knows, *way_back(c, shell, stop)]
    if card.check_in and (stop is None or stop.id == card.check_in.stamp.id):
        body.append(c.link(today.ANSWERS_WRONG, goes(shell, "/check-in")))
    elif stop and any(isinstance(r, Event) and r.stamp.id == stop.id for r in card.records):
        body.append(c.link(today.ANSWERS_WRONG, goes(shell, f"/diary/{stop.id}")))
    pinned = [c.strong(today.call_words()), call_button(c, card.person.emergency_number)] if urgent else \
        _whom(c, card, stop.yes_from if stop else "")
    return body, [*pinned, c.button(today.RECORD_YES, goes(shell, "/yes"))]


def _whom(c: Card, card: Today, yes_from: str) -> list[ft.Control]:
    """Whom to ask and how to reach them stays in view; recording the answer comes after it."""
    source = card.source
    said = c.strong(words.whom_to_ask(yes_from, source.coach if source else ""))
    return [said, *(reach(c, source.contact) if source and yes_from == "coach" else [])]


def here(shell: Shell, stop: Stop) -> Any:
    """The instant of a stop on the clock of the place."""
    return stop.utc + timedelta(minutes=shell.clock.local(stop.utc).offset_min)


def coach_unaware(c: Card, shell: Shell, card: Today, record_id: str) -> list[ft.Control]:
    """Whether the coach has heard of what that record says."""
    contact = card.source.contact if card.source else ""
    told = record_id or (card.check_in.stamp.id if card.check_in else "")
    return coach_told(c, shell, card.person, heard_of_record(shell.store, card.person, told), contact)


def way_back(c: Card, shell: Shell, stop: Stop | None) -> list[ft.Control]:
    """Whose yes it takes."""
    pieces: list[ft.Control] = [c.head(today.WAY_BACK_HEAD)]
    pieces.append(c.body(today.WHO_MAY_SAY_YES[stop.yes_from if stop else "clinician"]))
    if stop and stop.yes_from == "self":
        pieces.append(c.body(yes.fever_until(here(shell, stop) + FEVER_FREE)))
    return pieces


def waiting(c: Card, shell: Shell, card: Today) -> tuple[list[ft.Control], list[ft.Control]]:
    """Stop questions that were ticked."""
    ticked: list[ft.Control] = [c.strong(stop_questions.STOPS.get(s, s)) for s in sorted(card.person.waiting)]
    now = stop_questions.call_line(card.person.emergency_number)
    box = c.harm_box(c.stack([
        c.title(today.WAITING_HEAD, t.T_HEAD), c.rows(ticked),
        c.body(today.said(today.WAITING_WORDS, card.person.asked)), c.rule(),
        c.strong(stop_questions.OUTCOME_EMERGENCY), c.body(now),
    ], 12))
    again = c.link(today.ANSWERS_CHANGED, goes(shell, "/welcome/questions"))
    contact = card.source.contact if card.source else ""
    heard = heard_of_screening(shell.store, card.person)
    knows = coach_told(c, shell, card.person, heard, contact)
    return [box, *knows, again], [*_whom(c, card, ""), c.button(today.RECORD_YES, goes(shell, "/yes"))]
