"""The plan: week by week what there is, what was done when, which weeks are lighter, what comes next."""
from __future__ import annotations

from itertools import groupby

import flet as ft

from app.actions.people import current_person
from app.actions.training.today import Today, strength_sessions, today
from app.domain.dosing.history import sessions_of
from app.domain.progress.due_session import Due, progress
from app.domain.progress.planned_days import in_block
from app.ui.client.nav import client_nav
from app.ui.client.today.locked_card import goes
from app.ui.client.today.notes import next_block
from app.ui.client.today.plan_day import DayPage, around_plan, day_line
from app.ui.parts import Card
from app.ui.shell.shell import Shell
from app.words.client import plan as plans
from app.words.client import today as words


@ft.component
def PlanScreen(shell: Shell) -> ft.Control:
    """Every week of the programme that is followed."""
    c, nav, person = shell.card(), client_nav(shell, "plan"), current_person(shell.store)
    if person is None:
        return c.page([], nav=nav)
    if shell.route_id():
        return DayPage(shell)
    card = today(shell.store, shell.clock, person.id)
    if card.source is None or card.programme is None:
        act = c.button(words.OPEN_PROGRAMME, goes(shell, "/programme"))
        body = [c.title(plans.PLAN_TITLE), c.empty(words.NO_PROGRAMME_HEAD, words.NO_PROGRAMME, [act])]
        return c.page(body, nav=nav)
    done = in_block(card.person, sessions_of(card.records))
    plan = progress(card.programme, done, strength_sessions(card.source))
    through = all(due.done_on for due in plan)
    pieces: list[ft.Control] = [
        c.soft(words.programme_of(card.source.coach)), c.title(card.programme.name),
        *([c.body(card.programme.about)] if card.programme.about else []),
        c.soft(words.said(plans.PLAN_NOT, person.asked)),
    ]
    coming = next_block(c, shell, card)
    pieces += coming if coming else _through(c, person.asked) if through else []
    for week, sessions in groupby(plan, key=lambda due: due.week):
        pieces.append(_week(c, shell, card, week, list(sessions)))
    pieces.append(around_plan(c, shell, person))
    pieces.append(c.button(words.OPEN_PROGRAMME, goes(shell, "/programme")))
    return c.page(pieces, nav=nav)


def _through(c: Card, asked: str) -> list[ft.Control]:
    return [c.notice(words.said(plans.PLAN_THROUGH, asked), icon=ft.Icons.INFO_SHARP)]


def _week(c: Card, shell: Shell, card: Today, week: int, sessions: list[Due]) -> ft.Control:
    lighter = plans.LIGHTER if sessions[0].lighter else ""
    open_ = any(due.done_on is None for due in sessions)
    rows = [_session(c, shell, card, due) for due in sessions]
    note: list[ft.Control] = [c.body(words.week_again(sessions[0].again))] if sessions[0].again and open_ else []
    note += [c.soft(sessions[0].note)] if sessions[0].note else []
    return c.stack([c.head(plans.week_head(week), lighter), *note, c.rows(rows, 4)])


def _session(c: Card, shell: Shell, card: Today, due: Due) -> ft.Control:
    source = card.source
    session = source.session(due.session) if source else None
    name = session.name if session else due.session
    if due.done_on:
        return c.row(name, plans.done_on(due.done_on), name=name)
    is_next = card.due is not None and (due.week, due.number) == (card.due.week, card.due.number)
    route = "/today" if is_next else f"/today/{due.session}"
    spoken = plans.plan_name(due.week, due.number, name)
    row = c.row(name, "", goes(shell, route), trailing=plans.NEXT_ONE if is_next else "", name=spoken)
    moving = day_line(c, shell, card, due, name)
    return c.stack([row, *moving], 0) if moving else row
