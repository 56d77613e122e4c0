"""What each page of the check-in asks."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from app.domain.dosing.screening import SIGNS
from app.domain.model.body import Region, Spot
from app.domain.model.diary import Symptom
from app.ui.client.check_in.check_in_answers import Answers, Earlier, left_open, morning_spots
from app.ui.client.profile.profile_draft import Held
from app.ui.parts import Card, Look, options
from app.ui.parts import theme as t
from app.ui.parts.body_list import BodyPicker
from app.words import parts, signs
from app.words.client import check_in as words
from app.words.client.today import said

Ends = tuple[str, str, str]
Tell = Callable[[dict[Spot, int]], None]


@dataclass(frozen=True)
class Asks:
    """How parts of the body are asked about: the ends of the scale, and what stands before the sides."""

    held: Held[Answers]
    ends: Ends
    labels: Mapping[Region, str]

    def picker(self, c: Card, levels: dict[Spot, int], tell: Tell) -> ft.Control:
        """The body; a part that waits for its number is noted, so that it is not passed over."""
        return BodyPicker(c, levels, tell, self.ends, labels=self.labels, on_ask=self._note)

    def forget(self) -> None:
        """No part waits for a number any more."""
        self._note(None)

    def _note(self, spot: Spot | None) -> None:
        self.held.note(replace(self.held.value, asking=spot))


def ask_signs(c: Card, held: Held[Answers], asked: str, number: str, onward: Callable[[], None]) -> list[ft.Control]:
    """Anything new or worrying: "No" goes on by itself, "Yes" opens the list."""
    answers = held.value

    def tell(new: bool) -> None:
        held.set(replace(held.value, new=new, signs=held.value.signs if new else frozenset(), complaint=""))
        if not new:
            onward()

    pieces: list[ft.Control] = [
        c.title(said(words.ANYTHING_NEW, asked)), c.yes_no(words.ANYTHING_SHORT, answers.new, tell),
    ]
    if not answers.new:
        return pieces
    return [*pieces, *_urgent(c, answers, number, asked), c.head(words.WHICH_SIGNS), *_sign_groups(c, held)]


def _urgent(c: Card, answers: Answers, number: str, asked: str) -> list[ft.Control]:
    found = answers.emergencies()
    if not found:
        return []
    first, *more = signs.what_to_do(found[0], number, asked)
    return [c.harm_box(c.stack([c.text(first, t.T_HEAD, t.EXTRA, height=1.15), *(c.body(line) for line in more)]))]


def _sign_groups(c: Card, held: Held[Answers]) -> list[ft.Control]:
    def toggle(sign: str) -> None:
        held.set(replace(held.value, signs=held.value.signs ^ {sign}, complaint=""))

    pieces: list[ft.Control] = []
    for symptom, name in words.SIGN_GROUPS.items():
        among = options(*((s, signs.sign_words(s)) for s in SIGNS if SIGNS[s] is symptom))
        group = c.stack([c.subhead(name), c.several_of_list(among, held.value.signs, toggle)])
        pieces.append(c.harm_box(group) if symptom is Symptom.EMERGENCY else group)
    return pieces


def ask_pain(
    c: Card, held: Held[Answers], asked: str, earlier: Earlier, onward: Callable[[], None]
) -> list[ft.Control]:
    """Joints that hurt."""
    def tell(levels: dict[Spot, int]) -> None:
        held.set(replace(held.value, pain=levels, complaint=""))

    asks = Asks(held, words.PAIN_ENDS, parts.REGIONS)
    return _spots_page(c, said(words.JOINTS, asked), words.JOINTS_HINT, words.NOTHING_HURTS, held.value.pain,
                       earlier.pain, asks, tell, onward)


def ask_soreness(
    c: Card, held: Held[Answers], asked: str, earlier: Earlier, onward: Callable[[], None]
) -> list[ft.Control]:
    """Tired, achy muscles."""
    def tell(levels: dict[Spot, int]) -> None:
        held.set(replace(held.value, soreness=levels, complaint=""))

    return _spots_page(c, said(words.MUSCLES, asked), words.MUSCLES_HINT, words.NO_ACHES, held.value.soreness,
                       earlier.soreness, Asks(held, words.ACHE_ENDS, parts.MUSCLES), tell, onward)


def _spots_page(
    c: Card, head: str, hint: str, nothing: str, told: Mapping[Spot, int] | None, earlier: Mapping[Spot, int],
    asks: Asks, tell: Tell, onward: Callable[[], None],
) -> list[ft.Control]:
    """"Nothing" in one tap; last time's spots as open questions; then the body."""
    def none(_: Any) -> None:
        asks.forget()
        tell(dict.fromkeys(earlier, 0))
        onward()

    levels = dict(told or {})
    is_nothing = told is not None and not any(levels.values())
    nothing_button = c.button(nothing, none, look=Look.SOLID if is_nothing else Look.BOX, height=t.TARGET_PLAYER)
    pieces: list[ft.Control] = [c.title(head), c.body(hint), nothing_button]
    pieces += _open_spots(c, left_open(levels, earlier), earlier, levels, tell, asks.ends)
    return [*pieces, c.rule(), asks.picker(c, levels, tell)]


def _open_spots(
    c: Card, spots: list[Spot], earlier: Mapping[Spot, int], levels: dict[Spot, int], tell: Tell, ends: Ends
) -> list[ft.Control]:
    if not spots:
        return []
    asked: list[ft.Control] = []
    for spot in spots:
        line = words.earlier_line(parts.spot(spot), earlier[spot])
        asked += [c.strong(line), _scale(c, spot, None, levels, tell, ends)]
    return [c.aside(c.stack([c.subhead(words.EARLIER_HEAD), *asked], 12))]


def _scale(c: Card, spot: Spot, chosen: int | None, levels: dict[Spot, int], tell: Tell, ends: Ends) -> ft.Control:
    return c.scale_0_10(parts.spot(spot), chosen, lambda level: tell({**levels, spot: level}), ends)


def ask_morning(
    c: Card, held: Held[Answers], asked: str, earlier: Earlier, onward: Callable[[], None]
) -> list[ft.Control]:
    """The morning after the last session, where it hurt before or since, and anywhere else."""
    session, day = earlier.session, earlier.morning_day()
    assert session is not None and day is not None
    spots = morning_spots(earlier, held.value)
    levels = dict(held.value.morning or {})
    asks = Asks(held, words.PAIN_ENDS, parts.REGIONS)

    def tell(told: dict[Spot, int]) -> None:
        held.set(replace(held.value, morning=told, complaint=""))

    def none(_: Any) -> None:
        asks.forget()
        tell(dict.fromkeys(spots, 0))
        onward()

    pieces: list[ft.Control] = [
        c.title(words.morning_head(session.name, asked)), c.body(words.morning_hint(day, asked)),
        c.button(words.NOTHING_WORSE, none, height=t.TARGET_PLAYER),
    ]
    for spot in spots:
        pieces += [c.strong(parts.spot(spot)), _scale(c, spot, levels.get(spot), levels, tell, words.PAIN_ENDS)]
    elsewhere = {spot: level for spot, level in levels.items() if spot not in spots}
    kept = {spot: level for spot, level in levels.items() if spot in spots}
    picker = asks.picker(c, elsewhere, lambda more: tell({**kept, **more}))
    return [*pieces, c.head(words.SOMEWHERE_ELSE), picker]


def ask_flare(c: Card, held: Held[Answers], asked: str, choices: list[int]) -> list[ft.Control]:
    """Clearly worse a day or two after the last session: what comes late is easily forgotten."""
    def tell(days: int) -> None:
        held.set(replace(held.value, flare=days, complaint=""))

    among = options(*((days, words.FLARE_CHOICES[days]) for days in choices))
    return [c.title(said(words.FLARE, asked)), c.body(words.FLARE_HINT), c.one_of(among, held.value.flare, tell)]


def ask_feel(c: Card, held: Held[Answers], asked: str) -> list[ft.Control]:
    """Slept, energy, settled; and, for somebody who is led, who answered."""
    answers = held.value

    def tell(name: str) -> Callable[[Any], None]:
        return lambda value: held.set(replace(held.value, complaint="", **{name: value}))

    chosen = {words.SLEPT: ("slept", answers.slept), words.ENERGY: ("energy", answers.energy),
              words.SETTLED: ("calm", answers.calm)}
    pieces: list[ft.Control] = [c.title(said(words.FEEL, asked)), c.rule()]
    for name, (key, value) in chosen.items():
        low, high = words.FEEL_ENDS[name]
        pieces.append(c.scale_1_5(name, low, high, value, tell(key)))
    if asked:
        among = options(*words.answered_options(asked))
        pieces += [c.head(words.WHO_ANSWERED), c.one_of(among, answers.by_them, tell("by_them")),
                   c.soft(words.GUESS_NOTE)]
    return pieces
