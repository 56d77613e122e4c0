"""What Today and the plan say quietly beside the session: a pause, a chosen day, the next block, checks, goals."""
from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta, timezone
from typing import Any

import flet as ft

from app.actions.training import events, planning
from app.actions.training.today import Today, strength_sessions
from app.domain.checks.functional_checks import retest_due
from app.domain.dosing.conditions import to_ask
from app.domain.dosing.events import goal_review_due, pause_ahead, pause_on
from app.domain.dosing.screening import questions
from app.domain.dosing.way_back import sessions_of
from app.domain.measures.stall import stalled, strength_due
from app.domain.model.misdated import clock_doubt
from app.domain.model.programme import Programme
from app.domain.progress.planned_days import next_blocks
from app.ui.client.today.card_face import CardFace
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words import conditions
from app.words.client import checks, progression, stop_questions
from app.words.client import events as words
from app.words.client import planning as plans
from app.words.client.today import said
from app.words.client.wrong_clock import clock_line

#: Faces of the card beside which nothing else is said.
PRESSING = frozenset({CardFace.RUNNING, CardFace.STOPPED, CardFace.WAITING, CardFace.SCREENING, CardFace.YES_GIVEN,
                      CardFace.ANSWER})


def notes_above(c: Card, shell: Shell, card: Today, face: CardFace) -> list[ft.Control]:
    """Above the session: a doubtful clock, new questions, a pause, the chosen day, and what follows a programme."""
    clock = _clock(c, shell, card)
    if face in PRESSING:
        return clock
    return [*clock, *_new_questions(c, shell, card), *_suiting(c, card), *_pause(c, shell, card),
            *_planned(c, shell, card, face), *next_block(c, shell, card)]


def notes_below(c: Card, shell: Shell, card: Today, face: CardFace) -> list[ft.Control]:
    """What can wait: a stall, what is asked again, the checks, the goals."""
    if face in PRESSING:
        return []
    return [*_stalled(c, card), *_ask_again(c, shell, card), *_retest(c, shell, card), *_goal(c, shell, card)]


def _stalled(c: Card, card: Today) -> list[ft.Control]:
    """That nothing has moved on for weeks, and what could be changed; not during a pause."""
    if card.source is None or pause_on(card.records, card.day):
        return []
    due = strength_due(card.programme, strength_sessions(card.source)) if card.programme else None
    found = stalled(sessions_of(card.records), card.day, due)
    return [c.note(progression.stalled_line(found), ft.Icons.TRENDING_FLAT_SHARP)] if found else []


def _new_questions(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """Start stays as open as it was: leaving them unanswered gives no more than the older answers gave."""
    if not questions(card.person.body.conditions, card.person.answered_list):
        return []
    act = c.small_button(stop_questions.NEW_ACT, goes(shell, "/welcome/new"))
    return [c.notice(stop_questions.NEW_NOTE, acts=[act], icon=ft.Icons.HELP_SHARP)]


def _clock(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """Where the device's clock can hardly be right: every day here is counted by it."""
    now = shell.clock.now()
    doubt = clock_doubt((record.stamp for record in card.records), now)
    if doubt is None:
        return []
    here = now.astimezone(timezone(timedelta(minutes=shell.clock.local(now).offset_min)))
    return [c.note(clock_line(doubt, here), ft.Icons.SCHEDULE_SHARP)]


def _suiting(c: Card, card: Today) -> list[ft.Control]:
    """Why another session stands here than the programme says."""
    if card.instead_of is None:
        return []
    return [c.note(plans.suits_better(card.instead_of.name, card.person.asked), ft.Icons.INFO_SHARP)]


def _pause(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    now = pause_on(card.records, card.day)
    if now is None:
        ahead = pause_ahead(card.records, card.day)
        return [c.note(words.pause_line(ahead), ft.Icons.INFO_SHARP)] if ahead else []

    def end(_: object) -> None:
        events.end_pause(shell.store, shell.clock, now)
        shell.say(words.PAUSE_ENDED)
        shell.refresh()

    act = c.small_button(words.PAUSE_END, safe(shell, end))
    asked = card.person.asked
    return [c.notice(words.paused_line(now, asked), said(words.PAUSED_MAY, asked), acts=[act],
                     icon=ft.Icons.PAUSE_SHARP)]


def _planned(c: Card, shell: Shell, card: Today, face: CardFace) -> list[ft.Control]:
    """Only of the session that is due."""
    if card.programme is None or card.due is None or card.source is None:
        return []
    day = planning.chosen_day(shell.store, card.person, card.programme.id, card.due)
    session = card.source.session(card.due.session)
    if day is None or session is None:
        return []
    may = day > card.day and face is not CardFace.DONE
    said = plans.next_planned(session.name, day) if may else f"{session.name}: {plans.planned_line(day, card.day)}"
    return [c.note(said, ft.Icons.EVENT_SHARP)]


def next_block(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """At the end of a programme, under its own head: the coach's others, its last weeks again, or the coach asked."""
    if card.source is None or card.programme is None or not planning.is_block_open(shell.store, card):
        return []

    def again(_: object) -> None:
        planning.stay_in_block(shell.store, card)
        shell.refresh()

    rows: list[ft.Control] = [
        c.row(plans.block_name(p.name), p.about, safe(shell, _taking(shell, card, p)), name=plans.block_name(p.name))
        for p in next_blocks(card.source, card.programme.id)
    ]
    rows.append(c.row(plans.BLOCK_AGAIN, plans.BLOCK_AGAIN_NOTE, safe(shell, again), name=plans.BLOCK_AGAIN))
    ask = plans.block_ask(card.source.coach)
    rows.append(c.row(ask, plans.BLOCK_ASK_NOTE, goes(shell, "/send"), name=ask))
    return [c.head(plans.BLOCK_HEAD), c.box(c.stack([c.body(plans.BLOCK_WORDS), c.rows(rows, 2)]))]


def _taking(shell: Shell, card: Today, programme: Programme) -> Callable[[Any], None]:
    def take(_: object) -> None:
        planning.take_block(shell.store, shell.clock, card, programme.id)
        shell.say(plans.BLOCK_TAKEN)
        shell.refresh()
    return take


def _ask_again(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """Limits of a condition whose day has come: they hold, and it is time to ask."""
    told: list[ft.Control] = [c.note(conditions.ask_again(condition), ft.Icons.EVENT_SHARP)
                              for condition in to_ask(card.person.body, card.day)]
    return [c.stack([*told, c.link(conditions.DATES, goes(shell, "/settings/dates"))], 0)] if told else []


def _retest(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    if not retest_due(card.records, card.day, card.person.body):
        return []
    return [c.stack([c.note(checks.RETEST, ft.Icons.EVENT_REPEAT_SHARP),
                     c.link(checks.RETEST_ACT, goes(shell, "/checks"))], 0)]


def _goal(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    if not goal_review_due(card.person, card.records, card.day):
        return []
    act = c.link(words.GOAL_REVIEW_HEAD, goes(shell, "/note/goal"))
    return [c.stack([c.note(words.goal_quote(card.person.goals), ft.Icons.FLAG_SHARP), act], 0)]
