"""Where it hurts and how much: a list of regions with their sides, or the same on a picture.

Names for finding: a spot is the button "Left knee", once a level is given "Left knee: 6"; the squares are
"Left knee 6 of 10"; taking it back is "Remove left knee". Match exactly, since one name holds another.
"""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Any

import flet as ft

from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, Region, Spot
from app.ui.parts import theme as t
from app.ui.parts.body_picture import body_picture
from app.ui.parts.buttons import bind
from app.ui.parts.choices import Choices, options
from app.words import parts as words_of


@dataclass(frozen=True)
class Asking:
    """What is known, which spot is being asked about, and whom to tell.

    `on_ask` gets a Spot or None; `on_level` a Spot and 0–10; `on_remove` a Spot.
    """

    levels: Mapping[Spot, int]
    spot: Spot | None
    on_ask: Callable[[Spot | None], Any]
    on_level: Callable[[Spot, int], Any]
    on_remove: Callable[[Spot], Any]
    ends: tuple[str, str, str] = ("", "", "")
    """What 0, 5 and 10 mean."""
    labels: Mapping[Region, str] = field(default_factory=lambda: words_of.REGIONS)
    """What stands before the sides of a region."""


class BodyShownAs(Enum):
    """How the body is shown."""

    LIST = "list"
    PICTURE = "picture"


@ft.component
def BodyPicker(
    c: Choices, levels: Mapping[Spot, int], on_change: Callable[[dict[Spot, int]], Any],
    ends: tuple[str, str, str] = ("", "", ""), view: BodyShownAs = BodyShownAs.LIST,
    labels: Mapping[Region, str] = words_of.REGIONS, on_ask: Callable[[Spot | None], Any] | None = None,
) -> ft.Control:
    """Picks spots and their levels; `on_change` gets all of them anew. It remembers only which spot is being asked.

    `on_ask` is told of each spot that is opened without a level yet, and None once nothing is open.
    """
    nowhere: Spot | None = None
    spot, set_spot = ft.use_state(nowhere)
    shown, show = ft.use_state(view)

    def ask(which: Spot | None) -> None:
        set_spot(which)
        if on_ask is not None:
            on_ask(which)

    def set_level(which: Spot, level: int) -> None:
        on_change({**levels, which: level})

    def remove(which: Spot) -> None:
        ask(None)
        on_change({other: level for other, level in levels.items() if other != which})

    asking = Asking(levels, spot, ask, set_level, remove, ends, labels)
    views = options((BodyShownAs.LIST, words_of.AS_LIST), (BodyShownAs.PICTURE, words_of.ON_PICTURE))
    drawn = body_list(c, asking) if shown is BodyShownAs.LIST else picture_list(c, asking)
    return c.stack([c.one_of(views, shown, show), drawn], t.GAP)


def body_list(c: Choices, asking: Asking) -> ft.Control:
    """Every region with its sides; the question follows under the region that was pressed."""
    pieces: list[ft.Control] = [chosen_spots(c, asking)] if asking.levels else []
    for region in BODY_REGIONS:
        pieces += [c.hairline()] if pieces else []
        pieces.append(_region(c, region, asking))
        if asking.spot and asking.spot.region is region:
            pieces.append(_question(c, asking.spot, asking))
    return c.stack(pieces)


def picture_list(c: Choices, asking: Asking) -> ft.Control:
    """A figure seen from behind, so that left is left, and under it the question and what was chosen."""
    pieces: list[ft.Control] = [
        c.soft(words_of.FROM_BEHIND),
        body_picture(c, asking.levels, asking.spot, asking.on_ask, asking.labels),
    ]
    pieces += [_question(c, asking.spot, asking)] if asking.spot else []
    pieces += [chosen_spots(c, asking)] if asking.levels else []
    return c.stack(pieces, t.GAP)


def chosen_spots(c: Choices, asking: Asking) -> ft.Control:
    """The spots with a level, each with a way to take it back."""
    return c.box(c.rows([_chosen(c, spot, level, asking) for spot, level in sorted(asking.levels.items())], 6))


def _chosen(c: Choices, spot: Spot, level: int, asking: Asking) -> ft.Control:
    name = words_of.spot(spot, asking.labels)
    words = c.text(words_of.level_of(name, level), t.T_LEAD, t.EXTRA, height=1.15)
    act = c.small_button(words_of.REMOVE, bind(asking.on_remove, spot), name=words_of.remove(name))
    if c.scale > t.LARGE_PRINT:
        return c.stack([words, act], 4)
    words.expand = True
    return ft.Row([words, act], spacing=t.GAP_S)


def _region(c: Choices, region: Region, asking: Asking) -> ft.Control:
    if region not in PAIRED_REGIONS:
        return _spot(c, Spot(region), asking, asking.labels[region])
    cells: list[ft.Control] = [
        _spot(c, Spot(region, side), asking, words_of.SIDES[side], expand=True) for side in ("left", "right")
    ]
    name = c.text(asking.labels[region], t.T_LEAD, t.SEMI, height=1.15)
    if c.scale > t.LARGE_PRINT:
        return c.stack([name, ft.Row(cells, spacing=t.GAP_S)], 4)
    name.width = 108
    return ft.Row([name, *cells], spacing=t.GAP_S)


def _spot(c: Choices, spot: Spot, asking: Asking, face: str, **more: Any) -> ft.Control:
    level = asking.levels.get(spot)
    name = words_of.spot(spot, asking.labels)
    words = face if level is None else words_of.level_of(face, level)
    spoken = name if level is None else words_of.level_of(name, level, ":")
    then = None if asking.spot == spot else spot
    return c.choice(words, spoken, level is not None or asking.spot == spot, bind(asking.on_ask, then), **more)


def _question(c: Choices, spot: Spot, asking: Asking) -> ft.Control:
    name = words_of.spot(spot, asking.labels)

    def tell(level: int) -> Any:
        return asking.on_level(spot, level)

    scale = c.scale_0_10(name, asking.levels.get(spot), tell, asking.ends)
    return c.aside(c.stack([c.subhead(words_of.how_much(name)), scale]))
