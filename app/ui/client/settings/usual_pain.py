"""A long-standing pain whose usual level was agreed with a clinician, until a day."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Any

import flet as ft

from app.actions.people import change_person
from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, Spot
from app.domain.model.client import UsualPain
from app.domain.model.person import Person
from app.domain.model.thresholds import USUAL_PAIN_MOST
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.today.locked_card import goes
from app.ui.parts import AnswerOption, Card, options
from app.ui.shell.shell import Shell, safe
from app.words import parts
from app.words.client import settings as words
from app.words.client import today

MONTH = timedelta(days=30)
SPOTS = tuple(Spot(r, side) for r in BODY_REGIONS for side in (("left", "right") if r in PAIRED_REGIONS else ("",)))


@dataclass(frozen=True)
class UsualPainDraft:
    """An agreement being entered; `before` is what a removal would bring back."""

    spot: Spot | None = None
    level: int | None = None
    agreed_with: str = ""
    months: int = 3
    complaint: str = ""
    removed: str = ""
    before: Person | None = None


@ft.component
def UsualPage(shell: Shell, person: Person) -> ft.Control:
    """The agreements, and a new one."""
    c, held = shell.card(), use_held(UsualPainDraft)
    body: list[ft.Control] = [c.title(words.USUAL), c.body(words.USUAL_HINT), *_kept(c, shell, person, held)]
    body += _new(c, shell, person, held)
    page = c.page(body, [c.button(today.BACK, goes(shell, "/settings"))])
    page.key = "usual"
    return page


def _keep(shell: Shell, person: Person, usual: dict[Spot, UsualPain]) -> None:
    change_person(shell.store, replace(person, body=replace(person.body, usual_pain=usual)))
    shell.refresh()


def _kept(c: Card, shell: Shell, person: Person, held: Held[UsualPainDraft]) -> list[ft.Control]:
    def remove(spot: Spot) -> Callable[[Any], None]:
        def removed(_: Any) -> None:
            held.note(UsualPainDraft(removed=words.usual_removed(parts.spot(spot)), before=person))
            _keep(shell, person, {s: u for s, u in person.body.usual_pain.items() if s != spot})
        return safe(shell, removed)

    def put_back(_: Any) -> None:
        before = held.value.before
        held.note(UsualPainDraft())
        if before is not None:
            _keep(shell, person, dict(before.body.usual_pain))

    rows: list[ft.Control] = []
    for spot, usual in sorted(person.body.usual_pain.items()):
        name = parts.spot(spot)
        terms = words.usual_terms(usual.agreed_with, today.long_day_words(usual.until))
        act = c.small_button(words.REMOVE, remove(spot), name=words.remove_name(name))
        rows.append(c.stack([c.strong(words.usual_line(name, usual.level)), c.soft(terms), act], 6))
    pieces: list[ft.Control] = [c.box(c.rows(rows))] if rows else []
    if held.value.removed:
        undo = c.button(today.UNDO, safe(shell, put_back))
        pieces.append(c.notice(held.value.removed, acts=[undo], icon=ft.Icons.INFO_SHARP))
    return pieces


def _new(c: Card, shell: Shell, person: Person, held: Held[UsualPainDraft]) -> list[ft.Control]:
    told = held.value

    def choose(name: str) -> Callable[[Any], None]:
        return lambda value: held.set(replace(held.value, complaint="", **{name: value}))

    def add(_: Any) -> None:
        now = held.value
        if now.spot is None or now.level is None or not now.agreed_with.strip():
            held.set(replace(now, complaint=words.USUAL_LACKS))
            return
        until = shell.clock.local(shell.clock.now()).day + now.months * MONTH
        held.note(UsualPainDraft())
        agreed = UsualPain(now.level, now.agreed_with.strip(), until)
        _keep(shell, person, {**person.body.usual_pain, now.spot: agreed})

    levels = [AnswerOption(n, str(n), name=parts.of(words.USUAL_LEVEL, n, USUAL_PAIN_MOST))
              for n in range(1, USUAL_PAIN_MOST + 1)]
    complaint: list[ft.Control] = [c.notice(told.complaint)] if told.complaint else []
    return [
        c.head(words.USUAL_WHERE), c.one_of(options(*((s, parts.spot(s)) for s in SPOTS)), told.spot,
                                            choose("spot")),
        c.head(words.USUAL_LEVEL), c.one_of(levels, told.level, choose("level")),
        c.field(words.USUAL_WITH, told.agreed_with,
                lambda e: held.note(replace(held.value, agreed_with=e.control.value or ""))),
        c.soft(words.USUAL_WITH_HINT),
        c.head(words.USUAL_UNTIL), c.one_of(options(*words.USUAL_MONTHS.items()), told.months, choose("months")),
        *complaint, c.button(words.USUAL_ADD, safe(shell, add)),
    ]
