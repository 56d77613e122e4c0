"""Figures on the card: sent once, turned for the left side alone, told apart from the ground in both themes."""
from __future__ import annotations

from dataclasses import replace

import flet as ft
import pytest

from app.domain.figure.drawing.colours import ROLES, colour_of
from app.domain.figure.drawing.dressed import dressed
from app.domain.model.exercise import Sides
from app.domain.model.figure_body import FigureBody
from app.domain.model.plan import StepSide
from app.ui.parts import theme as t
from app.ui.parts.figure import Facing, animation, stills, stills_in
from app.ui.parts.figure_ink import figure_ink
from app.ui.shell.moving_figures import facing
from app.words.moving_figures import figure_label
from tests.domain.shipped import library
from tests.ui.gallery_figures import picture

BOTH = [pytest.param(p, id=p.name) for p in (t.LIGHT, t.DARK)]
SHAPE, TOLD_APART, PALER = 3.0, 1.4, 1.5
RISE = library()["sit-to-stand"]


@pytest.mark.parametrize("palette", BOTH)
def test_a_figure_stands_out_from_its_ground(palette: t.Palette) -> None:
    """Clothes, arrows and weights as shapes; near from far; what lights up from what it lies on."""
    ink = figure_ink(palette)
    on = {role: colour_of(role, ink.colours, ink.far_share) for role in ROLES}
    far = {role: colour_of(f"far:{role}", ink.colours, ink.far_share) for role in ROLES}
    for role in ("top", "pants", "arrow", "metal", "band"):
        assert t.contrast(on[role], palette.paper) >= SHAPE, role
    for role in ("top", "pants"):
        assert t.contrast(on[role], far[role]) >= TOLD_APART, role
        assert t.contrast(far[role], palette.paper) >= PALER, role
        assert t.contrast(on["patch"], on[role]) >= TOLD_APART, role
    assert set(ROLES) <= set(ink.colours)


@pytest.mark.parametrize("palette", BOTH)
def test_the_same_picture_is_the_same_object(palette: t.Palette) -> None:
    """So that a page drawn anew sends nothing; another side, theme or tempo is another one."""
    whole = picture("squat")
    one = animation(whole, palette, Facing.AS_DRAWN, 4000)
    assert animation(whole, palette, Facing.AS_DRAWN, 4000) is one
    assert stills(whole, palette, Facing.AS_DRAWN) is stills(whole, palette, Facing.AS_DRAWN)
    assert len({one, animation(whole, palette, Facing.TURNED, 4000), animation(whole, palette, Facing.AS_DRAWN, 5000),
                *(animation(whole, other, Facing.AS_DRAWN, 4000) for other in (t.LIGHT, t.DARK))}) == 4


@pytest.mark.parametrize("palette", BOTH)
def test_hair_face_and_skin_of_every_body_are_told_apart(palette: t.Palette) -> None:
    """What is drawn on a face from its skin, and another body's hair from its skin."""
    ink = figure_ink(palette).colours
    for skin, face, hair in (("skin", "face", "hair"), ("deepskin", "paleface", "whitehair"),
                             ("lightskin", "face", "darkhair")):
        assert t.contrast(ink[skin], ink[face]) >= SHAPE
        assert skin == "skin" or t.contrast(ink[skin], ink[hair]) >= TOLD_APART


@pytest.mark.parametrize("body", [FigureBody.BEARD, FigureBody.BROAD])
@pytest.mark.parametrize("name", ["squat", "calf-raise"])
def test_a_body_is_shown_in_every_theme(name: str, body: FigureBody) -> None:
    """Its colours are put in: no role stays open."""
    shown = dressed(picture(name), body)
    for palette in (t.LIGHT, t.DARK):
        moving = animation(shown, palette, Facing.TURNED, 4000).decode()
        assert "@" not in moving and moving != animation(picture(name), palette, Facing.TURNED, 4000).decode()
        assert not any("@" in still for still in stills(shown, palette, Facing.AS_DRAWN))


@pytest.mark.parametrize(("sides", "side", "name", "meant"), [
    (Sides.EACH, StepSide.LEFT, "squat", Facing.TURNED),
    (Sides.EACH, StepSide.RIGHT, "squat", Facing.AS_DRAWN),
    (Sides.EACH, None, "squat", Facing.AS_DRAWN),
    (Sides.BOTH, StepSide.LEFT, "squat", Facing.AS_DRAWN),
    (Sides.EACH, StepSide.LEFT, "lunge", Facing.AS_DRAWN),
])
def test_it_is_turned_round_for_the_left_side_alone(
    sides: Sides, side: StepSide | None, name: str, meant: Facing,
) -> None:
    """Of one-sided work; not where one round shows both sides by itself."""
    assert facing(picture(name), replace(RISE, sides=sides), side) is meant


def test_a_screen_reader_hears_what_it_is_and_what_works() -> None:
    """In plain words."""
    said = figure_label("Stand up", picture("squat"))
    assert said == "Figure: Stand up. Works: front of the thighs, buttocks."


@pytest.mark.parametrize(("width", "height", "meant"), [
    (372, 228, (372, 182)), (282, 230, (282, 137)), (298, 448, (220, 448)), (96, 96, (96, 96)), (400, 200, (400, 196)),
])
def test_two_stills_are_as_large_as_their_room_allows(width: float, height: float, meant: tuple[float, float]) -> None:
    """Beside or above one another, whichever is larger; where both would tell nothing, the turn alone."""
    drawn = stills_in(picture("squat"), t.LIGHT, Facing.AS_DRAWN, width, height, "Squat")
    assert isinstance(drawn, ft.Container)
    assert (drawn.width, drawn.height) == meant
    assert meant[0] <= width and meant[1] <= height
