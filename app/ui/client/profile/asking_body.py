"""Questions about the body: what clinicians have said, and what to go easy on."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import flet as ft

from app.domain.model.body import PAIRED_REGIONS, Region, Spot
from app.domain.model.client import Condition
from app.ui.client.profile.asking_person import typed
from app.ui.client.profile.profile_draft import Held, ProfileDraft, with_body
from app.ui.parts import AnswerOption, Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell
from app.words import parts as part_words
from app.words.client import welcome as words
from app.words.client.today import said
from app.words.conditions import GROUPS
from app.words.listing import listed


def ask_conditions(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """Each in plain words with what it leaves out; nothing is ticked beforehand."""
    draft = held.value
    ticked = draft.body.conditions & set(words.CONDITIONS)
    pieces: list[ft.Control] = [c.body(words.CONDITIONS_LED if draft.leads else words.CONDITIONS_HINT)]
    for head, group in GROUPS:
        pieces += _group(c, held, head, group)
    if Condition.ONE_SIDE in ticked:
        pieces.append(c.aside(c.stack(_which_side(c, held), t.GAP)))
    if ticked:
        field = c.field(said(words.TOLD_BY, draft.asked), draft.person.told_by, typed(held, "told_by"))
        pieces += [field, c.soft(words.TOLD_BY_HINT)]
    else:
        pieces.append(c.soft(words.NOTHING_APPLIES))
    return pieces


def _group(c: Card, held: Held[ProfileDraft], head: str, group: Mapping[Condition, tuple[str, str]]
           ) -> list[ft.Control]:
    """A row that opens the group and names what is ticked in it; open, its conditions with what each leaves out."""
    draft = held.value
    ticked = [condition for condition in group if condition in draft.body.conditions]

    def toggle(condition: Condition) -> None:
        held.set(with_body(held.value, conditions=held.value.body.conditions ^ {condition}))

    def turn(_: object) -> None:
        held.set(replace(held.value, opened=held.value.opened ^ {head}))

    said_of = listed([group[condition][0] for condition in ticked]) or words.GROUP_EMPTY
    row = c.row(head, said_of, turn, name=head)
    if head not in draft.opened:
        return [row]
    among = [AnswerOption(condition, name, note) for condition, (name, note) in group.items()]
    return [row, c.several_of_list(among, ticked, toggle)]


def _which_side(c: Card, held: Held[ProfileDraft]) -> list[ft.Control]:
    def side(value: str) -> None:
        held.set(with_body(held.value, rest_side=value))

    def limb(value: str) -> None:
        held.set(with_body(held.value, rest_limb=value))

    def because(e: Any) -> None:
        held.note(with_body(held.value, rest_side_because=e.control.value or ""))

    sides = [AnswerOption(value, word, name=f"{words.WHICH_SIDE} {word}") for value, word in words.SIDE_OPTIONS]
    limbs = [AnswerOption(value, word, name=f"{words.WHICH_LIMB} {word}") for value, word in words.LIMB_OPTIONS]
    return [
        c.subhead(words.WHICH_SIDE, level=2), c.one_of(sides, held.value.body.rest_side, side),
        c.subhead(words.WHICH_LIMB, level=2), c.one_of(limbs, held.value.body.rest_limb, limb), c.soft(words.LIMB_HINT),
        c.field(words.SIDE_BECAUSE, held.value.body.rest_side_because, because),
    ]


def conditions_lack(draft: ProfileDraft, this_year: int) -> str:
    """What is missing on that page."""
    return words.SIDE_MISSING if Condition.ONE_SIDE in draft.body.conditions and not draft.body.rest_side else ""


# ------------------------------------------------------------------ what to go easy on

@ft.component
def SpareList(c: Card, held: Held[ProfileDraft]) -> ft.Control:
    """Every region with its sides; pressing one asks how much it may do. It remembers only which one is asked about."""
    asked, ask = ft.use_state(None)
    pieces: list[ft.Control] = []
    for region in Region:
        pieces += [c.hairline()] if pieces else []
        pieces.append(_region(c, region, held, asked, ask))
        if asked is not None and asked.region is region:
            pieces.append(_how_much(c, asked, held, ask))
    return c.stack(pieces)


def ask_spare(c: Card, shell: Shell, held: Held[ProfileDraft]) -> list[ft.Control]:
    """What to go easy on."""
    return [c.body(words.SPARE_HINT), SpareList(c, held)]


def _region(c: Card, region: Region, held: Held[ProfileDraft], asked: Spot | None, ask: Any) -> ft.Control:
    if region not in PAIRED_REGIONS:
        return _spot(c, Spot(region), part_words.REGIONS[region], held, asked, ask)
    name = c.text(part_words.REGIONS[region], t.T_LEAD, t.SEMI, height=1.15)
    cells: list[ft.Control] = [
        _spot(c, Spot(region, side), word, held, asked, ask, expand=True) for side, word in part_words.SIDES.items()
    ]
    if c.scale > t.LARGE_PRINT:
        return c.stack([name, ft.Row(cells, spacing=t.GAP_S)], 4)
    name.width = 108
    return ft.Row([name, *cells], spacing=t.GAP_S)


def _spot(
    c: Card, spot: Spot, face: str, held: Held[ProfileDraft], asked: Spot | None, ask: Any, **more: Any
) -> ft.Control:
    cap = held.value.body.spare.get(spot)
    name = part_words.spot(spot)
    spoken = name if cap is None else words.spare_name(spot, words.SPARE_WORDS[min(cap, 1)])
    shown = face if cap is None else f"{face}: {words.SPARE_SHORT[min(cap, 1)]}"
    then = None if asked == spot else spot
    return c.choice(shown, spoken, cap is not None or asked == spot, bind(ask, then), **more)


def _how_much(c: Card, spot: Spot, held: Held[ProfileDraft], ask: Any) -> ft.Control:
    def choose(cap: int | None) -> None:
        others = {s: level for s, level in held.value.body.spare.items() if s != spot}
        held.set(with_body(held.value, spare=others if cap is None else {**others, spot: cap}))
        ask(None)

    pairs: list[tuple[int | None, str]] = [*words.SPARE_OPTIONS, (None, words.SPARE_NO_NEED)]
    among = [AnswerOption(cap, word, name=words.spare_name(spot, word)) for cap, word in pairs]
    chosen = held.value.body.spare.get(spot, -1)
    return c.aside(c.stack([c.subhead(words.spare_question(spot), level=2), c.one_of(among, chosen, choose)]))
