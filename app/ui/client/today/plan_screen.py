"""The plan: week by week what there is, what was done when, which weeks are lighter, what comes next."""
from __future__ import annotations

import flet as ft

from app.actions.people import current_person
from app.actions.training.today import strength_sessions, today
from app.domain.dosing.way_back import sessions_of
from app.domain.progress.due_session import progress
from app.domain.progress.planned_days import in_block
from app.ui.client.nav import client_nav
from app.ui.client.today.locked_card import goes
from app.ui.client.today.notes import next_block
from app.ui.client.today.plan_day import DayPage, around_plan
from app.ui.client.today.plan_weeks import PlanWeeks
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words.client import plan as plans
from app.words.client import today as words

#: Widest column of the plan, px: the weeks and the one that is open stand beside each other.
WIDEST = 1000


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
    ]
    coming = next_block(c, shell, card)
    pieces += coming if coming else _through(c, person.asked) if through else []
    done_count = sum(1 for due in plan if due.done_on)
    at = plans.where_one_is(card.due.week if card.due else 1, plan[-1].week, done_count, len(plan)) if plan else ""
    weeks = [PlanWeeks(shell, card, plan, c.room(nav, WIDEST))] if plan else []
    pieces += [c.text(at, t.T_LEAD, t.SEMI, height=1.2), *weeks] if plan else []
    pieces += [c.soft(words.said(plans.PLAN_NOT, person.asked))]
    pieces += [c.soft(card.programme.about)] if card.programme.about else []
    pieces.append(around_plan(c, shell, person))
    pieces.append(c.button(words.OPEN_PROGRAMME, goes(shell, "/programme")))
    return c.page(pieces, nav=nav, measure=WIDEST)


def _through(c: Card, asked: str) -> list[ft.Control]:
    return [c.notice(words.said(plans.PLAN_THROUGH, asked), icon=ft.Icons.INFO_SHARP)]
