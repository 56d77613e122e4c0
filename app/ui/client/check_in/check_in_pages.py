"""What each page of the check-in asks. Nothing goes on by itself: an answer marks itself, and Next leads on."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from app.domain.dosing.screening import SIGNS
from app.domain.model.body import Region, Spot
from app.domain.model.diary import Symptom
from app.ui.client.check_in.check_in_answers import Answers, Earlier, morning_spots, passed_by, said_on
from app.ui.client.profile.profile_draft import Held
from app.ui.parts import Card, Look, options
from app.ui.parts import theme as t
from app.ui.parts.body_list import BodyPicker
from app.words import parts, signs
from app.words.client import check_in as words
from app.words.client.today import said


@dataclass(frozen=True)
class Asks:
    """One page's question: the answers so far, whom it is about, and who is told that a part was pressed."""

    c: Card
    held: Held[Answers]
    page: str
    asked: str
    on_spot: Callable[[Spot | None], None]

    def tell(self, **values: object) -> None:
        """Something was said."""
        self.held.set(said_on(self.held.value, self.page, **values))

    def rather_not(self) -> ft.Control:
        """The answer of its own kind; what it means stands in it as soon as it is chosen."""
        c, on = self.c, self.page in self.held.value.unsaid

        def press(_: Any) -> None:
            self.held.set(passed_by(self.held.value, self.page))

        face = said(words.RATHER_NOT, self.asked)
        if not on:
            return c.press(c.text(face, t.T_BODY, t.SEMI, height=1.15), press, "", c.border(t.HAIR, c.p.soft),
                           ft.Padding.symmetric(horizontal=12, vertical=15))
        meant = c.text(words.RATHER_NOT_MEANS[self.page], t.T_BODY, t.SEMI, height=1.15)
        lines = c.stack([c.text(face, t.T_BODY, t.EXTRA, height=1.15), meant], 2)
        box = c.choosable(lines, press, True, ft.Padding.symmetric(horizontal=12, vertical=12))
        return ft.MergeSemantics(ft.Semantics(content=box, selected=True))


def ask_signs(asks: Asks, number: str) -> list[ft.Control]:
    """Anything new or worrying, with examples; "Yes" opens the list."""
    c, answers = asks.c, asks.held.value

    def tell(new: bool) -> None:
        asks.tell(new=new, signs=asks.held.value.signs if new else frozenset())

    pieces: list[ft.Control] = [c.title(said(words.ANYTHING_NEW, asks.asked)), c.body(words.ANYTHING_EXAMPLES),
                                c.yes_no(words.ANYTHING_SHORT, answers.new, tell)]
    if not answers.new:
        return [*pieces, asks.rather_not()]
    return [*pieces, *_urgent(c, answers, number, asks.asked), c.head(words.WHAT_IS_IT), c.body(words.WHICH_SIGNS),
            *_sign_groups(asks)]


def _urgent(c: Card, answers: Answers, number: str, asked: str) -> list[ft.Control]:
    found = answers.emergencies()
    if not found:
        return []
    first, *more = signs.what_to_do(found[0], number, asked)
    return [c.harm_box(c.stack([c.text(first, t.T_HEAD, t.EXTRA, height=1.15), *(c.body(line) for line in more)]))]


def _sign_groups(asks: Asks) -> list[ft.Control]:
    c = asks.c

    def toggle(sign: str) -> None:
        asks.tell(signs=asks.held.value.signs ^ {sign})

    pieces: list[ft.Control] = []
    for symptom, name in words.SIGN_GROUPS.items():
        among = options(*((s, signs.sign_words(s)) for s in SIGNS if SIGNS[s] is symptom))
        group = c.stack([c.subhead(name), c.several_of_list(among, asks.held.value.signs, toggle)])
        pieces.append(c.harm_box(group) if symptom is Symptom.EMERGENCY else group)
    return pieces


def ask_pain(asks: Asks, earlier: Earlier) -> list[ft.Control]:
    """Joints that hurt."""
    head = [asks.c.title(said(words.JOINTS, asks.asked)), asks.c.body(words.JOINTS_HINT)]
    return [*head, *_body(asks, words.NOTHING_HURTS, earlier.pain, words.PAIN_ENDS, parts.REGIONS)]


def ask_soreness(asks: Asks, earlier: Earlier) -> list[ft.Control]:
    """Tired, achy muscles."""
    head = [asks.c.title(said(words.MUSCLES, asks.asked)), asks.c.body(words.MUSCLES_HINT)]
    return [*head, *_body(asks, words.NO_ACHES, earlier.soreness, words.ACHE_ENDS, parts.MUSCLES)]


def ask_morning(asks: Asks, earlier: Earlier) -> list[ft.Control]:
    """The morning after the last session, where it hurt before or since, and anywhere else."""
    session, day = earlier.session, earlier.morning_day()
    assert session is not None and day is not None
    c, spots = asks.c, dict.fromkeys(morning_spots(earlier, asks.held.value), 0)
    before = {spot: earlier.before.get(spot, 0) for spot in spots}
    head = [c.title(words.morning_head(session.name, asks.asked)), c.body(words.morning_hint(day, asks.asked))]
    return [*head, *_body(asks, words.NOTHING_WORSE, before, words.PAIN_ENDS, parts.REGIONS)]


def _body(asks: Asks, nothing: str, was: Mapping[Spot, int], ends: tuple[str, str, str], labels: Mapping[Region, str]
          ) -> list[ft.Control]:
    """"Nothing" in one press; then the body, on which last time's parts say what they were; then the third answer."""
    c, answers = asks.c, asks.held.value
    told = answers.spots(asks.page)

    def none(_: Any) -> None:
        asks.tell(**{asks.page: dict.fromkeys(was, 0), "asking": None})

    def tell(levels: dict[Spot, int]) -> None:
        asks.tell(**{asks.page: levels or None})

    is_nothing = told is not None and not any(told.values()) and answers.asking is None
    button = c.button(nothing, none, look=Look.SOLID if is_nothing else Look.BOX, height=t.TARGET)
    picker = BodyPicker(c, dict(told or {}), tell, ends, labels=labels, on_ask=asks.on_spot, asked=answers.asking,
                        was=was)
    return [ft.MergeSemantics(ft.Semantics(content=button, selected=is_nothing)), picker, asks.rather_not()]


def ask_flare(asks: Asks, choices: list[int]) -> list[ft.Control]:
    """Clearly worse a day or two after the last session: what comes late is easily forgotten."""
    def tell(days: int) -> None:
        asks.tell(flare=days)

    c, among = asks.c, options(*((days, words.FLARE_CHOICES[days]) for days in choices))
    return [c.title(said(words.FLARE, asks.asked)), c.body(words.FLARE_HINT),
            c.one_of(among, asks.held.value.flare, tell), asks.rather_not()]


def ask_feel(asks: Asks) -> list[ft.Control]:
    """Slept, energy, settled; and, for somebody who is led, who answered."""
    c, answers = asks.c, asks.held.value

    def tell(name: str) -> Callable[[Any], None]:
        return lambda value: asks.tell(**{name: value})

    pieces: list[ft.Control] = [c.title(said(words.FEEL, asks.asked)), c.rule()]
    for name, key in FEEL_KEYS.items():
        low, high = words.FEEL_ENDS[name]
        pieces.append(c.scale_1_5(name, low, high, getattr(answers, key), tell(key)))
    pieces.append(asks.rather_not())
    if asks.asked:
        among = options(*words.answered_options(asks.asked))
        pieces += [c.head(words.WHO_ANSWERED), c.one_of(among, answers.by_them, _by(asks)), c.soft(words.GUESS_NOTE)]
    return pieces


def _by(asks: Asks) -> Callable[[bool], None]:
    """Who answered is no answer to the question itself."""
    return lambda by: asks.held.set(replace(asks.held.value, by_them=by, complaint=""))


FEEL_KEYS: Mapping[str, str] = {words.SLEPT: "slept", words.ENERGY: "energy", words.SETTLED: "calm"}
