"""The check-in: four or five short pages, one question each, answered or passed by with "I'd rather not say"."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.actions.new_stamp import new_stamp
from app.actions.people import current_person
from app.actions.training import check_in as acting
from app.actions.training.today import Today, today
from app.domain.model.body import Spot
from app.domain.model.level import Level
from app.domain.model.record import Stamp
from app.domain.model.thresholds import PAIN_RESTS
from app.ui.client.check_in import check_in_pages as pages
from app.ui.client.check_in.check_in_answers import (
    SIGNS_PAGE,
    Answers,
    Earlier,
    answers_of,
    check_in_of,
    earlier_of,
    flare_choices,
    pages_of,
    still_open,
)
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.profile.questions import both_ways
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.in_view import bring_into_view, scrolled
from app.ui.shell.shell import Shell, safe
from app.words import parts
from app.words.client import check_in as words
from app.words.client import today as today_words


def _corrected(card: Today) -> bool:
    """Whether this morning's answers are corrected; after a stop that was answered by a yes they are given anew."""
    before = card.check_in
    return before is not None and ((before.level or 0) < Level.ASK_FIRST or card.stop is not None)


@ft.component
def CheckInScreen(shell: Shell) -> ft.Control:
    """`/check-in`, or `/check-in/SESSION` on the way to another session."""
    person = current_person(shell.store)
    if person is None:
        return shell.card().page([])
    return Questions(shell, today(shell.store, shell.clock, person.id, shell.route_id() or None))


@ft.component
def Questions(shell: Shell, card: Today) -> ft.Control:
    """The pages."""
    c, asked = shell.card(), card.person.asked
    earlier = use_held(lambda: earlier_of(card)).value
    held = use_held(lambda: answers_of(card.check_in) if card.check_in and _corrected(card) else Answers())
    at, go_to = ft.use_state(0)
    unseen: ft.Column | None = None
    scrolls = ft.use_ref(unseen)
    order = pages_of(earlier, card.day)
    page = order[min(at, len(order) - 1)]
    home = f"/today/{shell.route_id()}".rstrip("/")

    def save() -> None:
        mended = card.check_in if card.check_in and _corrected(card) else None
        stamp: Stamp = mended.stamp if mended else new_stamp(shell.clock, card.person.id)
        record = check_in_of(held.value, earlier, stamp, card.day, led=bool(asked))
        acting.save_check_in(shell.store, shell.clock, record)
        shell.go(home)

    def ask(spot: Spot | None) -> None:
        held.set(replace(held.value, asking=spot, complaint="", unsaid=held.value.unsaid - {page}))
        if spot is not None:
            shell.run(bring_into_view, scrolls)

    def onward() -> None:
        spot, complaint = lacks(held.value, page, asked, earlier)
        if complaint:
            held.set(replace(held.value, complaint=complaint, asking=spot))
            if spot is not None:
                shell.run(bring_into_view, scrolls)
        elif at == len(order) - 1 or (page == SIGNS_PAGE and held.value.stops()):
            save()
        else:
            held.note(replace(held.value, asking=None))
            go_to(at + 1)

    def back() -> None:
        held.note(replace(held.value, complaint="", asking=None))
        if at:
            go_to(at - 1)
        else:
            shell.go(home)

    asks = pages.Asks(c, held, page, asked, ask)
    step = today_words.step_of(at + 1, len(order))
    drawn = _page(c, shell, held, page, _asked(asks, card, earlier), step, back, onward)
    scrolls.current = scrolled(drawn)
    return drawn


def lacks(answers: Answers, page: str, asked: str, earlier: Earlier) -> tuple[Spot | None, str]:
    """What keeps this page from being left, in words, with the part of the body to be asked about; empty: nothing."""
    if page not in answers.unsaid:
        if page == SIGNS_PAGE:
            if answers.new is None:
                return None, words.NO_OR_YES_FIRST
            return None, words.SIGN_MISSING if answers.new and not answers.signs else ""
        if page == "flare":
            return None, words.FLARE_MISSING if answers.flare is None else ""
        if page == "feel":
            still = [name for name, key in pages.FEEL_KEYS.items() if getattr(answers, key) is None]
            if still:
                return None, words.feel_missing(still)
        elif complaint := _body_lacks(answers, page, earlier):
            return complaint
    return None, words.WHO_MISSING if page == "feel" and asked and answers.by_them is None else ""


def _body_lacks(answers: Answers, page: str, earlier: Earlier) -> tuple[Spot | None, str] | None:
    spot = still_open(answers, page, earlier)
    if spot is None:
        return None if answers.spots(page) is not None else (None, words.where_missing(NOTHING[page]))
    name, pressed = parts.spot(spot, LABELS[page]), spot == answers.asking
    if page == "morning" and not pressed:
        return spot, words.asked_of_morning(name)
    before = earlier.pain if page == "pain" else earlier.soreness if page == "soreness" else earlier.before
    return spot, words.number_missing(name, may_leave_out=not before.get(spot)) if pressed else words.asked_again(name)


NOTHING = {"pain": words.NOTHING_HURTS, "morning": words.NOTHING_WORSE, "soreness": words.NO_ACHES}
LABELS = {"pain": parts.REGIONS, "morning": parts.REGIONS, "soreness": parts.MUSCLES}


def _asked(asks: pages.Asks, card: Today, earlier: Earlier) -> list[ft.Control]:
    if asks.page == SIGNS_PAGE:
        return pages.ask_signs(asks, card.person.emergency_number)
    if asks.page == "feel":
        return pages.ask_feel(asks)
    if asks.page == "flare":
        return pages.ask_flare(asks, flare_choices(earlier, card.day))
    ask = {"pain": pages.ask_pain, "morning": pages.ask_morning, "soreness": pages.ask_soreness}[asks.page]
    return ask(asks, earlier)


def _page(
    c: Card, shell: Shell, held: Held[Answers], page: str, body: list[ft.Control], step: str, back: Any, onward: Any
) -> ft.Control:
    answers = held.value
    act = today_words.DONE if page == "feel" else today_words.NEXT
    act = words.SHOW_WHAT_TO_DO if page == SIGNS_PAGE and answers.new and answers.stops() else act
    foot: list[ft.Control] = []
    if answers.complaint:
        told = c.text(answers.complaint, t.T_BODY, t.EXTRA, height=1.15)
        foot.append(ft.Semantics(content=told, live_region=True))
    if page == "pain" and max((answers.pain or {}).values(), default=0) >= PAIN_RESTS:
        foot.append(c.notice(words.PAIN_HIGH))
    foot.append(both_ways(c, today_words.BACK, safe(shell, lambda _: back()), act, safe(shell, lambda _: onward())))
    drawn = c.page([c.caption(f"{words.CHECK_IN_TITLE}, {step}"), *body], foot)
    drawn.key = f"page-{page}"
    return drawn
