"""A plain figure seen from behind, with a button on every region: left is left, as for the person themselves."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import flet as ft
import flet.canvas as cv

from app.domain.model.body import PAIRED_REGIONS, Region, Spot
from app.ui.parts import strokes
from app.ui.parts import theme as t
from app.ui.parts.buttons import bind
from app.ui.parts.choices import Choices
from app.words import parts as words_of

WIDTH, HEIGHT = 320.0, 570.0
BUTTON = 52.0

#: Where each region lies, as shares of width and height; for paired ones on the left.
PLACES: Mapping[Region, tuple[float, float]] = {
    Region.NECK: (0.5, 0.14), Region.SHOULDER: (0.29, 0.2), Region.ELBOW: (0.165, 0.355), Region.WRIST: (0.1, 0.5),
    Region.HAND: (0.09, 0.6), Region.RIBS: (0.335, 0.3), Region.BACK: (0.5, 0.36), Region.HIP: (0.4, 0.475),
    Region.THIGH: (0.385, 0.57), Region.KNEE: (0.37, 0.665), Region.CALF: (0.36, 0.76), Region.ANKLE: (0.35, 0.855),
    Region.FOOT: (0.33, 0.95),
}


def place_of(spot: Spot) -> tuple[float, float]:
    """Middle of a spot, px."""
    x, y = PLACES[spot.region]
    return (1 - x if spot.side == "right" else x) * WIDTH, y * HEIGHT


def all_spots() -> tuple[Spot, ...]:
    """Every spot on the picture, from the head down."""
    order = sorted(PLACES, key=lambda region: PLACES[region][1])
    return tuple(
        Spot(region, side) for region in order for side in (("left", "right") if region in PAIRED_REGIONS else ("",))
    )


def body_picture(
    c: Choices, levels: Mapping[Spot, int], chosen: Spot | None, on_ask: Callable[[Spot | None], Any],
    labels: Mapping[Region, str] = words_of.REGIONS,
) -> ft.Control:
    """The figure; a spot with a level shows it. Buttons are named "Left knee", or "Left knee: 6"."""
    buttons = [_button(c, words_of.spot(spot, labels), spot, levels.get(spot), spot == chosen, on_ask)
               for spot in all_spots()]
    figure = ft.Semantics(content=cv.Canvas(_figure(c.p), width=WIDTH, height=HEIGHT), exclude_semantics=True)
    return ft.Row([ft.Stack([figure, *buttons], width=WIDTH, height=HEIGHT)], alignment=ft.MainAxisAlignment.CENTER)


def _button(
    c: Choices, name: str, spot: Spot, level: int | None, chosen: bool, on_ask: Callable[[Spot | None], Any]
) -> ft.Control:
    x, y = place_of(spot)
    spoken = name if level is None else words_of.level_of(name, level, ":")
    on = chosen or level is not None
    size = min(t.T_LEAD, 30 / c.scale)
    word = c.text(
        "?" if level is None and chosen else words_of.level_face(level), size, t.EXTRA,
        c.p.paper if on else c.p.ink, 1.0, semantics_label=spoken, text_align=ft.TextAlign.CENTER, no_wrap=True,
    )
    box = c.press(
        word, bind(on_ask, None if chosen else spot), c.p.ink if on else c.p.sheet, c.border(), ft.Padding.all(0),
        ft.Alignment.CENTER, width=BUTTON, height=BUTTON,
    )
    merged = ft.MergeSemantics(ft.Semantics(content=box, selected=on))
    left = min(max(x - BUTTON / 2, 0), WIDTH - BUTTON)
    return ft.Container(merged, left=left, top=min(y - BUTTON / 2, HEIGHT - BUTTON))


def _figure(p: t.Palette) -> list[cv.Shape]:
    at = {spot: place_of(spot) for spot in all_spots()}
    neck = at[Spot(Region.NECK)]
    shapes: list[cv.Shape] = [cv.Circle(neck[0], HEIGHT * 0.055, HEIGHT * 0.05, paint=strokes.fill(p.line))]
    chains = [(Region.SHOULDER, Region.ELBOW, Region.WRIST), (Region.HIP, Region.KNEE, Region.ANKLE)]
    for side in ("left", "right"):
        for chain, width in zip(chains, (30, 44), strict=True):
            shapes += strokes.polyline([at[Spot(region, side)] for region in chain], _limb(p, width))
    corners = [at[Spot(r, s)] for r, s in (
        (Region.SHOULDER, "left"), (Region.SHOULDER, "right"), (Region.HIP, "right"), (Region.HIP, "left"))]
    shapes.append(strokes.polygon(corners, strokes.fill(p.line)))
    shapes.append(strokes.polygon(corners, _limb(p, 34)))
    return shapes + strokes.lines([((neck[0], HEIGHT * 0.085), (neck[0], HEIGHT * 0.18))], _limb(p, 34))


def _limb(p: t.Palette, width: float) -> ft.Paint:
    paint = strokes.stroke(p.line, width)
    paint.stroke_cap, paint.stroke_join = ft.StrokeCap.ROUND, ft.StrokeJoin.ROUND
    return paint
