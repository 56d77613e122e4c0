"""The welcome: what brings them here, then one group of questions a page; and the stop questions asked again."""
from __future__ import annotations

from dataclasses import replace
from typing import Any

import flet as ft

from app.actions import people
from app.actions.files.bundled import register_with_coach
from app.actions.people import Role
from app.actions.training import screening
from app.domain.dosing.screening import may_start, outcome
from app.domain.model.person import Person
from app.storage import people as kept_people
from app.storage.people import Trains
from app.ui.client.profile import questions as q
from app.ui.client.profile.about_app import picture_pieces
from app.ui.client.profile.asking_stops import show_outcome
from app.ui.client.profile.greeting_row import GreetingRow
from app.ui.client.profile.profile_draft import Held, ProfileDraft, draft_of, finished, use_held
from app.ui.client.profile.where_kept import alone_words, keep_page
from app.ui.parts import Card, Look
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.client import hand_over, today, welcome
from app.words.client import stop_questions as stops

#: `/welcome/questions`: the stop questions again, for whoever's turn it is.
AGAIN = "questions"
#: `/welcome/new`: only those that were not on the list which they answered.
NEW = "new"


@ft.component
def WelcomeScreen(shell: Shell) -> ft.Control:
    """Somebody new, or the stop questions again."""
    if shell.route_id() in (AGAIN, NEW) and people.current_person(shell.store):
        return StopsAgain(shell)
    return Newcomer(shell)


@ft.component
def Newcomer(shell: Shell) -> ft.Control:
    """From the purpose to the coach's programme."""
    c = shell.card()
    held = use_held(ProfileDraft)
    at, go_to = ft.use_state(-1)
    shown, show = ft.use_state(False)
    registered, set_registered = ft.use_state(False)
    if registered:
        return keep_page(c, shell, lambda: _leave(shell))
    if at < 0:
        return _purpose(c, shell, held, lambda: go_to(0))
    if shown:
        return _outcome(c, shell, held.value, lambda: show(False), lambda: (show(False), go_to(at + 1)))
    page = q.WELCOME[at]
    last = at == len(q.WELCOME) - 1

    def back() -> None:
        go_to(at - 1)

    def finish() -> None:
        place = shell.device.place
        if place.asks_to_keep and not place.is_kept:
            set_registered(True)
        else:
            _leave(shell)

    def onward() -> None:
        if page is q.STOPS:
            show(True)
        elif last:
            _register(shell, held.value)
            finish()
        else:
            go_to(at + 1)

    return q.asked_page(
        c, shell, held, page, aside=today.step_of(at + 1, len(q.WELCOME)), back=back, onward=onward,
        onward_words=welcome.FINISH if last else today.NEXT,
    )


def _purpose(c: Card, shell: Shell, held: Held[ProfileDraft], onward: Any) -> ft.Control:
    def train(leads: bool) -> Any:
        def chosen(_: Any) -> None:
            held.note(replace(held.value, leads=leads))
            onward()
        return safe(shell, chosen)

    def coach(_: Any) -> None:
        people.choose_role(shell.store, Role.COACH)
        shell.go("/desk")

    with shell.store.read() as db:
        somebody = bool(kept_people.people(db, Trains.HERE))
    figures = [] if shell.brand.picture else [GreetingRow(shell, key="greeting")]  # type: ignore[call-arg]
    pieces: list[ft.Control] = [*picture_pieces(c, shell.brand), c.title(welcome.TITLE), *figures,
                                c.lead(welcome.PURPOSE), c.rule()]
    acts = {Role.CLIENT: train(False), Role.HELPER: train(True), Role.COACH: safe(shell, coach)}
    for role in shell.brand.roles:
        (words, note), act = welcome.ROLES[role], acts[role]
        pieces.append(c.stack([c.button(words, act, height=t.TARGET_PLAYER), c.soft(note)], 6))
    pieces += [c.note(alone_words(shell.device.place), ft.Icons.LOCK_SHARP),
               c.note(today.not_medical(shell.brand.name))]
    if shell.link:
        pieces.insert(0, c.notice(hand_over.LINK_WAITS, icon=ft.Icons.INFO_SHARP))
    if somebody:
        pieces.append(c.link(today.BACK, safe(shell, lambda _: shell.go("/who"))))
    page = c.page(pieces)
    page.key = "page-purpose"
    return page


def _outcome(c: Card, shell: Shell, draft: ProfileDraft, back: Any, onward: Any) -> ft.Control:
    foot = q.both_ways(c, today.BACK, safe(shell, lambda _: back()), today.NEXT,
                       safe(shell, lambda _: onward()))
    body = show_outcome(c, draft.ticked or frozenset(), draft.number, stops.OUTCOME_ON)
    page = c.page([c.caption(today.step_of(q.WELCOME.index(q.STOPS) + 1, len(q.WELCOME))), *body], [foot])
    page.key = "page-outcome"
    return page


def _register(shell: Shell, draft: ProfileDraft) -> None:
    person = finished(draft, shell.clock.now().year)
    answered = screening.screened_person(person, shell.clock, draft.ticked or ())
    register_with_coach(shell.store, shell.clock, shell.brand, answered)


def _leave(shell: Shell) -> None:
    if shell.link:  # the address stays; what it names is opened now
        shell.refresh()
    else:
        shell.go("/programme")


@ft.component
def StopsAgain(shell: Shell) -> ft.Control:
    """The stop questions for somebody who is known here: all, or what an older list lacked."""
    c = shell.card()
    person = people.current_person(shell.store)
    only_new = shell.route_id() == NEW
    held = use_held(lambda: _asked_before(person, only_new=only_new))
    answered, answer = ft.use_state(False)
    if person is None:
        return c.page([c.title(welcome.TITLE)])

    def keep() -> None:
        ticked = held.value.ticked or frozenset()
        if only_new:
            screening.answer_new_questions(shell.store, person.id, ticked)
        else:
            screening.answer_stop_questions(shell.store, shell.clock, person.id, ticked)
        answer(True)

    if not answered:
        return q.asked_page(c, shell, held, q.NEW_STOPS if only_new else q.STOPS, aside="",
                            back=lambda: shell.go("/today"), onward=keep, onward_words=today.DONE)
    ticked = held.value.ticked or frozenset()
    foot: list[ft.Control] = []
    if not may_start(outcome(ticked)):
        foot.append(c.button(today.RECORD_YES, safe(shell, lambda _: shell.go("/yes"))))
    foot.append(c.button(today.TO_TODAY, safe(shell, lambda _: shell.go("/today")), look=Look.SOLID))
    onward = stops.OUTCOME_TODAY if may_start(outcome(ticked)) else stops.OUTCOME_ASK
    page = c.page(show_outcome(c, ticked, person.emergency_number, onward), foot)
    page.key = "page-outcome"
    return page


def _asked_before(person: Person | None, *, only_new: bool) -> ProfileDraft:
    if person is None:
        return ProfileDraft()
    return replace(draft_of(person), asked_list=person.answered_list if only_new else 0)
