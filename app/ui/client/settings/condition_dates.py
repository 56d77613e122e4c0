"""When each ticked condition began, and whose yes ended its first, stricter limits."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import timedelta
from typing import Any

import flet as ft

from app.actions.people import change_person
from app.domain.dosing.conditions import has_first_limits, is_cleared
from app.domain.model.client import Condition, ConditionTerms
from app.domain.model.person import Person
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card, options
from app.ui.shell.shell import Shell, safe
from app.words import conditions as words
from app.words.client import today


@dataclass(frozen=True)
class FirstLimitsDraft:
    """What is typed of a yes, by condition."""

    who: Mapping[Condition, str] = field(default_factory=dict, hash=False)
    complaint: str = ""


@ft.component
def ConditionDatesPage(shell: Shell, person: Person) -> ft.Control:
    """One box for each condition whose first limits end with a yes."""
    c, held = shell.card(), use_held(FirstLimitsDraft)
    dated = [condition for condition in sorted(person.body.conditions) if has_first_limits(condition)]
    body: list[ft.Control] = [c.title(words.DATES), c.body(words.DATES_HINT)]
    body += [c.box(c.stack(_one(c, shell, person, held, condition), 8)) for condition in dated]
    if not dated:
        body.append(c.soft(words.DATES_NONE))
    if held.value.complaint:
        body.append(c.notice(held.value.complaint))
    page = c.page(body, [c.button(today.BACK, goes(shell, "/settings"))])
    page.key = "dates"
    return page


def _keep(shell: Shell, person: Person, condition: Condition, terms: ConditionTerms) -> None:
    kept = {**person.body.terms, condition: terms}
    change_person(shell.store, replace(person, body=replace(person.body, terms=kept)))
    shell.refresh()


def _one(c: Card, shell: Shell, person: Person, held: Held[FirstLimitsDraft], condition: Condition) -> list[ft.Control]:
    terms = person.body.terms.get(condition, ConditionTerms())
    day = shell.clock.local(shell.clock.now()).day
    name = words.condition_name(condition)

    def began(weeks: int) -> None:
        _keep(shell, person, condition, replace(terms, since=day - timedelta(weeks=weeks)))

    def typed(e: Any) -> None:
        held.note(replace(held.value, who={**held.value.who, condition: e.control.value or ""}))

    def record(_: Any) -> None:
        who = held.value.who.get(condition, "").strip()
        if not who:
            held.set(replace(held.value, complaint=words.YES_LACKS))
            return
        held.note(FirstLimitsDraft())
        _keep(shell, person, condition, replace(terms, cleared_by=who, cleared=day))

    def take_back(_: Any) -> None:
        _keep(shell, person, condition, replace(terms, cleared_by="", cleared=None))

    since = [c.soft(words.since_line(today.long_day_words(terms.since)))] if terms.since else []
    pieces: list[ft.Control] = [c.subhead(name, level=2), *since]
    if is_cleared(person.body, condition):
        said = words.yes_line(terms.cleared_by, today.long_day_words(terms.cleared) if terms.cleared else "")
        return [*pieces, c.body(said), c.small_button(words.YES_BACK, safe(shell, take_back),
                                                      name=f"{words.YES_BACK}: {name}")]
    return [
        *pieces, c.strong(words.BEGAN), c.one_of(options(*words.BEGAN_WEEKS.items()), None, began),
        c.body(words.FIRST_HOLD if terms.since else words.UNDATED_HOLD),
        c.field(f"{words.YES_WHO}: {name}", held.value.who.get(condition, ""), typed),
        c.small_button(words.YES_RECORD, safe(shell, record), name=f"{words.YES_RECORD}: {name}"),
    ]
