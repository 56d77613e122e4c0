"""A fall: four questions, what to do, and whether balance is done with a hand on something from now on."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

import flet as ft

from app.actions.training import events as acting
from app.actions.training.events import Noted
from app.domain.dosing import events as e
from app.domain.model.client import Condition
from app.domain.model.person import Person
from app.domain.model.thresholds import TELL_BACK_DAYS
from app.ui.client.diary.note_written import urgent, written_page
from app.ui.client.nav import client_nav
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.profile.questions import both_ways
from app.ui.client.today.day_choice import days_back
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import events as words
from app.words.client import today as today_words
from app.words.client.today import said


@dataclass(frozen=True)
class FallDraft:
    """The answers so far. `hold` None: not said yet whether balance wants a hand on something."""

    day: date
    answers: dict[str, bool] = field(default_factory=dict)
    note: str = ""
    complaint: str = ""
    noted: Noted | None = None
    hold: bool | None = None


@ft.component
def FallPage(shell: Shell, person: Person) -> ft.Control:
    """The questions; once written down, what follows."""
    c, held = shell.card(), use_held(lambda: FallDraft(shell.clock.local(shell.clock.now()).day))
    if held.value.noted is not None:
        return written_page(c, shell, held.value.noted, _follows(c, shell, person, held),
                            lambda: held.set(replace(held.value, noted=None, hold=None)))
    asked = person.name if person.led_by else ""

    def save(_: object) -> None:
        told = held.value
        if set(told.answers) != set(e.FALL_QUESTIONS):
            held.set(replace(told, complaint=words.FALL_MISSING))
            return
        noted = acting.note_fall(shell.store, shell.clock, person, told.day, told.answers, told.note)
        held.set(replace(told, noted=noted, complaint=""))

    complaint: list[ft.Control] = [c.notice(held.value.complaint)] if held.value.complaint else []
    foot = both_ways(c, today_words.BACK, goes(shell, "/note"), words.WRITE_DOWN, safe(shell, save))
    page = c.page([c.title(said(words.FALL_HEAD, asked)), *_questions(c, shell, person, held, asked)],
                  [*complaint, foot], client_nav(shell, "diary"))
    page.key = "fall"
    return page


def _questions(c: Card, shell: Shell, person: Person, held: Held[FallDraft], asked: str) -> list[ft.Control]:
    told = held.value
    today = shell.clock.local(shell.clock.now()).day

    def answer(key: str, yes: bool) -> None:
        held.set(replace(held.value, answers={**held.value.answers, key: yes}, complaint=""))

    pieces: list[ft.Control] = [urgent(c, person, e.FALL_HEAD)] if told.answers.get(e.HEAD) else []
    for key in e.FALL_QUESTIONS:
        pieces += [c.subhead(said(words.FALL_QUESTIONS[key], asked), level=2),
                   c.yes_no(words.FALL_SHORT[key], told.answers.get(key), _answers(shell, answer, key))]
    choose = safe(shell, lambda day: held.set(replace(held.value, day=day)))
    def write(event: Any) -> None:
        held.note(replace(held.value, note=event.control.value or ""))

    return [*pieces, c.subhead(words.FALL_WHEN, level=2), days_back(c, today, TELL_BACK_DAYS, told.day, choose),
            c.field(words.NOTE, told.note, write, lines=2)]


def _answers(shell: Shell, answer: Callable[[str, bool], None], key: str) -> Callable[[bool], None]:
    return safe(shell, lambda yes: answer(key, yes))


def _follows(c: Card, shell: Shell, person: Person, held: Held[FallDraft]) -> list[ft.Control]:
    """What to do now, then the question about balance."""
    told = held.value
    noted = told.noted
    assert noted is not None
    event = noted.event
    lines = words.fall_lines(event.stopped_by, event.answers, person.emergency_number)
    if event.stopped_by == e.FALL_HEAD:
        pieces: list[ft.Control] = [urgent(c, person, e.FALL_HEAD)]
    elif event.stopped_by:
        pieces = [c.harm_box(c.stack([c.strong(lines[0]), *(c.body(line) for line in lines[1:])], 8))]
    else:
        pieces = [c.body(line) for line in lines]
    if event.answers.get(e.ROSE) is False:
        pieces.append(c.note(words.FALL_FLOOR))
    return [*pieces, *_hold(c, shell, held, noted)]


def _hold(c: Card, shell: Shell, held: Held[FallDraft], noted: Noted) -> list[ft.Control]:
    if Condition.FALLS in noted.before.body.conditions:
        return []
    if held.value.hold is not None:
        return [c.note(words.FALL_CONDITION_KEPT)] if held.value.hold else []
    asked = noted.person.name if noted.person.led_by else ""

    def answer(yes: bool) -> None:
        after = acting.hold_on(shell.store, noted) if yes else noted
        held.set(replace(held.value, noted=after, hold=yes))

    return [c.head(said(words.FALL_CONDITION_HEAD, asked)), c.body(said(words.FALL_CONDITION, asked)), c.stack([
        c.button(words.FALL_CONDITION_YES, safe(shell, lambda _: answer(True))),
        c.button(words.FALL_CONDITION_NO, safe(shell, lambda _: answer(False)))])]
