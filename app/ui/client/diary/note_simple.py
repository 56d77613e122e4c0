"""An illness, a medicine, moving about, a pause: one page each, a tap or two."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

import flet as ft

from app.actions.training import events as acting
from app.actions.training.events import Noted
from app.domain.dosing import events as e
from app.domain.model.diary import Symptom
from app.domain.model.person import Person
from app.domain.model.thresholds import TELL_BACK_DAYS
from app.domain.progress.planned_days import DAYS_AHEAD
from app.ui.client.diary.note_written import written_page
from app.ui.client.nav import client_nav
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.profile.questions import both_ways
from app.ui.client.today.day_choice import days_ahead, days_back
from app.ui.client.today.locked_card import goes
from app.ui.parts import AnswerOption, Card, options
from app.ui.shell.shell import Shell, safe
from app.words.client import events as words
from app.words.client import today as today_words
from app.words.client.today import said


@dataclass(frozen=True)
class NoteDraft:
    """What was chosen so far, and what was written down."""

    day: date
    what: str = ""
    number: int | None = None
    complaint: str = ""
    noted: Noted | None = None


def _use_told(shell: Shell) -> Held[NoteDraft]:
    return use_held(lambda: NoteDraft(shell.clock.local(shell.clock.now()).day))


def _again(held: Held[NoteDraft]) -> Callable[[], None]:
    return lambda: held.set(replace(held.value, noted=None))


def _written(shell: Shell, held: Held[NoteDraft], lines: list[str]) -> ft.Control:
    c, noted = shell.card(), held.value.noted
    assert noted is not None
    return written_page(c, shell, noted, [c.body(line) for line in lines], _again(held))


def _put(shell: Shell, held: Held[NoteDraft], field: str) -> Callable[[Any], Any]:
    return safe(shell, lambda value: held.set(replace(held.value, complaint="", **{field: value})))


def _page(c: Card, shell: Shell, held: Held[NoteDraft], key: str, body: list[ft.Control], save: Callable[[Any], None]
          ) -> ft.Control:
    complaint: list[ft.Control] = [c.notice(held.value.complaint)] if held.value.complaint else []
    foot = both_ways(c, today_words.BACK, goes(shell, "/note"), words.WRITE_DOWN, safe(shell, save))
    page = c.page(body, [*complaint, foot], client_nav(shell, "diary"))
    page.key = key
    return page


def _list(c: Card, names: Mapping[str, str], chosen: str, choose: Callable[[Any], Any]) -> ft.Control:
    return c.one_of_list(options(*names.items()), chosen, choose)


@ft.component
def IllnessPage(shell: Shell, person: Person) -> ft.Control:
    """Which, and whether there is a fever."""
    c, held = shell.card(), _use_told(shell)
    told, asked = held.value, person.name if person.led_by else ""
    if told.noted is not None:
        stopped = told.noted.event.stopped_by == Symptom.FEVER
        return _written(shell, held, list(words.ILL_STOPPED if stopped else words.ILL_LIGHT))

    def save(_: Any) -> None:
        now = held.value
        if now.number is None:
            held.set(replace(now, complaint=words.ILL_MISSING))
            return
        what = now.what or "other_illness"
        noted = acting.note_illness(shell.store, shell.clock, person, what, fever=bool(now.number))
        held.set(replace(now, noted=noted))

    fever = None if told.number is None else bool(told.number)
    body = [c.title(said(words.ILL_HEAD, asked)), c.head(said(words.ILL_FEVER, asked)),
            c.yes_no(words.ILL_FEVER_SHORT, fever, _put(shell, held, "number")),
            c.head(words.ILL_WHICH), _list(c, words.ILLNESSES, told.what, _put(shell, held, "what"))]
    return _page(c, shell, held, "illness", body, save)


@ft.component
def MedicinePage(shell: Shell, person: Person) -> ft.Control:
    """Which kind; a tap writes it down."""
    c, held = shell.card(), _use_told(shell)
    noted = held.value.noted
    if noted is not None:
        now = words.MEDICINE_NOW.get(noted.event.what)
        return _written(shell, held, [*([now] if now else []), words.MEDICINE_ASK])

    def choose(what: str) -> None:
        held.set(replace(held.value, noted=acting.note_medicine(shell.store, shell.clock, person, what)))

    rows = [c.button(name, safe(shell, _with(choose, what)), height=64) for what, name in words.MEDICINES.items()]
    body = [c.title(words.MEDICINE_HEAD), c.head(words.MEDICINE_WHICH), c.soft(words.MEDICINE_WHICH_HINT),
            c.stack(rows)]
    page = c.page(body, [c.button(today_words.BACK, goes(shell, "/note"))], client_nav(shell, "diary"))
    page.key = "medicine"
    return page


def _with(choose: Callable[[str], None], what: str) -> Callable[[Any], None]:
    return lambda _: choose(what)


@ft.component
def ActivityPage(shell: Shell, person: Person) -> ft.Control:
    """What, how long, and on which day; a walk of today needs two taps."""
    c, held = shell.card(), _use_told(shell)
    told = held.value
    if told.noted is not None:
        return _written(shell, held, [])

    def save(_: Any) -> None:
        now = held.value
        if not now.what or now.number is None:
            held.set(replace(now, complaint=words.ACTIVITY_MISSING))
            return
        noted = acting.note_activity(shell.store, shell.clock, person, now.what, now.number, now.day)
        held.set(replace(now, noted=noted))

    today = shell.clock.local(shell.clock.now()).day
    minutes = [AnswerOption(n, str(n), name=words.minutes_name(n)) for n in words.MINUTES]
    body = [c.title(words.ACTIVITY_HEAD), _list(c, words.ACTIVITIES, told.what, _put(shell, held, "what")),
            c.head(words.ACTIVITY_MINUTES), c.one_of(minutes, told.number, _put(shell, held, "number")),
            c.head(words.FALL_WHEN), days_back(c, today, TELL_BACK_DAYS, told.day, _put(shell, held, "day"))]
    return _page(c, shell, held, "activity", body, save)


@ft.component
def PausePage(shell: Shell, person: Person) -> ft.Control:
    """From when, and for how long."""
    c, held = shell.card(), _use_told(shell)
    told = held.value
    if told.noted is not None:
        return _written(shell, held, [words.PAUSE_AFTER])

    def save(_: Any) -> None:
        now = held.value
        if now.number is None:
            held.set(replace(now, complaint=words.PAUSE_MISSING))
            return
        held.set(replace(now, noted=acting.note_pause(shell.store, shell.clock, person, now.day, now.number)))

    today = shell.clock.local(shell.clock.now()).day
    lengths = [AnswerOption(days, name) for days, name in words.PAUSE_WEEKS.items() if days <= e.LONGEST_PAUSE.days]
    body = [c.title(words.PAUSE_TITLE), c.body(words.PAUSE_WHY), c.head(words.PAUSE_LENGTH),
            c.one_of(lengths, told.number, _put(shell, held, "number")), c.head(words.PAUSE_FROM),
            days_ahead(c, today, DAYS_AHEAD, told.day, _put(shell, held, "day"))]
    return _page(c, shell, held, "pause", body, save)
