"""The diary: what is still open, six weeks in two charts, and every day by weeks; one entry under its own address."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from typing import Any

import flet as ft

from app.actions.people import current_person
from app.actions.training.afterwards import unanswered
from app.domain.measures.weeks import CalendarWeek, DiaryDay, weeks_of
from app.domain.model.level import Level
from app.domain.model.record import Record, SessionDone
from app.domain.model.thresholds import FORTNIGHT_DAYS
from app.storage import records
from app.ui.client.diary.diary_charts import charts
from app.ui.client.diary.diary_entry import EntryPage
from app.ui.client.diary.other_entries import entry_words, note_something, week_in_minutes
from app.ui.client.nav import client_nav
from app.ui.parts import Card
from app.ui.parts.time_strip import review_strip
from app.ui.shell.shell import Shell, safe
from app.words.client import diary as says
from app.words.client.today import day_words
from app.words.text import dose_sentence

Go = Callable[[Any], Any]

WEEKS_AT_FIRST, WEEKS_MORE = 3, 6


@ft.component
def DiaryScreen(shell: Shell) -> ft.Control:
    """The list, or the entry that the address names."""
    shown, show = ft.use_state(WEEKS_AT_FIRST)
    c, nav, person = shell.card(), client_nav(shell, "diary"), current_person(shell.store)
    if person is None:
        return c.page([], nav=nav)
    if shell.route_id():
        return EntryPage(shell)
    with shell.store.read() as db:
        everything = records.all_records(db, person.id)
    today = shell.clock.local(shell.clock.now()).day
    weeks = weeks_of(everything)
    if not weeks:
        go = c.button(says.TO_TODAY, safe(shell, lambda _: shell.go("/today")))
        return c.page([c.title(says.TITLE), c.empty(says.EMPTY_HEAD, says.EMPTY, [go]), note_something(c, shell)],
                      nav=nav)
    width = c.room(nav)
    span_ms = max((s.plan.total_ms for week in weeks[:shown] for s in week.sessions), default=0)
    body = [c.title(says.TITLE), *_open(c, shell, everything, today - timedelta(days=FORTNIGHT_DAYS)),
            note_something(c, shell), *charts(c, everything, today, width), *week_in_minutes(c, everything, today)]
    for week in weeks[:shown]:
        body.append(c.head(says.week_head(week.monday, today), says.week_aside(week.sessions)))
        body += _days(c, shell, week, width, span_ms)
    if len(weeks) > shown:
        body.append(c.button(says.OLDER, safe(shell, lambda _: show(shown + WEEKS_MORE))))
    return c.page([*body, c.caption(says.STRIP_KEY)], nav=nav)


def _open(c: Card, shell: Shell, everything: Sequence[Record], since: date) -> list[ft.Control]:
    """Sessions of which nobody has said how they were."""
    rows = [c.row(says.how_was(done), "", _to(shell, f"/afterwards/{done.stamp.id}"))
            for done in unanswered(everything, since)]
    return [c.box(c.rows(rows, 2))] if rows else []


def _to(shell: Shell, route: str) -> Go:
    return safe(shell, lambda _: shell.go(route))


def _days(c: Card, shell: Shell, week: CalendarWeek, width: float, span_ms: int) -> list[ft.Control]:
    return [c.rows([_day(c, shell, day, width, span_ms) for day in week.days])]


def _day(c: Card, shell: Shell, day: DiaryDay, width: float, span_ms: int) -> ft.Control:
    pieces: list[ft.Control] = [c.subhead(day_words(day.day))]
    for record in day.records:
        pieces += _entry(c, shell, record, width, span_ms)
    return c.stack(pieces, 6)


def _entry(c: Card, shell: Shell, record: Record, width: float, span_ms: int) -> list[ft.Control]:
    to, day = _to(shell, f"/diary/{record.stamp.id}"), day_words(record.stamp.local)
    if isinstance(record, SessionDone):
        return _session(c, record, to, width, span_ms)
    head, line = entry_words(record)
    return [c.row(head, line, to, name=f"{head}, {day}")]


def _session(c: Card, done: SessionDone, to: Go, width: float, span_ms: int) -> list[ft.Control]:
    name = f"{done.name}, {day_words(done.stamp.local)}"
    pieces = [c.row(done.name, says.session_line(done), to, name=name)]
    if done.plan.steps:
        pieces.append(review_strip(c, done.plan, done.done, width, span_ms=span_ms))
    if done.plan.dose.level >= Level.REDUCED:
        pieces.append(c.soft(dose_sentence(done.plan.dose)))
    return pieces
