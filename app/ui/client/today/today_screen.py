"""Today: the card that says what is due, how much of it, why, and what comes before it."""
from __future__ import annotations

from typing import Any

import flet as ft

from app.actions.people import current_person
from app.actions.training.today import Today, today
from app.domain.model.plan import Part
from app.storage import people
from app.storage.people import Trains
from app.ui.client.before_start import look_around, what_comes
from app.ui.client.nav import client_nav
from app.ui.client.sound_check import before_first
from app.ui.client.today import locked_card as locked
from app.ui.client.today import session_card as drawn
from app.ui.client.today.card_face import CardFace, standing
from app.ui.client.today.locked_card import goes
from app.ui.client.today.notes import notes_above, notes_below
from app.ui.parts import Card, Look, Nav
from app.ui.shell.shell import Shell, safe
from app.words import errors
from app.words.client import day_card
from app.words.client import today as today_words
from app.words.client.today import Pair
from app.words.reasons import reason_text

Face = tuple[list[ft.Control], list[ft.Control]]
"""Body and foot."""
WideFace = tuple[list[ft.Control], list[ft.Control], list[ft.Control]]
"""Body, foot, and what stands beside the body on a wide page."""


@ft.component
def TodayScreen(shell: Shell) -> ft.Control:
    """`/today`, or `/today/SESSION` for another session of the programme."""
    c, person = shell.card(), current_person(shell.store)
    if person is None:
        return c.page([])
    session = shell.route_id()
    card = today(shell.store, shell.clock, person.id, session or None)
    nav = client_nav(shell, "today")
    face = standing(card, chosen=bool(session))
    is_session = face in (CardFace.READY, CardFace.ASK)
    body, foot, beside = _session(c, shell, card, face, nav, session) if is_session else (
        *_face(c, shell, card, face, session), [])
    above = [] if session else notes_above(c, shell, card, face)
    page = c.page([_top(c, shell, card), *above, *body], foot, nav, beside=beside)
    page.key = f"today-{face.value}"
    return page


def _top(c: Card, shell: Shell, card: Today) -> ft.Control:
    """Whose programme, whose turn, and the settings."""
    with shell.store.read() as db:
        several = len(people.people(db, Trains.HERE)) > 1
    whose = today_words.programme_of(card.source.coach) if card.source else card.person.name
    links: list[ft.Control] = []
    if several:
        links.append(c.link(card.person.name, goes(shell, "/who"), name=today_words.whose_turn(card.person.name)))
    if not c.is_wide:
        links.append(c.link(today_words.SETTINGS, goes(shell, "/settings")))
    words = c.soft(whose)
    words.expand = True
    if c.scale > 1.3:
        return c.stack([c.soft(whose), c.side_by_side(links, 16)], 0)
    return ft.Row([words, *links], spacing=16)


def _face(c: Card, shell: Shell, card: Today, face: CardFace, session: str) -> Face:
    at = f"/{session}" if session else ""
    if face is CardFace.STOPPED:
        return locked.stopped(c, shell, card)
    if face is CardFace.WAITING:
        return locked.waiting(c, shell, card)
    if face is CardFace.DONE:
        return _done(c, shell, card)
    if face in SAID:
        head, words, act, route = SAID[face]
        to = f"{route}{at}" if route == "/check-in" else route
        foot = [c.button(act, goes(shell, to), look=Look.SOLID)] if act else []
        return [c.title(_to(card, head)), c.lead(_to(card, words)), *_reasons(c, shell, card, face)], foot
    return _not_so(c, shell, card, face)


def _session(c: Card, shell: Shell, card: Today, face: CardFace, nav: Nav, session: str) -> WideFace:
    """What is different and the moves first, then what to look at before, then what is folded. One press starts."""
    at, is_ready = f"/{session}" if session else "", face is CardFace.READY
    body = drawn.session_head(c, shell, card, c.room(nav, beside=True))
    if not is_ready:
        body.append(c.soft(today_words.said(day_card.AS_WRITTEN_FIRST, card.person.asked)))
    beside = look_around(c, card.person, card.kit(), card.timeline, card.day)
    beside += notes_below(c, shell, card, face)
    pack, steps = card.pack.sha256 if card.pack else "", card.timeline.steps if card.timeline else ()
    folded = [*(before_first(shell, pack, steps, card.library) if is_ready else []),
              *drawn.folded_why(c, shell, card), what_comes(shell, card.person, pack, steps, card.library),
              drawn.folded_where(c, shell, card), *drawn.folded_others(c, shell, card)]
    beside += [c.rule(), c.rows(folded, 2), c.link(today_words.ALL_RULES, goes(shell, "/why"))]
    if is_ready:
        beside.append(c.link(today_words.CHECK_IN_AGAIN, goes(shell, f"/check-in{at}")))
    if session:
        beside.append(c.link(today_words.DUE_AGAIN, goes(shell, "/today")))

    def start(_: object) -> None:
        if is_ready:
            shell.tools.start.press()
        shell.go(f"/play{at}" if is_ready else f"/check-in{at}")

    first = [] if is_ready else [c.soft(today_words.FIRST_QUESTIONS)]
    return body, [*first, c.main_button(today_words.START, safe(shell, start), ft.Icons.PLAY_ARROW_SHARP)], beside


#: Faces that are a head, a sentence and one way on.
SAID: dict[CardFace, tuple[str | Pair, str | Pair, str, str]] = {
    CardFace.NO_PROGRAMME: (today_words.NO_PROGRAMME_HEAD, today_words.NO_PROGRAMME, today_words.OPEN_PROGRAMME,
                            "/programme"),
    CardFace.RUNNING: (today_words.GOING_ON_HEAD, today_words.GOING_ON, today_words.GO_ON, "/play"),
    CardFace.SCREENING: (today_words.SCREENING_DUE_HEAD, today_words.SCREENING_DUE, today_words.SCREENING_ACT,
                         "/welcome/questions"),
    CardFace.YES_GIVEN: (today_words.YES_GIVEN_HEAD, today_words.YES_GIVEN, today_words.CHECK_IN_ACT, "/check-in"),
    CardFace.NO_SESSION: (today_words.EMPTY_SESSION_HEAD, today_words.EMPTY_SESSION, today_words.OPEN_PROGRAMME,
                          "/programme"),
    CardFace.ANSWER: (today_words.ANSWER_HEAD, today_words.ANSWER_WORDS, today_words.ANSWER_ACT, "/check-in"),
    CardFace.REST: (today_words.REST_HEAD, today_words.REST_WORDS, "", ""),
}


def _to(card: Today, words: str | Pair) -> str:
    return words if isinstance(words, str) else today_words.said(words, card.person.asked)


def _reasons(c: Card, shell: Shell, card: Today, face: CardFace) -> list[ft.Control]:
    """Why it is a rest day, and what may be done all the same."""
    if face is not CardFace.REST or card.timeline is None:
        return []
    why = [c.body(reason_text(r)) for r in card.timeline.dose.reasons]
    again = c.link(today_words.CHECK_IN_AGAIN, goes(shell, "/check-in"))
    rules = c.link(today_words.ALL_RULES, goes(shell, "/why"))
    return [c.head(today_words.WHY), *why, rules, again, *drawn.others(c, shell, card)]


def _done(c: Card, shell: Shell, card: Today) -> Face:
    done = card.done
    assert done is not None
    trained = any(one.done_ms for one in done.done if done.plan.steps[one.index].part is Part.MAIN)
    told = today_words.done_line(done, card.person.asked)
    body: list[ft.Control] = [c.title(today_words.DONE_HEAD), c.lead(told)]
    see, send = (today_words.said(pair, card.person.asked) for pair in (today_words.SEE_DIARY, today_words.SEND_DIARY))
    foot: list[ft.Control] = [c.button(see, goes(shell, "/diary"))]
    foot.append(c.button(send, goes(shell, "/send"), look=Look.SOLID))
    if card.session is not None:
        when = [c.body(today_words.said(today_words.NEXT_WHEN, card.person.asked))] if trained else []
        body += [c.rule(), c.strong(today_words.next_line(card.session.name)), *when,
                 c.link(today_words.LOOK_AHEAD, goes(shell, f"/today/{card.session.id}"))]
    return body + notes_below(c, shell, card, CardFace.DONE), foot


def _not_so(c: Card, shell: Shell, card: Today, face: CardFace) -> Face:
    """There is a session, and it cannot be done like this: another length, place or session."""
    assert card.session is not None
    if face is CardFace.TOO_SHORT and card.too_short is not None:
        said: Any = c.notice(errors.error_text(card.too_short), icon=ft.Icons.SCHEDULE_SHARP)
    else:
        said = c.notice(today_words.NOTHING_LEFT_HEAD, today_words.NOTHING_LEFT)
    body: list[ft.Control] = [c.title(card.session.name), said]
    body += drawn.where(c, shell, card) + drawn.amount(c, card)[1:] + drawn.changed_today(shell, card)
    body += drawn.others(c, shell, card)
    return body, []
