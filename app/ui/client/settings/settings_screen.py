"""The settings: the person, their places, this device, where the records live. One page for each group."""
from __future__ import annotations

from collections.abc import Callable
from datetime import date

import flet as ft

from app.actions.people import Role, choose_role, current_person, current_role, leave
from app.actions.pin_locks import DESK, has_pin
from app.domain.dosing.conditions import has_first_limits
from app.domain.model.person import Person
from app.ui.client.nav import client_nav
from app.ui.client.profile.about_app import about_pieces
from app.ui.client.profile.asking_person import goes as sent_words
from app.ui.client.profile.questions import CHANGEABLE
from app.ui.client.settings.condition_dates import ConditionDatesPage
from app.ui.client.settings.device import device_pieces
from app.ui.client.settings.person import PersonPage
from app.ui.client.settings.pin import PinPage
from app.ui.client.settings.places import PlacesPage
from app.ui.client.settings.records import ErasePage
from app.ui.client.settings.shown import ShownPage
from app.ui.client.settings.store_safety import KeptPart
from app.ui.client.settings.usual_pain import UsualPage
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words import conditions, parts
from app.words.client import settings as words
from app.words.client import today, welcome
from app.words.machine import pins
from app.words.text import listed

PAGES: dict[str, Callable[[Shell, Person], ft.Control]] = {
    "places": PlacesPage, "usual": UsualPage, "shown": ShownPage,
    "dates": ConditionDatesPage,
}


@ft.component
def SettingsScreen(shell: Shell) -> ft.Control:
    """`/settings`, or `/settings/PAGE`."""
    page, person = shell.route_id(), current_person(shell.store)
    coach = current_role(shell.store) is Role.COACH
    if page == "erase":
        return ErasePage(shell)
    if page == "pin" and (coach or person is not None):
        return PinPage(shell, None if coach else person)
    if person is not None and not coach:
        if page in PAGES:
            return PAGES[page](shell, person)
        if page in words.PAGES:
            return PersonPage(shell, person, page)
    return _menu(shell, None if coach else person)


def _menu(shell: Shell, person: Person | None) -> ft.Control:
    c = shell.card()
    body: list[ft.Control] = [c.title(words.TITLE)]
    if person is not None:
        body += [c.head(words.about(person.name)), c.rows([
            *(c.row(words.PAGES[q.key], summary(person, q.key), goes(shell, f"/settings/{q.key}"),
                    name=words.PAGES[q.key]) for q in CHANGEABLE),
            c.row(words.STOPS, words.stops_said(_day(person.screened)), goes(shell, "/welcome/questions"),
                  name=words.STOPS),
            *([c.row(conditions.DATES, conditions.DATES_SHORT, goes(shell, "/settings/dates"), name=conditions.DATES)]
              if any(has_first_limits(condition) for condition in person.body.conditions) else []),
            c.row(words.USUAL, _usual(person), goes(shell, "/settings/usual"), name=words.USUAL),
            c.row(words.STEADY, words.shown_said(len(person.body.shown), person.body.same_as_always),
                  goes(shell, "/settings/shown"), name=words.STEADY),
            c.row(words.PLACES, listed([p.name for p in person.places]), goes(shell, "/settings/places"),
                  name=words.PLACES),
            c.row(words.PROGRAMME, "", goes(shell, "/programme")),
        ], 2)]
    device = device_pieces(c, shell)
    body += [] if person else device
    beside = [*(device if person else []), *_roles(c, shell, person)]
    beside += about_pieces(c, shell.brand, shell.device.place)
    is_desk = person is None and current_role(shell.store) is Role.COACH
    path = str(shell.store.path) if shell.store.path and not shell.device.place.in_browser else ""
    beside += [c.head(words.RECORDS), c.body(words.kept_in(path)), *([c.body(words.COPIES)] if person else []),
               *([c.rows([c.row(pins.PIN, pins.state(has_pin(shell.store, person.id if person else DESK)),
                                goes(shell, "/settings/pin"), name=pins.PIN)], 2)] if person or is_desk else []),
               KeptPart(shell), c.button(words.ERASE, goes(shell, "/settings/erase"))]
    back = c.button(today.TO_TODAY, goes(shell, "/today")) if person else \
        c.button(words.BACK_TO_DESK, goes(shell, "/desk"))
    nav = client_nav(shell, "settings") if person and c.is_wide else None
    page = c.page(body, [back], nav, beside=beside)
    page.key = "menu"
    return page


def _usual(person: Person) -> str:
    told = [words.usual_line(parts.spot(s), usual.level) for s, usual in sorted(person.body.usual_pain.items())]
    return listed(told) or words.USUAL_NONE


def _day(day: date | None) -> str:
    return today.day_words(day) if day else ""


def _roles(c: Card, shell: Shell, person: Person | None) -> list[ft.Control]:
    def coach(_: object) -> None:
        choose_role(shell.store, Role.COACH)
        shell.go("/desk")

    def client(_: object) -> None:
        leave(shell.store)
        shell.go("/who")

    rows: list[ft.Control] = [c.row(words.SOMEBODY_ELSE, "", goes(shell, "/who"))] if person else []
    rows.append(c.row(words.ADD_SOMEBODY, "", goes(shell, "/welcome")))
    coached = [c.row(words.COACH_SIDE, "", safe(shell, coach))] if Role.COACH in shell.brand.roles else []
    rows += coached if person else [c.row(words.CLIENT_SIDE, "", safe(shell, client))]
    return [c.head(words.ROLES), c.rows(rows, 2)]


def summary(person: Person, page: str) -> str:
    """What is known, in a line."""
    body = person.body
    ticked = [name for condition, (name, _) in welcome.CONDITIONS.items() if condition in body.conditions]
    spared = [f"{parts.spot(s)}: {welcome.SPARE_SHORT[min(cap, 1)]}" for s, cap in sorted(body.spare.items())]
    kit = welcome.kit_words(body.kit)
    return {
        "names": " · ".join(filter(None, [person.name, str(person.birth_year or ""), person.led_by])),
        "conditions": listed(ticked) or words.NOTHING,
        "spare": listed(spared) or words.NOTHING,
        "kit": kit[:1].upper() + kit[1:],
        "around": words.around_said(body.alone, body.rises_unaided),
        "emergency": " · ".join(filter(None, [person.emergency_number, person.emergency_contact])),
        "sends": listed(sent_words(person)).capitalize() or welcome.NOTHING_SENT,
    }[page]
