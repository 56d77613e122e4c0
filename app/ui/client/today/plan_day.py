"""A day for a session of the plan: shown under it, and chosen on a page of its own."""
from __future__ import annotations

from datetime import date

import flet as ft

from app.actions.people import current_person
from app.actions.training import planning
from app.actions.training.today import Today, strength_sessions, today
from app.domain.dosing.way_back import sessions_of
from app.domain.model.person import Person
from app.domain.model.record import EventKind
from app.domain.progress.due_session import Due, progress
from app.domain.progress.planned_days import DAYS_AHEAD, in_block, too_soon
from app.ui.client.nav import client_nav
from app.ui.client.today.day_choice import days_ahead
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import checks
from app.words.client import events as words
from app.words.client import planning as plans
from app.words.client import today as today_words


def day_of(shell: Shell, card: Today, due: Due) -> date | None:
    """The day that was chosen for it."""
    return planning.chosen_day(shell.store, card.person, card.programme.id, due) if card.programme else None


def day_line(c: Card, shell: Shell, card: Today, due: Due, name: str) -> list[ft.Control]:
    """The chosen day, and the way to choose one; only for what is not done yet in the week that one is in."""
    if due.done_on or card.due is None or card.due.repeats or due.week != card.due.week:
        return []
    day = day_of(shell, card, due)
    said: list[ft.Control] = [c.soft(plans.planned_line(day, card.day))] if day else []
    return [*said, c.link(plans.MOVE, goes(shell, f"/plan/{due.week}-{due.number}"), name=plans.move_name(name))]


def around_plan(c: Card, shell: Shell, person: Person) -> ft.Control:
    """The goal, the checks, and a pause."""
    goal = words.goal_quote(person.goals) if person.goals.strip() else words.KIND_NOTES[EventKind.GOAL]
    rows: list[ft.Control] = [
        c.row(words.NAMES[EventKind.GOAL], goal, goes(shell, "/note/goal"), name=words.NAMES[EventKind.GOAL]),
        c.row(checks.TITLE, checks.PLAN_NOTE, goes(shell, "/checks"), name=checks.TITLE),
        c.row(words.PAUSE_TITLE, words.KIND_NOTES[EventKind.PAUSE], goes(shell, "/note/pause"), name=words.PAUSE_TITLE),
    ]
    return c.stack([c.head(plans.AROUND_HEAD), c.rows(rows, 2)])


@ft.component
def DayPage(shell: Shell) -> ft.Control:
    """`/plan/WEEK-NUMBER`: the next two weeks to choose from."""
    c, nav, person = shell.card(), client_nav(shell, "plan"), current_person(shell.store)
    card = today(shell.store, shell.clock, person.id) if person else None
    due = _due(card, shell.route_id()) if card else None
    if card is None or card.programme is None or card.source is None or due is None:
        return c.page([c.title(plans.MOVE_TITLE)], [c.button(today_words.BACK, goes(shell, "/plan"))], nav)
    programme = card.programme.id
    session = card.source.session(due.session)
    chosen = day_of(shell, card, due)

    def choose(day: date | None) -> None:
        planning.choose_day(shell.store, card.person, programme, due, day)
        shell.refresh()

    body: list[ft.Control] = [
        c.title(plans.MOVE_TITLE), c.lead(session.name if session else due.session), c.body(plans.MOVE_NOTE),
        days_ahead(c, card.day, DAYS_AHEAD, chosen, safe(shell, choose)),
    ]
    strength = due.session in strength_sessions(card.source)
    if chosen and strength and too_soon(card.records, chosen):
        soon = plans.MOVE_SOON if chosen > card.day else plans.MOVE_TODAY_SOON
        body.append(c.notice(soon, icon=ft.Icons.INFO_SHARP))
    body += [c.link(plans.MOVE_CLEAR, safe(shell, lambda _: choose(None)))] if chosen else []
    page = c.page(body, [c.button(today_words.DONE, goes(shell, "/plan"))], nav)
    page.key = "plan-day"
    return page


def _due(card: Today, words_of_it: str) -> Due | None:
    week, _, number = words_of_it.partition("-")
    if card.programme is None or card.source is None or not (week.isdigit() and number.isdigit()):
        return None
    done = in_block(card.person, sessions_of(card.records))
    plan = progress(card.programme, done, strength_sessions(card.source))
    return next((d for d in plan if (d.week, d.number) == (int(week), int(number)) and d.done_on is None), None)
