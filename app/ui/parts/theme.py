"""Every colour, size and rule width of the printed card, and the contrasts that follow from them."""
from __future__ import annotations

from typing import Any

import flet as ft

from app.domain.branding.brand import EVENLOAD_DARK, EVENLOAD_LIGHT
from app.domain.branding.palette import Palette as Palette
from app.domain.branding.palette import contrast as contrast
from app.domain.branding.palette import luminance as luminance

FAMILY = "Card"
"""Atkinson Hyperlegible Next with figures of one width; Roboto stands in for what it lacks."""
FALLBACK = ["Roboto"]

REGULAR, SEMI, EXTRA = ft.FontWeight.W_400, ft.FontWeight.W_600, ft.FontWeight.W_800

# type, px
T_COUNT, T_COUNT_WIDE = 184, 230
T_TITLE, T_BIG, T_HEAD, T_LEAD, T_BODY, T_LEGEND, T_CAPTION, T_TICK = 38, 34, 26, 22, 19, 17, 16, 14

LARGE_PRINT = 1.3
"""Above this text scale, pieces that stand side by side go under one another."""
LETTER = 0.62
"""Width of an average heavy letter, as a share of the size: for asking whether a word fits."""

# rules, px: section; box and button edge; row
RULE_THICK, RULE, HAIR = 6, 3, 1.5
CHOSEN_EDGE, CHOSEN_TICK = 9, 16
"""Of what is chosen: its edge at the left, and the tick in its corner, px."""

# spacing and least heights of what is touched, px
GAP_S, GAP, GAP_L = 8, 16, 24
MARGIN, MARGIN_WIDE = 20, 32
TARGET, TARGET_DESK, TARGET_PLAYER, TARGET_START, TARGET_PAUSE = 56, 48, 76, 84, 88

WIDE = 900
"""From this width on, px, the navigation stands at the side."""
LOW = 520
"""Below this height, px, nothing is held fixed: the foot scrolls along."""
SIDE = 220
"""Width of the side navigation, px."""
MEASURE = 760
"""Widest column of words, px."""
LEAST_MAIN, LEAST_BESIDE, MOST_BESIDE, BETWEEN = 560, 330, 520, 40
"""Two columns of a wide page: the least that the first one takes, what the one beside it takes, and between, px."""


LIGHT, DARK = EVENLOAD_LIGHT, EVENLOAD_DARK
"""The program's own inks; a page wears those of its brand."""


def ink_style(
    palette: Palette, size: float = T_BODY, weight: ft.FontWeight = REGULAR, colour: str = "", height: float = 1.25
) -> ft.TextStyle:
    """A text style with everything set that would otherwise be inherited by surprise."""
    return ft.TextStyle(
        size=size, weight=weight, color=colour or palette.ink, font_family=FAMILY,
        font_family_fallback=FALLBACK, height=height, letter_spacing=0,
    )


def flet_theme(palette: Palette) -> dict[str, Any]:
    """The theme of a palette, for page.theme and page.dark_theme: what Flet makes of its `Theme` for the client.

    Python in a browser takes a quarter of a second for defining the classes of Flet's themes, at each start.
    """
    return {
        "color_scheme": _scheme(palette),
        "font_family": FAMILY,
        "text_theme": _text_theme(palette),
        "scaffold_bgcolor": palette.paper,
        "focus_color": palette.focus,
        # of eight digits Flet reads the first two as the alpha
        "hover_color": f"#14{palette.ink[1:]}",
        "splash_color": f"#26{palette.ink[1:]}",
        "highlight_color": f"#1A{palette.ink[1:]}",
        "page_transitions": dict.fromkeys(("android", "ios", "linux", "macos", "windows"), "none"),
    }


def _scheme(p: Palette) -> dict[str, str]:
    return {
        "primary": p.ink, "on_primary": p.paper, "surface": p.paper, "on_surface": p.ink, "on_surface_variant": p.soft,
        "surface_container": p.sheet, "surface_container_high": p.sheet, "surface_container_low": p.sheet,
        "outline": p.ink, "outline_variant": p.line, "secondary": p.work, "on_secondary": p.paper,
        "tertiary": p.rest, "on_tertiary": p.paper, "error": p.ink, "on_error": p.paper,
        "inverse_surface": p.ink, "on_inverse_surface": p.paper, "surface_tint": p.paper,
    }


def _text_theme(p: Palette) -> dict[str, ft.TextStyle]:
    body, label, title = ink_style(p), ink_style(p, T_BODY, SEMI), ink_style(p, T_LEAD, EXTRA)
    return {
        "body_large": body, "body_medium": body, "body_small": ink_style(p, T_CAPTION),
        "label_large": label, "label_medium": label, "label_small": ink_style(p, T_CAPTION, SEMI),
        "title_large": title, "title_medium": title, "title_small": label,
        "headline_small": ink_style(p, T_HEAD, EXTRA), "headline_medium": ink_style(p, T_TITLE, EXTRA),
    }
