"""The check-in: four or five short pages, one question each, kept as far as it was answered."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.actions.new_stamp import new_stamp
from app.actions.people import current_person
from app.actions.training import check_in as acting
from app.actions.training.today import Today, today
from app.domain.model.level import Level
from app.domain.model.record import Stamp
from app.domain.model.thresholds import PAIN_RESTS
from app.ui.client.check_in import check_in_pages as pages
from app.ui.client.check_in.check_in_answers import (
    Answers,
    Earlier,
    answers_of,
    check_in_of,
    earlier_of,
    flare_choices,
    left_open,
    missing,
    pages_of,
)
from app.ui.client.profile.profile_draft import Held, use_held
from app.ui.client.profile.questions import both_ways
from app.ui.parts import Card, Look
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
    c, asked = shell.card(), card.person.name if card.person.led_by else ""
    earlier = use_held(lambda: earlier_of(card)).value
    held = use_held(lambda: answers_of(card.check_in) if card.check_in and _corrected(card) else Answers())
    at, go_to = ft.use_state(0)
    confirming, confirm = ft.use_state(False)
    order = pages_of(earlier, card.day)
    page = order[min(at, len(order) - 1)]
    home = f"/today/{shell.route_id()}".rstrip("/")

    def save() -> None:
        mended = card.check_in if card.check_in and _corrected(card) else None
        stamp: Stamp = mended.stamp if mended else new_stamp(shell.clock, card.person.id)
        record = check_in_of(held.value, earlier, stamp, card.day, led=bool(asked))
        acting.save_check_in(shell.store, shell.clock, record)
        shell.go(home)

    def onward() -> None:
        complaint = _lacks(held.value, page, asked)
        if complaint:
            held.set(replace(held.value, complaint=complaint))
        elif page == "signs" and held.value.stops():
            save()
        elif at < len(order) - 1:
            held.note(replace(held.value, asking=None))
            go_to(at + 1)
        elif missing(held.value, order) or _passed_over(held.value, earlier):
            confirm(True)
        else:
            save()

    def back() -> None:
        held.note(replace(held.value, complaint="", asking=None))
        if confirming:
            confirm(False)
        elif at:
            go_to(at - 1)
        else:
            shell.go(home)

    if confirming:
        return _confirm(c, held, earlier, order, safe(shell, lambda _: (confirm(False), go_to(_first(held, order)))),
                        safe(shell, lambda _: save()))
    body = _asked(c, shell, held, card, asked, earlier, page, safe(shell, onward))
    return _page(c, shell, held, page, body, today_words.step_of(at + 1, len(order)), back, onward)


def _first(held: Held[Answers], order: list[str]) -> int:
    """The first page with something left out."""
    return order.index((missing(held.value, order) or ["pain"])[0])


def _passed_over(answers: Answers, earlier: Earlier) -> list[str]:
    """Spots of last time that were not asked about again, in words."""
    spots = [*left_open(answers.pain, earlier.pain), *left_open(answers.soreness, earlier.soreness)]
    return [parts.spot(spot) for spot in spots]


def _lacks(answers: Answers, page: str, asked: str) -> str:
    if page == "signs" and answers.new and not answers.signs:
        return words.SIGN_MISSING
    told = {"pain": answers.pain, "morning": answers.morning, "soreness": answers.soreness}
    if page in told and answers.asking is not None and answers.asking not in (told[page] or {}):
        return words.number_missing(parts.spot(answers.asking))
    if page == "flare" and answers.flare is None:
        return words.FLARE_MISSING
    return words.WHO_MISSING if page == "feel" and asked and answers.by_them is None else ""


def _asked(
    c: Card, shell: Shell, held: Held[Answers], card: Today, asked: str, earlier: Earlier, page: str, onward: Any
) -> list[ft.Control]:
    if page == "signs":
        return pages.ask_signs(c, held, asked, card.person.emergency_number, onward)
    if page == "pain":
        return pages.ask_pain(c, held, asked, earlier, onward)
    if page == "morning":
        return pages.ask_morning(c, held, asked, earlier, onward)
    if page == "soreness":
        return pages.ask_soreness(c, held, asked, earlier, onward)
    if page == "flare":
        return pages.ask_flare(c, held, asked, flare_choices(earlier, card.day))
    return pages.ask_feel(c, held, asked)


def _page(
    c: Card, shell: Shell, held: Held[Answers], page: str, body: list[ft.Control], step: str, back: Any, onward: Any
) -> ft.Control:
    answers = held.value
    act = today_words.DONE if page == "feel" else today_words.NEXT
    act = words.SHOW_WHAT_TO_DO if page == "signs" and answers.stops() else act
    foot: list[ft.Control] = [c.notice(answers.complaint)] if answers.complaint else []
    if page == "pain" and max((answers.pain or {}).values(), default=0) >= PAIN_RESTS:
        foot.append(c.notice(words.PAIN_HIGH))
    foot.append(both_ways(c, today_words.BACK, safe(shell, lambda _: back()), act, safe(shell, lambda _: onward())))
    drawn = c.page([c.caption(f"{words.CHECK_IN_TITLE}, {step}"), *body], foot)
    drawn.key = f"page-{page}"
    return drawn


def _confirm(
    c: Card, held: Held[Answers], earlier: Earlier, order: list[str], back: Any, save: Any
) -> ft.Control:
    """What was left out, and what that means."""
    answers = held.value
    unanswered, passed = missing(answers, order), _passed_over(answers, earlier)
    said = [words.unanswered_line(unanswered)] if unanswered else []
    said += [words.as_last_time(passed)] if passed else []
    foot = [c.button(words.UNANSWERED_BACK, back, look=Look.SOLID), c.button(words.UNANSWERED_ACT, save)]
    drawn = c.page([c.title(words.UNANSWERED_HEAD), *(c.body(line) for line in said)], foot)
    drawn.key = "page-confirm"
    return drawn
