"""The places where somebody trains: what each has and allows; added, changed, removed and put back."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import flet as ft

from app.actions.people import change_person, change_place
from app.domain.model.client import Place
from app.domain.model.person import Person
from app.ui.client.profile.profile_draft import use_held
from app.ui.client.today.locked_card import goes
from app.ui.client.today.session_card import place_words
from app.ui.parts import AnswerOption, Card, Look, options
from app.ui.shell.shell import Shell, safe
from app.words.client import settings as words
from app.words.client import today, welcome

NO_NAME = ""


@ft.component
def PlacesPage(shell: Shell, person: Person) -> ft.Control:
    """The list, or one place."""
    chosen, choose = ft.use_state(NO_NAME)
    new = use_held(lambda: NO_NAME)
    before: tuple[Person | None, Callable[[Person | None], None]] = ft.use_state(None)
    undone, keep_undo = before
    told, tell = ft.use_state(NO_NAME)
    place = next((p for p in person.places if p.name == chosen), None)
    c = shell.card()

    def remove(_: Any) -> None:
        assert place is not None
        left = tuple(p for p in person.places if p.name != place.name)
        keep_undo(person)
        change_person(shell.store, replace(person, places=left, place=left[0].name))
        tell(words.removed(place.name))
        choose(NO_NAME)
        shell.refresh()

    def put_back(_: Any) -> None:
        if undone is not None:
            change_person(shell.store, replace(person, places=undone.places, place=undone.place))
        keep_undo(None)
        tell(NO_NAME)
        shell.refresh()

    def add(_: Any) -> None:
        name = new.value.strip()
        if not name or any(p.name.casefold() == name.casefold() for p in person.places):
            tell(words.PLACE_THERE if name else words.NEW_PLACE_MISSING)
            return
        change_place(shell.store, person, Place(name, None))
        new.note(NO_NAME)
        keep_undo(None)
        tell(NO_NAME)
        choose(name)
        shell.refresh()

    if place is not None:
        return _one(c, shell, person, place, safe(shell, remove), lambda _: choose(NO_NAME))
    acts = [c.button(today.UNDO, safe(shell, put_back))] if undone is not None else []
    rows = [c.row(p.name, place_words(person, p), _open(choose, p.name), name=p.name) for p in person.places]
    body: list[ft.Control] = [c.title(words.PLACES), c.body(words.PLACES_HINT)]
    body += [c.notice(told, acts=acts, icon=ft.Icons.INFO_SHARP)] if told else []
    body += [c.rows(rows, 2), c.rule(), c.field(words.NEW_PLACE, new.value, lambda e: new.note(e.control.value or "")),
             c.button(words.ADD_PLACE, safe(shell, add))]
    page = c.page(body, [c.button(today.BACK, goes(shell, "/settings"))])
    page.key = "places"
    return page


def _open(choose: Callable[[str], None], name: str) -> Callable[[Any], None]:
    return lambda _: choose(name)


def _one(c: Card, shell: Shell, person: Person, place: Place, remove: Any, done: Any) -> ft.Control:
    """What one place has; every press is kept at once."""
    def change(**what: Any) -> None:
        change_place(shell.store, person, replace(place, **what))
        shell.refresh()

    def own(same: bool) -> None:
        change(kit=None if same else person.body.kit or frozenset())

    def toggle(item: str) -> None:
        change(kit=(place.kit or frozenset()) ^ {item})

    at_home = (AnswerOption(True, words.OWN_KIT), AnswerOption(False, words.OTHER_KIT))
    body: list[ft.Control] = [
        c.title(place.name), c.head(words.PLACE_KIT), c.one_of(at_home, place.kit is None, safe(shell, own))]
    if place.kit is not None:
        body.append(c.several_of_list(options(*welcome.KIT.items()), place.kit, safe(shell, toggle)))
    spaces = [AnswerOption(space, name) for space, name in words.SPACES.items()]
    body += [
        c.head(words.FLOOR), c.yes_no(words.FLOOR_SHORT, place.floor, safe(shell, lambda v: change(floor=v))),
        c.head(words.BED), c.yes_no(words.BED_SHORT, place.bed, safe(shell, lambda v: change(bed=v))),
        c.head(words.NOISE), c.yes_no(words.NOISE_SHORT, place.noise, safe(shell, lambda v: change(noise=v))),
        c.head(words.SPACE), c.one_of(spaces, place.space, safe(shell, lambda v: change(space=v))),
        c.rule(),
    ]
    only = len(person.places) == 1
    body += [c.soft(words.LAST_PLACE)] if only else [c.button(words.REMOVE_PLACE, remove)]
    page = c.page(body, [c.button(today.DONE, safe(shell, done), look=Look.SOLID)])
    page.key = f"place-{place.name}"
    return page
