"""Goals in own words: written, and looked at again every four weeks."""
from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from app.actions.training import events as acting
from app.actions.training.events import Noted
from app.domain.dosing import events as e
from app.domain.model.person import Person
from app.ui.client.diary.note_written import written_page
from app.ui.client.nav import client_nav
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.profile.questions import both_ways
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import events as words
from app.words.client import today
from app.words.client.today import said


@dataclass(frozen=True)
class GoalDraft:
    """What is being written, and what was written down."""

    goal: str
    writing: bool
    complaint: str = ""
    noted: Noted | None = None


@ft.component
def GoalPage(shell: Shell, person: Person) -> ft.Control:
    """The goal and whether it still stands, or the field to write one."""
    c, held = shell.card(), use_held(lambda: GoalDraft(person.goals, not person.goals.strip()))
    told = held.value
    if told.noted is not None:
        return _written(c, shell, held, told.noted)
    return _writing(c, shell, person, held) if told.writing else _asking(c, shell, person, held)


def _asking(c: Card, shell: Shell, person: Person, held: Held[GoalDraft]) -> ft.Control:
    asked = person.name if person.led_by else ""

    def looked(what: str) -> Any:
        def tell(_: object) -> None:
            noted = acting.note_goal(shell.store, shell.clock, person, what, person.goals)
            held.set(replace(held.value, noted=noted))
        return safe(shell, tell)

    change = safe(shell, lambda _: held.set(replace(held.value, writing=True)))
    body: list[ft.Control] = [
        c.title(said(words.GOAL_TITLE, asked)), c.box(c.lead(words.goal_quote(person.goals))),
        c.head(words.GOAL_REVIEW_HEAD), c.stack([
            c.button(words.GOAL_STILL, looked(e.KEPT), height=72),
            c.button(words.GOAL_REACHED, looked(e.REACHED), height=72),
            c.button(words.GOAL_CHANGE, change, height=72)]),
    ]
    page = c.page(body, [c.button(today.BACK, goes(shell, "/note"))], client_nav(shell, "diary"))
    page.key = "goal"
    return page


def _writing(c: Card, shell: Shell, person: Person, held: Held[GoalDraft]) -> ft.Control:
    asked = person.name if person.led_by else ""

    def save(_: object) -> None:
        told = held.value
        if not told.goal.strip():
            held.set(replace(told, complaint=words.GOAL_NONE))
            return
        what = e.CHANGED if person.goals.strip() else e.SET
        held.set(replace(told, noted=acting.note_goal(shell.store, shell.clock, person, what, told.goal)))

    def write(event: Any) -> None:
        held.note(replace(held.value, goal=event.control.value or ""))

    complaint: list[ft.Control] = [c.notice(held.value.complaint)] if held.value.complaint else []
    body: list[ft.Control] = [
        c.title(said(words.GOAL_TITLE, asked)),
        c.field(words.GOAL_LABEL, held.value.goal, write, hint=words.GOAL_HINT, lines=3),
    ]
    foot = both_ways(c, today.BACK, goes(shell, "/note"), words.GOAL_SAVE, safe(shell, save))
    page = c.page(body, [*complaint, foot], client_nav(shell, "diary"))
    page.key = "goal-writing"
    return page


def _written(c: Card, shell: Shell, held: Held[GoalDraft], noted: Noted) -> ft.Control:
    def again() -> None:
        before = noted.before.goals
        held.set(GoalDraft(before, not before.strip()))

    if noted.event.what != e.REACHED:
        return written_page(c, shell, noted, [c.body(words.GOAL_KEPT)] if noted.event.what == e.KEPT else [], again)
    another = c.button(words.GOAL_LABEL, safe(shell, lambda _: held.set(GoalDraft("", True))))
    return written_page(c, shell, noted, [c.body(words.GOAL_REACHED_NEXT), another], again)
