"""Recording a yes: to a stop, or to what was ticked among the stop questions."""
from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from app.actions.people import current_person
from app.actions.training import screening
from app.actions.training.today import Today, today
from app.domain.model.thresholds import FEVER_FREE
from app.ui.client.nav import client_nav
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.profile.questions import both_ways
from app.ui.client.today.locked_card import here, stop_causes
from app.ui.parts import Card, options
from app.ui.shell.shell import Shell, safe
from app.words.client import stop_questions
from app.words.client import today as today_words
from app.words.client import yes as words
from app.words.client.today import said

NOT_CLINICAL = frozenset({"self", "coach"})


@dataclass(frozen=True)
class YesDraft:
    """What was entered. `kind` empty: not chosen."""

    kind: str = ""
    who: str = ""
    asked: bool = False
    complaint: str = ""


@ft.component
def YesScreen(shell: Shell) -> ft.Control:
    """Which stop it answers, whose yes it takes, and who gave it."""
    c, person, held = shell.card(), current_person(shell.store), use_held(YesDraft)
    if person is None:
        return c.page([])
    card = today(shell.store, shell.clock, person.id)
    if card.stop is None and not person.waiting:
        back = c.button(today_words.TO_TODAY, safe(shell, lambda _: shell.go("/today")))
        return c.page([c.title(words.YES_TITLE), c.body(words.YES_NOTHING), back], nav=client_nav(shell, "today"))
    asked = person.name if person.led_by else ""
    body = [c.title(words.YES_TITLE), c.rule(), *_which(c, shell, card), *_who(c, shell, card, held, asked)]
    complaint: list[ft.Control] = [c.notice(held.value.complaint)] if held.value.complaint else []
    foot = both_ways(c, today_words.BACK, safe(shell, lambda _: shell.go("/today")), words.YES_ACT,
                     safe(shell, lambda _: _record(shell, card, held)))
    return c.page(body, [*complaint, foot])


def _which(c: Card, shell: Shell, card: Today) -> list[ft.Control]:
    """The stop that is answered, and whose yes it takes."""
    stop = card.stop
    if stop is None:
        ticked: list[ft.Control] = [c.strong(stop_questions.STOPS.get(s, s)) for s in sorted(card.person.waiting)]
        return [c.rows(ticked), c.body(today_words.WHO_MAY_SAY_YES["clinician"])]
    told = stop_causes(card, stop)
    causes: list[ft.Control] = [c.strong(line) for line in told]
    pieces = [*causes, c.soft(words.stop_because(stop.because, here(shell, stop), told))]
    pieces.append(c.body(today_words.WHO_MAY_SAY_YES[stop.yes_from]))
    if stop.yes_from == "self" and not _fever_over(shell, card):
        pieces.append(c.note(words.fever_until(here(shell, stop) + FEVER_FREE)))
    return pieces


def _fever_over(shell: Shell, card: Today) -> bool:
    return card.stop is not None and shell.clock.now() - card.stop.utc >= FEVER_FREE


def kinds_for(shell: Shell, card: Today, asked: str) -> list[tuple[str, str]]:
    """Whose yes counts here: one's own word after a fever, the coach's where it is enough, a clinician's always."""
    needs = card.stop.yes_from if card.stop else "clinician"
    own_counts = needs == "self" and _fever_over(shell, card)
    own = [("self", said((words.YES_SELF, words.YES_SELF_LED), asked))] if own_counts else []
    coach = [("coach", words.KINDS["coach"])] if needs in ("self", "coach") else []
    return [*own, *coach, *((kind, name) for kind, name in words.KINDS.items() if kind not in NOT_CLINICAL)]


def _who(c: Card, shell: Shell, card: Today, held: Held[YesDraft], asked: str) -> list[ft.Control]:
    told = held.value

    def kind(value: str) -> None:
        held.set(replace(held.value, kind=value, complaint=""))

    def who(e: Any) -> None:
        held.note(replace(held.value, who=e.control.value or "", complaint=""))

    def tick(_: bool) -> None:
        held.set(replace(held.value, asked=not held.value.asked, complaint=""))

    pieces: list[ft.Control] = [
        c.head(said(words.YES_WHO, asked)), c.one_of_list(options(*kinds_for(shell, card, asked)), told.kind, kind),
    ]
    if told.kind != "self":
        among = options((True, said(words.YES_ASKED, asked)))
        pieces += [c.field(words.YES_NAME, told.who, who),
                   c.several_of_list(among, [True] if told.asked else [], tick)]
    return [*pieces, c.body(words.YES_MEANS)]


def _lack(told: YesDraft) -> str:
    """What is missing."""
    checks: list[tuple[bool, str]] = [
        (not told.kind, words.YES_KIND_MISSING),
        (told.kind != "self" and not told.who.strip(), words.YES_NAME_MISSING),
        (told.kind != "self" and not told.asked, words.YES_ASK_MISSING),
    ]
    return next((complaint for lacks, complaint in checks if lacks), "")


def _record(shell: Shell, card: Today, held: Held[YesDraft]) -> None:
    told, person, stop = held.value, card.person, card.stop
    lack = _lack(told)
    if lack:
        held.set(replace(told, complaint=lack))
        return
    who = told.who if told.kind != "self" else person.led_by or person.name
    if stop is not None:
        screening.record_stop_yes(shell.store, shell.clock, person.id, stop, who, told.kind)
    else:
        screening.record_starting_yes(shell.store, shell.clock, person.id, who, told.kind)
    shell.say(words.YES_DONE)
    shell.go("/today")


