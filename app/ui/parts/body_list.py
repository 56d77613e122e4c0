"""Where it hurts and how much: the body as a table with its sides, or the same round a figure.

Names for finding: a spot is the button "Left knee", once a level is given "Left knee: 6"; the squares are
"Left knee 6 of 10"; taking it back is "Left knee: leave it out". Match exactly, since one name holds another.
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

WIDEST = 520.0
"""Left and right of one region are seen as one row up to this width, px."""
ASKED = "asked"
"""The key of the question under the row that was pressed, for bringing it into view."""


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
    """What stands between the sides of a region."""
    was: Mapping[Spot, int] = field(default_factory=dict)
    """What was told last time; such a spot has to be answered and cannot be left out."""

    def face(self, spot: Spot, name: str) -> str:
        """What stands in a spot's box."""
        return words_of.cell_face(name, self.levels.get(spot), self.was.get(spot), asked=self.spot == spot)

    def spoken(self, spot: Spot) -> str:
        """What a screen reader says of it."""
        return words_of.cell_name(words_of.spot(spot, self.labels), self.levels.get(spot), self.was.get(spot))

    def is_on(self, spot: Spot) -> bool:
        """Whether it was answered or is being asked about."""
        return spot in self.levels or self.spot == spot


class BodyShownAs(Enum):
    """How the body is shown."""

    LIST = "list"
    BEHIND = "behind"
    FRONT = "front"


@ft.component
def BodyPicker(
    c: Choices, levels: Mapping[Spot, int], on_change: Callable[[dict[Spot, int]], Any],
    ends: tuple[str, str, str] = ("", "", ""), view: BodyShownAs = BodyShownAs.LIST,
    labels: Mapping[Region, str] = words_of.REGIONS, on_ask: Callable[[Spot | None], Any] | None = None,
    asked: Spot | None = None, was: Mapping[Spot, int] | None = None,
) -> ft.Control:
    """Picks spots and their levels; `on_change` gets all of them anew.

    Which spot is being asked about it remembers itself, unless `on_ask` is told of each and gives it back as `asked`.
    """
    nowhere: Spot | None = None
    own, set_own = ft.use_state(nowhere)
    shown, show = ft.use_state(view)
    ask = on_ask if on_ask is not None else set_own

    def set_level(which: Spot, level: int) -> None:
        on_change({**levels, which: level})

    def remove(which: Spot) -> None:
        ask(None)
        on_change({other: level for other, level in levels.items() if other != which})

    spot = asked if on_ask is not None else own
    asking = Asking(levels, spot, ask, set_level, remove, ends, labels, was or {})
    views = options((BodyShownAs.LIST, words_of.AS_LIST), (BodyShownAs.BEHIND, words_of.BEHIND),
                    (BodyShownAs.FRONT, words_of.IN_FRONT))
    drawn = body_list(c, asking) if shown is BodyShownAs.LIST else picture_list(c, asking, shown)
    return c.stack([c.one_of(views, shown, show), drawn], t.GAP)


def body_list(c: Choices, asking: Asking) -> ft.Control:
    """Every region with its sides in boxes at the left and the right; the question follows under what was pressed."""
    middle = [r for r in BODY_REGIONS if r not in PAIRED_REGIONS]
    pieces: list[ft.Control] = [_row(c, asking, (Spot(middle[0]), asking.labels[middle[0]]),
                                     (Spot(middle[1]), asking.labels[middle[1]]))]
    pieces += question(c, asking) if asking.spot and asking.spot.region in middle else []
    for region in (r for r in BODY_REGIONS if r in PAIRED_REGIONS):
        left, right = ((Spot(region, side), words_of.SIDES[side]) for side in ("left", "right"))
        pieces.append(_row(c, asking, left, right, asking.labels[region]))
        pieces += question(c, asking) if asking.spot and asking.spot.region is region else []
    wide = min(c.width - 2 * c.margin, WIDEST * max(1.0, c.scale))
    return ft.Row([ft.Container(c.stack(pieces, 6), width=wide)])


def picture_list(c: Choices, asking: Asking, shown: BodyShownAs) -> ft.Control:
    """A figure with every part named beside it, and above it the question about the part that was pressed."""
    in_front = shown is BodyShownAs.FRONT
    seen = words_of.SEEN[words_of.IN_FRONT if in_front else words_of.BEHIND]
    pieces = [c.soft(seen), *question(c, asking), body_picture(c, asking.face, asking.spoken, asking.is_on, asking.spot,
                                                               asking.on_ask, asking.labels, in_front=in_front)]
    return c.stack(pieces, t.GAP)


def question(c: Choices, asking: Asking) -> list[ft.Control]:
    """How much, about the part that was pressed; a slip can be taken back."""
    spot = asking.spot
    if spot is None:
        return []
    name = words_of.spot(spot, asking.labels)

    def tell(level: int) -> Any:
        return asking.on_level(spot, level)

    scale = c.scale_0_10(name, asking.levels.get(spot), tell, asking.ends)
    out = [] if asking.was.get(spot) else [
        c.link(words_of.LEAVE_OUT, bind(asking.on_remove, spot), name=words_of.leave_out(name))]
    inner = c.aside(c.stack([c.subhead(words_of.how_much(name), level=2), scale, *out], 8))
    return [ft.Container(inner, key=ft.ScrollKey(ASKED))]  # type: ignore[call-arg]


def _row(c: Choices, asking: Asking, left: tuple[Spot, str], right: tuple[Spot, str], between: str = "") -> ft.Control:
    cells: list[ft.Control] = [_cell(c, asking, spot, face, expand=3 if between else 1) for spot, face in (left, right)]
    if not between:
        return ft.Row(cells, spacing=t.GAP_S)
    name = c.text(between, t.T_BODY, t.SEMI, height=1.1, text_align=ft.TextAlign.CENTER)
    if c.scale > t.LARGE_PRINT:
        name.text_align = ft.TextAlign.LEFT
        return c.stack([name, ft.Row(cells, spacing=t.GAP_S)], 2)
    return ft.Row([cells[0], ft.Container(name, expand=3), cells[1]], spacing=t.GAP_S)


def _cell(c: Choices, asking: Asking, spot: Spot, face: str, **more: Any) -> ft.Control:
    then = None if asking.spot == spot and spot in asking.levels else spot
    return c.choice(asking.face(spot, face), asking.spoken(spot), asking.is_on(spot), bind(asking.on_ask, then), **more)
