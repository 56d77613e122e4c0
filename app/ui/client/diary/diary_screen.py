"""The diary: what is still open, a row for each week, and six weeks in two charts; one entry under its own address."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from typing import Any

import flet as ft

from app.actions.people import current_person
from app.actions.training.afterwards import unanswered
from app.domain.measures.weeks import weeks_of
from app.domain.model.record import Record
from app.domain.model.thresholds import FORTNIGHT_DAYS
from app.storage import records
from app.ui.client.diary.diary_charts import charts
from app.ui.client.diary.diary_entry import EntryPage
from app.ui.client.diary.diary_weeks import week_row
from app.ui.client.diary.other_entries import note_something, week_in_minutes
from app.ui.client.nav import client_nav
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import diary as says
from app.words.client import diary_weeks as words

Go = Callable[[Any], Any]

WEEKS_AT_FIRST, WEEKS_MORE = 6, 6
INDENT = 18.0
"""What an open week stands in from the page's edge, px."""


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
    width = c.room(nav, beside=True)
    span_ms = max((s.plan.total_ms for week in weeks[:shown] for s in week.sessions), default=0)
    body = [c.title(says.TITLE), *_open(c, shell, everything, today - timedelta(days=FORTNIGHT_DAYS)),
            note_something(c, shell), c.head(words.WEEKS_HEAD)]
    body.append(c.rows([week_row(shell, week, today, person.asked, at == 0, width - INDENT, span_ms)
                        for at, week in enumerate(weeks[:shown])], 4))
    if len(weeks) > shown:
        body.append(c.button(says.OLDER, safe(shell, lambda _: show(shown + WEEKS_MORE))))
    body += [c.caption(words.FOLDED_KEY)] if span_ms else []
    return c.page(body, nav=nav, beside=[*charts(c, everything, today, c.room_beside(nav)),
                                         *week_in_minutes(c, everything, today)])


def _open(c: Card, shell: Shell, everything: Sequence[Record], since: date) -> list[ft.Control]:
    """Sessions of which nobody has said how they were."""
    rows = [c.row(says.how_was(done), "", _to(shell, f"/afterwards/{done.stamp.id}"))
            for done in unanswered(everything, since)]
    return [c.box(c.rows(rows, 2))] if rows else []


def _to(shell: Shell, route: str) -> Go:
    return safe(shell, lambda _: shell.go(route))
