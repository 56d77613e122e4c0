"""Sending the diary to the coach, the copies to keep, and the coach's messages."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

import flet as ft

from app.actions.files import sending
from app.actions.files.coach_heard import coach_of, heard_of_record
from app.actions.files.sending import HandedOn, Prepared
from app.actions.people import current_person
from app.device.abilities import Handed
from app.domain.dosing.way_back import way_back
from app.domain.model.person import Person
from app.storage import records
from app.ui.client.nav import client_nav
from app.ui.client.send.messages import MessagesPart
from app.ui.client.today.coach_told import coach_line
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.buttons import Press
from app.ui.shell.local_times import here
from app.ui.shell.shell import Shell, safe
from app.words.client import send as says
from app.words.client.today import said


class SendingWay(Enum):
    """How it leaves."""

    SHARE = "share"
    SAVE = "save"
    COPY = "copy"


class Copy(Enum):
    """Which copy to keep."""

    PAGE = "page"
    TABLES = "tables"


TOLD = {Handed.SHARED: says.SHARED, Handed.SAVED: says.SAVED, Handed.UNTOLD: says.UNTOLD,
        Handed.DISMISSED: says.DISMISSED, Handed.FAILED: says.NOT_SHARED}
#: What became of it → how it waits to be sent.
WAITS = {says.SAVED: HandedOn.SAVED, says.UNTOLD: HandedOn.UNTOLD, says.COPIED: HandedOn.COPIED}


@dataclass(frozen=True)
class Sending:
    """What became of the last press; `busy` while it is being sealed."""

    busy: bool = False
    told: str = ""


@ft.component
def SendScreen(shell: Shell) -> ft.Control:
    """What goes, to whom, and the ways."""
    now, put = ft.use_state(Sending())
    c, nav, person = shell.card(), client_nav(shell, "send"), current_person(shell.store)
    if person is None:
        return c.page([], nav=nav)
    coach = coach_of(shell.store, person)

    async def leave(way: SendingWay) -> None:
        put(Sending(busy=True))
        told = ""
        try:
            told = await _leave(shell, person, way)
        finally:
            put(Sending(told=told))

    async def keep(copy: Copy) -> None:
        name, data = (sending.readable_copy if copy is Copy.PAGE else sending.tables_copy)(shell.store, person)
        saved = await shell.device.files.save_bytes(name, data)
        put(Sending(told=says.KEPT_COPY if saved else says.NOT_SAVED))

    own = [c.head(says.OWN_HEAD), c.body(said(says.OWN, person.asked)), c.side_by_side([
        c.button(says.PAGE, safe(shell, lambda _: shell.run(keep, Copy.PAGE)), icon=ft.Icons.DESCRIPTION_SHARP),
        c.button(says.TABLES, safe(shell, lambda _: shell.run(keep, Copy.TABLES)), icon=ft.Icons.TABLE_CHART_SHARP),
    ])]
    told = [c.notice(now.told, icon=ft.Icons.INFO_SHARP)] if now.told else []
    if coach is None:
        act = c.button(says.TO_PROGRAMME, safe(shell, lambda _: shell.go("/programme")))
        return c.page([c.title(says.TITLE), *told, c.empty(says.NO_COACH_HEAD, says.NO_COACH, [act]), *own], nav=nav)

    def press(way: SendingWay) -> Press:
        return None if now.busy else safe(shell, lambda _: shell.run(leave, way))

    main = c.main_button(says.WORKING if now.busy else says.send_to(coach.name, person.asked), press(SendingWay.SHARE),
                         size=t.T_HEAD)
    others = c.side_by_side([
        c.button(says.SAVE_FILE, press(SendingWay.SAVE), icon=ft.Icons.SAVE_ALT_SHARP),
        c.button(says.COPY, press(SendingWay.COPY), icon=ft.Icons.COPY_SHARP),
    ])
    last = _last(c, shell, person, lambda: put(Sending(told=says.SAID_SENT)))
    return c.page([
        c.title(says.TITLE), *told, *_stopped(c, shell, person), main, c.soft(says.only(coach.name)),
        *last, c.head(says.WAYS), others,
    ], nav=nav, beside=[*_goes(c, shell, person), MessagesPart(shell, person, coach), *own])


async def _leave(shell: Shell, person: Person, way: SendingWay) -> str:
    """Seals it, hands it over, and says what became of it."""
    ready = await sending.make_return(shell.store, shell.clock, person.id)
    told = await _handed(shell, ready, way)
    if told == says.SHARED:
        sending.note_sent(shell.store, shell.clock, person.id, ready)
    elif told in WAITS:
        sending.note_waiting(shell.store, shell.clock, person.id, ready, WAITS[told])
    return told


async def _handed(shell: Shell, ready: Prepared, way: SendingWay) -> str:
    files = shell.device.files
    if way is SendingWay.SHARE:
        return TOLD[await files.share(ready.name, ready.data)]
    if way is SendingWay.SAVE:
        return says.SAVED if await files.save_bytes(ready.name, ready.data) else says.NOT_SAVED
    return says.COPIED if await files.copy_text(ready.text) else says.NOT_SAVED


def _stopped(c: Card, shell: Shell, person: Person) -> list[ft.Control]:
    """A stop that still waits for a go-ahead and has not been sent: that the coach does not know, and whom to call."""
    with shell.store.read() as db:
        stop = way_back(records.all_records(db, person.id)).stop
    if stop is None:
        return []
    heard = heard_of_record(shell.store, person, stop.id)
    line = c.lead(coach_line(shell, person, heard))
    if heard.sent is not None:
        return [line]
    lines = [line, c.body(says.stopped(stop.because)),
             c.body(says.whom_to_call(person.emergency_number, person.emergency_contact))]
    return [c.harm_box(c.stack(lines))]


def _last(c: Card, shell: Shell, person: Person, done: Callable[[], None]) -> list[ft.Control]:
    """What waits to be sent by hand, and what was sent last."""
    sent, new = sending.last_sent(shell.store, person.id), sending.unsent(shell.store, person.id)
    pieces: list[ft.Control] = [*_waiting(c, shell, person, done), c.head(says.SENT_HEAD)]
    if sent is None:
        return [*pieces, c.body(says.NEVER)]
    when = says.last_time(sent.number, here(shell, sent.utc))
    return [*pieces, c.body(when), c.body(says.unsent(new))]


def _waiting(c: Card, shell: Shell, person: Person, done: Callable[[], None]) -> list[ft.Control]:
    waiting = sending.waiting_return(shell.store, person.id)
    if waiting is None:
        return []

    def sent(_: object) -> None:
        sending.confirm_sent(shell.store, shell.clock, person.id)
        done()

    act = c.button(says.SENT_IT, safe(shell, sent), icon=ft.Icons.CHECK_SHARP)
    said = says.waiting(waiting.number, waiting.left, here(shell, waiting.utc))
    return [c.notice(said, next_step=says.waiting_next(waiting.left), acts=[act], icon=ft.Icons.OUTBOX_SHARP)]


def _goes(c: Card, shell: Shell, person: Person) -> list[ft.Control]:
    """What they agreed to, and what stays."""
    goes = [words for key, words in says.KINDS if key in person.sends]
    stays = [words for key, words in says.KINDS if key not in person.sends]
    pieces: list[ft.Control] = [c.head(says.GOES), *[c.body(w) for w in (said(says.ALWAYS, person.asked), *goes)]]
    pieces += [c.head(says.STAYS), *[c.body(w) for w in stays]] if stays else []
    return [*pieces, c.link(says.CHANGE_SENDS, safe(shell, lambda _: shell.go("/settings")))]
