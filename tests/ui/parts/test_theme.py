"""The contrasts that the look promises hold for both palettes."""
from __future__ import annotations

import dataclasses

import flet as ft
import msgpack
import pytest
from flet.controls.base_control import BaseControl
from flet.messaging.protocol import configure_encode_object_for_msgpack

from app.ui.parts import theme as t

AAA, AA, SHAPE = 7.0, 4.5, 3.0
#: (words, ground, least ratio); what is read while moving is AAA.
PAIRS = [
    ("ink", "paper", AAA), ("ink", "sheet", AAA), ("soft", "paper", AAA), ("soft", "sheet", AAA),
    ("on_work", "panel", AAA), ("rest", "tint", AAA), ("work", "paper", AAA), ("rest", "paper", AAA),
    ("paper", "ink", AAA), ("work", "sheet", AAA), ("rest", "sheet", AAA),
    ("ink", "focus", AA), ("paper", "focus_solid", AA), ("sheet", "focus", SHAPE), ("ink", "focus_solid", SHAPE),
]
BOTH = [pytest.param(p, id=p.name) for p in (t.LIGHT, t.DARK)]


@pytest.mark.parametrize("palette", BOTH)
@pytest.mark.parametrize(("words", "ground", "least"), PAIRS)
def test_every_pair_can_be_read(palette: t.Palette, words: str, ground: str, least: float) -> None:
    """Each pair of inks that meets on a screen keeps its ratio."""
    assert t.contrast(getattr(palette, words), getattr(palette, ground)) >= least


def test_contrast_is_that_of_the_standard() -> None:
    """Black on white is 21, equal colours 1, the order does not matter, and a known grey has its known ratio."""
    assert t.contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert t.contrast("#47288A", "#47288A") == pytest.approx(1)
    assert t.contrast("#FFFFFF", "#767676") == t.contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("palette", BOTH)
def test_the_theme_sets_colour_size_and_family_everywhere(palette: t.Palette) -> None:
    """No style of the theme is left to inherit black, a shrunken size or another face."""
    styles = [dataclasses.asdict(style) for style in t.flet_theme(palette)["text_theme"].values()]
    assert len(styles) >= 10
    assert all(s["color"] == palette.ink and s["font_family"] == t.FAMILY and s["size"] and s["height"] for s in styles)


@pytest.mark.parametrize("palette", BOTH)
def test_the_theme_is_what_flet_makes_of_its_own(palette: t.Palette) -> None:
    """Every name and value that the client is sent, as by Flet's classes, which are not loaded for it."""
    ours = t.flet_theme(palette)
    still = {name: ft.PageTransitionTheme(value) for name, value in ours["page_transitions"].items()}
    its = ft.Theme(**ours | {
        "color_scheme": ft.ColorScheme(**ours["color_scheme"]), "text_theme": ft.TextTheme(**ours["text_theme"]),
        "page_transitions": ft.PageTransitionsTheme(**still)})
    assert sent(ours) == sent(its)


def sent(what: object) -> object:
    """As the client reads it."""
    return msgpack.unpackb(msgpack.packb(what, default=configure_encode_object_for_msgpack(BaseControl)))
