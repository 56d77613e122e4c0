"""A moving figure on the card, its stills, and what is made of them once and kept: colours, side and tempo."""
from __future__ import annotations

from enum import Enum
from functools import lru_cache

import flet as ft
import flet_lottie as fl

from app.domain.branding.palette import Palette
from app.domain.figure.drawing.picture import Picture, at_tempo, turned_round, turned_round_svg
from app.ui.parts.figure_ink import figure_ink
from app.ui.parts.raster import raster

GAP = 8
LEAST_STILL = 86
"""Two stills smaller than this, px, would tell nothing: there the turn stands alone."""


class Play(Enum):
    """Whether a figure moves."""

    RUNS = "runs"
    STANDS = "stands"
    """Holds the frame that it is in."""


class Facing(Enum):
    """As drawn, or with left and right changed."""

    AS_DRAWN = "as_drawn"
    TURNED = "turned"


@lru_cache(maxsize=64)
def animation(picture: Picture, palette: Palette, facing: Facing, rep_ms: int) -> bytes:
    """The animation as it is sent to the client. The same object for the same arguments, so it is sent once."""
    text = turned_round(picture.lottie) if facing is Facing.TURNED else picture.lottie
    return figure_ink(palette).on_lottie(at_tempo(picture, text, rep_ms)).encode()


@lru_cache(maxsize=256)
def stills(picture: Picture, palette: Palette, facing: Facing) -> tuple[str, str]:
    """Start and turn as they are sent to the client."""
    drawn = (picture.start, picture.turn)
    if facing is Facing.TURNED:
        drawn = (turned_round_svg(drawn[0]), turned_round_svg(drawn[1]))
    ink = figure_ink(palette)
    return ink.on_svg(drawn[0]), ink.on_svg(drawn[1])


def still(picture: Picture, palette: Palette, facing: Facing, size: float, label: str) -> ft.Control:
    """The turn, which tells best what it is."""
    return _named(_image(stills(picture, palette, facing)[1], size), size, size, label)


def stills_in(picture: Picture, palette: Palette, facing: Facing, width: float, height: float, label: str
              ) -> ft.Control:
    """Start and turn, beside or above one another, whichever is larger in that room; in a small one the turn alone."""
    beside, above = min((width - GAP) / 2, height), min(width, (height - GAP) / 2)
    size = max(beside, above)
    if size < LEAST_STILL:
        return still(picture, palette, facing, min(width, height), label)
    images: list[ft.Control] = [_image(one, size) for one in stills(picture, palette, facing)]
    if above > beside:
        return _named(ft.Column(images, spacing=GAP, tight=True), size, 2 * size + GAP, label)
    return _named(ft.Row(images, spacing=GAP, tight=True), 2 * size + GAP, size, label)


def photo(data: bytes, size: float, label: str) -> ft.Control:
    """A picture of the coach's own."""
    drawn = raster(data, width=size, height=size, fit=ft.BoxFit.CONTAIN)
    return _named(drawn, size, size, label)


def moving(
    picture: Picture, palette: Palette, facing: Facing, size: float, label: str, *, rep_ms: int, play: Play, key: str,
) -> ft.Control:
    """The animation. Another `key` begins it anew: a client keeps the progress of a player that it knows."""
    player = fl.Lottie(
        src=animation(picture, palette, facing, rep_ms), width=size, height=size, fit=ft.BoxFit.CONTAIN,
        animate=play is Play.RUNS,
    )
    return ft.Container(_named(player, size, size, label), key=f"{picture.id} {facing.value} {key}")


def _image(svg: str, size: float) -> ft.Control:
    return ft.Image(src=svg, width=size, height=size, fit=ft.BoxFit.CONTAIN, exclude_from_semantics=True)


def _named(drawn: ft.Control, width: float, height: float, label: str) -> ft.Control:
    box = ft.Container(drawn, width=width, height=height, alignment=ft.Alignment.CENTER)
    return ft.Container(ft.Semantics(content=box, label=label, image=True), width=width, height=height)
