"""What has been entered about somebody so far, on the welcome's pages and again in the settings."""
from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

import flet as ft
from flet.components.hooks.use_ref import MutableRef

from app.domain.branding.brand import EmergencyNumber
from app.domain.model.client import Client, Condition
from app.domain.model.person import Person
from app.words.client.welcome import USUAL_NUMBER, number_for
from app.words.english import is_american

T = TypeVar("T")
POUND_G = 453.592
OLDEST = 1900
#: Nothing is at hand until it is ticked: nobody is given a weight that they never said they own.
NOBODY = Person("", "", body=Client(kit=frozenset()), sends=frozenset())


@dataclass(frozen=True)
class ProfileDraft:
    """Entered and not kept yet. None is "not answered"."""

    person: Person = NOBODY
    leads: bool = False
    born: str = ""
    weights: str = ""
    alone: bool | None = None
    rises: bool | None = None
    ticked: frozenset[str] | None = None
    """Stop questions that are true; empty: none of them."""
    asked_list: int = 0
    """The list of stop questions that was answered before, where only what it lacked is asked; 0: all are asked."""
    number: str = USUAL_NUMBER
    number_typed: bool = False
    number_right: bool = False
    complaint: str = ""
    """What keeps this page from going on."""
    opened: frozenset[str] = frozenset()
    """Heads of the groups of conditions that are open."""

    @property
    def body(self) -> Client:
        """Their body as entered."""
        return self.person.body

    @property
    def asked(self) -> str:
        """Whom somebody else answers for; empty where the person answers."""
        return (self.person.name.strip() or "them") if self.leads else ""


class Held(Generic[T]):
    """A value of a component: `note` keeps what is typed, `set` also draws anew."""

    def __init__(self, value: T, redraw: Callable[[], None]) -> None:
        self.value = value
        self._redraw = redraw

    def note(self, value: T) -> None:
        """Keeps it; the page stays as drawn, so that nobody's typing is overtaken."""
        self.value = value

    def set(self, value: T) -> None:
        """Keeps it and draws the page anew."""
        self.value = value
        self._redraw()


def use_held(first: Callable[[], T]) -> Held[T]:
    """A hook: a value that lives as long as the component."""
    _, turn = ft.use_state(0)

    def begin() -> Held[T]:
        return Held(first(), lambda: turn(lambda n: n + 1))

    kept: MutableRef[Held[T]] = ft.use_ref(begin)
    assert kept.current is not None
    return kept.current


def with_person(draft: ProfileDraft, **changes: Any) -> ProfileDraft:
    """The draft with something changed about the person."""
    return replace(draft, person=replace(draft.person, **changes), complaint="")


def with_body(draft: ProfileDraft, **changes: Any) -> ProfileDraft:
    """The draft with something changed about the body."""
    return with_person(draft, body=replace(draft.body, **changes))


def with_country(draft: ProfileDraft, country: str, known: Sequence[EmergencyNumber] = ()) -> ProfileDraft:
    """The draft with a country, its unit of weight, and its usual number unless another was typed; to be confirmed.

    `known`: numbers that the coach entered; they come before the usual ones.
    """
    number = draft.number if draft.number_typed else number_for(country, known)
    right = draft.number_right and number == draft.number
    was, now = is_american(draft.person.country), is_american(country)
    pounds = draft.person.pounds if was == now else now
    return replace(with_person(draft, country=country, pounds=pounds), number=number, number_right=right)


def with_known(draft: ProfileDraft, chosen: EmergencyNumber) -> ProfileDraft:
    """The draft with a country and the number that the coach entered for it; to be confirmed."""
    return replace(with_country(draft, chosen.country), number=chosen.number, number_typed=False, number_right=False)


def draft_of(person: Person) -> ProfileDraft:
    """Everything known of somebody, for changing it."""
    body = person.body
    return ProfileDraft(
        person, leads=bool(person.led_by), born=str(person.birth_year or ""),
        weights=weights_words(body.weights_g or (), pounds=person.pounds), alone=body.alone, rises=body.rises_unaided,
        number=person.emergency_number, number_typed=True, number_right=True,
    )


def weights_words(weights_g: tuple[int, ...], *, pounds: bool) -> str:
    """`2, 4` in the unit that is used."""
    unit = POUND_G if pounds else 1000
    return ", ".join(f"{g / unit:.1f}".rstrip("0").rstrip(".") for g in weights_g)


def weights_g(words: str, *, pounds: bool) -> tuple[int, ...] | None:
    """The weights in grams, lightest first; None where the words are no list of weights up to 60 kg."""
    unit = POUND_G if pounds else 1000
    try:
        found = [round(float(part) * unit) for part in re.split(r"[,;\s]+", words.strip(" ,;")) if part]
    except (ValueError, OverflowError):
        return None
    return tuple(sorted(set(found))) if all(0 < g <= 60_000 for g in found) else None


def birth_year(words: str, this_year: int) -> int | None:
    """The year, or None where the words are none that can be."""
    told = words.strip()
    return int(told) if told.isdigit() and OLDEST <= int(told) <= this_year else None


def finished(draft: ProfileDraft, this_year: int) -> Person:
    """The person as entered. Stop questions are answered by an action, since they are dated."""
    body = draft.body
    conditions = body.conditions - {Condition.CANNOT_RISE}
    conditions |= {Condition.CANNOT_RISE} if draft.rises is False else frozenset()
    owned = weights_g(draft.weights, pounds=draft.person.pounds) if "dumbbell" in (body.kit or ()) else ()
    side = body.rest_side if Condition.ONE_SIDE in conditions else ""
    body = replace(
        body, conditions=conditions, alone=bool(draft.alone), rises_unaided=draft.rises is not False,
        weights_g=body.weights_g if body.kit is None else owned, rest_side=side,
        rest_side_because=body.rest_side_because.strip() if side else "",
        rest_limb=body.rest_limb if side else "",
    )
    person = draft.person
    return replace(
        person, body=body, name=person.name.strip(), led_by=person.led_by.strip() if draft.leads else "",
        birth_year=birth_year(draft.born, this_year), country=person.country.strip(), told_by=person.told_by.strip(),
        emergency_number=draft.number.strip(), emergency_contact=person.emergency_contact.strip(),
    )
