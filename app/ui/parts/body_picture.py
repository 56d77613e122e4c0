"""A plain figure seen from behind or in front, with every part named in whole beside it and a line to where it is.

From behind the left is left, as for the person themselves; in front it is as when facing somebody.
"""
from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import flet as ft
import flet.canvas as cv

from app.domain.model.body import PAIRED_REGIONS, Region, Spot
from app.ui.parts import strokes
from app.ui.parts import theme as t
from app.ui.parts.buttons import bind, room
from app.ui.parts.choices import Choices
from app.words import parts as words_of

FIGURE = 150.0
"""Width of the figure, px."""
ROW, GAP = 52.0, 6.0
"""Height of a name's box at the usual size of letters, and what lies between two, px."""
WIDEST = 520.0

#: Where each region lies on the figure, as shares of its width and height; for paired ones at the left.
PLACES: Mapping[Region, tuple[float, float]] = {
    Region.NECK: (0.5, 0.14), Region.SHOULDER: (0.27, 0.2), Region.ELBOW: (0.14, 0.355), Region.WRIST: (0.07, 0.5),
    Region.HAND: (0.06, 0.56), Region.RIBS: (0.36, 0.3), Region.BACK: (0.5, 0.36), Region.HIP: (0.38, 0.475),
    Region.THIGH: (0.365, 0.57), Region.KNEE: (0.35, 0.665), Region.CALF: (0.34, 0.76), Region.ANKLE: (0.33, 0.855),
    Region.FOOT: (0.3, 0.93),
}
#: The paired regions from the head down: the order of the names beside the figure.
DOWN: tuple[Region, ...] = tuple(sorted(PAIRED_REGIONS, key=lambda region: (PLACES[region][1], PLACES[region][0])))


def figure_height(row: float = ROW) -> float:
    """Height of the figure and of the names beside it, px."""
    return len(DOWN) * (row + GAP) - GAP


def place_of(spot: Spot, *, in_front: bool = False, row: float = ROW) -> tuple[float, float]:
    """Where a spot lies on the figure, px: from behind the left is left, in front it is right."""
    x, y = PLACES[spot.region]
    is_mirrored = (spot.side == "right") is not in_front and bool(spot.side)
    return (1 - x if is_mirrored else x) * FIGURE, y * figure_height(row)


def body_picture(
    c: Choices, face: Callable[[Spot, str], str], spoken: Callable[[Spot], str], is_on: Callable[[Spot], bool],
    chosen: Spot | None, on_ask: Callable[[Spot | None], Any], labels: Mapping[Region, str] = words_of.REGIONS, *,
    in_front: bool = False,
) -> ft.Control:
    """The figure between two columns of names, and under it the neck and the back.

    Buttons are named by `spoken`, "Left knee", or "Left knee: 6"; `face` words what stands on them.
    """
    wide = min(c.width - 2 * c.margin, WIDEST * max(1.0, c.scale))
    row = ROW * max(1.0, c.scale * 0.9) * (1.2 if c.scale > 1 else 1)

    def name(spot: Spot, **more: Any) -> ft.Control:
        on = is_on(spot)
        said = face(spot, words_of.spot(spot, labels))
        words = c.text(said, t.T_CAPTION, t.EXTRA, height=1.05, semantics_label=spoken(spot),
                       text_align=ft.TextAlign.CENTER)
        box = c.choosable(words, bind(on_ask, None if spot == chosen else spot), on,
                          ft.Padding.all(2) if "height" in more else room(t.TARGET - 6, t.T_CAPTION * 1.05, 2),
                          tick=False, alignment=ft.Alignment.CENTER, **more)
        return ft.MergeSemantics(ft.Semantics(content=box, selected=on), expand="height" not in more)

    sides = ("right", "left") if in_front else ("left", "right")
    across = (wide - FIGURE) / 2
    columns = [ft.Column([name(Spot(region, side), height=row) for region in DOWN], spacing=GAP, width=across,
                         horizontal_alignment=ft.CrossAxisAlignment.STRETCH) for side in sides]
    drawn = cv.Canvas(_figure(c.p, row, in_front=in_front), width=FIGURE, height=figure_height(row))
    figure = ft.Semantics(content=drawn, exclude_semantics=True)
    middle: list[ft.Control] = [name(Spot(region)) for region in (Region.NECK, Region.BACK)]
    body = ft.Row([columns[0], figure, columns[1]], spacing=0, vertical_alignment=ft.CrossAxisAlignment.START)
    return ft.Row([ft.Container(c.stack([ft.Row(middle, spacing=t.GAP_S), body], t.GAP_S), width=wide)])


def _figure(p: t.Palette, row: float, *, in_front: bool) -> list[cv.Shape]:
    high = figure_height(row)

    def at(region: Region, side: str = "") -> tuple[float, float]:
        return place_of(Spot(region, side), in_front=in_front, row=row)

    neck = at(Region.NECK)
    shapes: list[cv.Shape] = [cv.Circle(neck[0], high * 0.065, high * 0.055, paint=strokes.fill(p.line))]
    arm, leg = (Region.SHOULDER, Region.ELBOW, Region.WRIST, Region.HAND), (Region.HIP, Region.KNEE, Region.ANKLE)
    for side in ("left", "right"):
        shapes += strokes.polyline([at(region, side) for region in arm], _limb(p, 16))
        shapes += strokes.polyline([*(at(region, side) for region in leg), at(Region.FOOT, side)], _limb(p, 24))
    corners = [at(r, s) for r, s in ((Region.SHOULDER, "left"), (Region.SHOULDER, "right"), (Region.HIP, "right"),
                                     (Region.HIP, "left"))]
    shapes += [strokes.polygon(corners, strokes.fill(p.line)), strokes.polygon(corners, _limb(p, 20))]
    shapes += strokes.lines([((neck[0], high * 0.1), (neck[0], high * 0.2))], _limb(p, 20))
    return shapes + strokes.lines(_leaders(row, in_front=in_front), strokes.stroke(p.ink, t.HAIR))


def _leaders(row: float, *, in_front: bool) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """From each name to its part."""
    found = []
    for number, region in enumerate(DOWN):
        for side in ("left", "right"):
            x, y = place_of(Spot(region, side), in_front=in_front, row=row)
            found.append(((0.0 if x < FIGURE / 2 else FIGURE, number * (row + GAP) + row / 2), (x, y)))
    return found


def _limb(p: t.Palette, width: float) -> ft.Paint:
    paint = strokes.stroke(p.line, width)
    paint.stroke_cap, paint.stroke_join = ft.StrokeCap.ROUND, ft.StrokeJoin.ROUND
    return paint
