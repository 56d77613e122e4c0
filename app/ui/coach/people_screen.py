"""Everybody whose returns come to this desk: searched, sorted, fifty to a page."""
from __future__ import annotations

from datetime import date, datetime

import flet as ft

from app.actions.desk import attention_list
from app.storage import review_summaries
from app.storage.review_summaries import PersonOnDesk
from app.ui.coach.coach_layout import coach_page
from app.ui.coach.stable_field import typed_field, use_typed
from app.ui.parts import AnswerOption, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach import desk as words

PAGE = 50


def found(standing: tuple[PersonOnDesk, ...], query: str, order: str) -> tuple[PersonOnDesk, ...]:
    """Those whose name holds every word, by name or the latest first; who never did anything comes last."""
    asked = query.casefold().split()
    kept = [s for s in standing if all(word in s.name.casefold() for word in asked)]
    if order == "session":
        kept.sort(key=lambda s: s.last_session or date.min, reverse=True)
    elif order == "return":
        kept.sort(key=lambda s: s.last_return.timestamp() if s.last_return else 0.0, reverse=True)
    return tuple(kept)


@ft.component
def PeopleScreen(shell: Shell) -> ft.Control:
    """A list that stays usable with thousands."""
    c = shell.card()
    query, set_query = ft.use_state("")
    typed = use_typed()
    order, set_order = ft.use_state("name")
    page, set_page = ft.use_state(0)
    standing = ft.use_memo(lambda: _standing(shell), [shell.turn])
    flagged = ft.use_memo(lambda: _flagged(shell), [shell.turn])
    listed = found(standing, query, order)
    shown = listed[page * PAGE:(page + 1) * PAGE]

    def search(typed: str) -> None:
        set_query(typed)
        set_page(0)

    def sort(chosen: str) -> None:
        set_order(chosen)
        set_page(0)

    def day(instant: datetime | None) -> date | None:
        return shell.clock.local(instant).day if instant else None

    told = ft.use_callback(search, [])
    body: list[ft.Control] = [c.title(words.PEOPLE_TITLE)]
    if not standing:
        body.append(c.empty(words.FIRST_HEAD, words.FIRST_STEPS[2],
                            [c.button(words.TO_PUBLISH, safe(shell, bind(shell.go, "/publish")))]))
        return coach_page(shell, "people", body)
    orders = [AnswerOption(key, name) for key, name in words.SORTS.items()]
    body += [typed_field(shell, words.SEARCH, typed, told=told), c.one_of(orders, order, safe(shell, sort))]
    rows = [
        c.row(s.name, words.last_heard(s.last_session, day(s.last_return)),
              safe(shell, bind(shell.go, f"/person/{s.person}")), trailing=flagged.get(s.person, ""))
        for s in shown
    ]
    first = page * PAGE
    body.append(ft.Semantics(content=c.caption(words.page_of(first + 1, first + len(shown), len(listed))),
                             live_region=True))
    body.append(c.rows(rows, 0))
    if len(listed) > PAGE:
        back = bind(set_page, page - 1) if page else None
        on = bind(set_page, page + 1) if first + PAGE < len(listed) else None
        body.append(c.side_by_side([c.small_button(words.PREVIOUS, back), c.small_button(words.NEXT, on)], t.GAP))
    return coach_page(shell, "people", body)


def _standing(shell: Shell) -> tuple[PersonOnDesk, ...]:
    with shell.store.read() as db:
        return review_summaries.standings(db, shell.clock.local(shell.clock.now()).day)


def _flagged(shell: Shell) -> dict[str, str]:
    """Who is on the list, and in which part; harm counts before silence."""
    seen = attention_list.attention_list(shell.store, shell.clock)
    return {f.person: words.SILENCE for f in seen.silence} | {f.person: words.HARM for f in seen.harm}
