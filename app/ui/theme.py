"""Every colour, size and rule width of the printed card, and the contrasts that follow from them."""
from __future__ import annotations

from dataclasses import dataclass

import flet as ft

FAMILY = "Card"
"""Atkinson Hyperlegible Next with figures of one width; Roboto stands in for what it lacks."""
FALLBACK = ["Roboto"]

REGULAR, SEMI, EXTRA = ft.FontWeight.W_400, ft.FontWeight.W_600, ft.FontWeight.W_800

# type, px
T_COUNT, T_COUNT_WIDE = 184, 230
T_TITLE, T_BIG, T_HEAD, T_LEAD, T_BODY, T_CAPTION, T_TICK = 38, 34, 26, 22, 19, 16, 14

LARGE_PRINT = 1.3
"""Above this text scale, pieces that stand side by side go under one another."""
LETTER = 0.62
"""Width of an average heavy letter, as a share of the size: for asking whether a word fits."""

# rules, px: section; box and button edge; row
RULE_THICK, RULE, HAIR = 6, 3, 1.5

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


@dataclass(frozen=True)
class Palette:
    """One set of inks. Every colour is `#RRGGBB`."""

    name: str
    paper: str
    """The card."""
    sheet: str
    """A field or row that lies on the card."""
    ink: str
    """Words, rules, what is done."""
    soft: str
    """Words of second rank; nothing is paler."""
    line: str
    """Hairlines only, never words."""
    work: str
    """Work on the strip."""
    panel: str
    """Ground of the work panel."""
    on_work: str
    """Words on that ground."""
    rest: str
    """Rest, always with hatching or the word."""
    tint: str
    """Ground of the rest panel."""
    focus: str
    """Ground of a box that the keyboard is on."""
    focus_solid: str
    """The same for a solid block."""


FOCUS_ON_PALE, FOCUS_ON_DARK = "#B07D2B", "#7555C6"

LIGHT = Palette(
    "light", paper="#F4EDDD", sheet="#FBF7EC", ink="#1F1A14", soft="#4D4437", line="#B5A88F",
    work="#47288A", panel="#47288A", on_work="#FFFBF2", rest="#5C3D00", tint="#F0DFB4",
    focus=FOCUS_ON_PALE, focus_solid=FOCUS_ON_DARK,
)
DARK = Palette(
    "dark", paper="#18140F", sheet="#241E17", ink="#F5EBD8", soft="#CFC2AB", line="#5F5546",
    work="#C6B2FF", panel="#583AAE", on_work="#FFFBF2", rest="#F0BE58", tint="#38290C",
    focus=FOCUS_ON_DARK, focus_solid=FOCUS_ON_PALE,
)


def luminance(colour: str) -> float:
    """Relative luminance of `#RRGGBB`, 0–1. Source: WCAG 2.2."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1–21. Source: WCAG 2.2."""
    dark, pale = sorted((luminance(one), luminance(other)))
    return (pale + 0.05) / (dark + 0.05)


def ink_style(
    palette: Palette, size: float = T_BODY, weight: ft.FontWeight = REGULAR, colour: str = "", height: float = 1.25
) -> ft.TextStyle:
    """A text style with everything set that would otherwise be inherited by surprise."""
    return ft.TextStyle(
        size=size, weight=weight, color=colour or palette.ink, font_family=FAMILY,
        font_family_fallback=FALLBACK, height=height, letter_spacing=0,
    )


def flet_theme(palette: Palette) -> ft.Theme:
    """The Flet theme of a palette: for page.theme and page.dark_theme."""
    return ft.Theme(
        color_scheme=_scheme(palette),
        font_family=FAMILY,
        text_theme=_text_theme(palette),
        scaffold_bgcolor=palette.paper,
        focus_color=palette.focus,
        # of eight digits Flet reads the first two as the alpha
        hover_color=f"#14{palette.ink[1:]}",
        splash_color=f"#26{palette.ink[1:]}",
        highlight_color=f"#1A{palette.ink[1:]}",
        page_transitions=ft.PageTransitionsTheme(
            android=ft.PageTransitionTheme.NONE, ios=ft.PageTransitionTheme.NONE, linux=ft.PageTransitionTheme.NONE,
            macos=ft.PageTransitionTheme.NONE, windows=ft.PageTransitionTheme.NONE,
        ),
    )


def _scheme(p: Palette) -> ft.ColorScheme:
    return ft.ColorScheme(
        primary=p.ink, on_primary=p.paper, surface=p.paper, on_surface=p.ink, on_surface_variant=p.soft,
        surface_container=p.sheet, surface_container_high=p.sheet, surface_container_low=p.sheet,
        outline=p.ink, outline_variant=p.line, secondary=p.work, on_secondary=p.paper,
        tertiary=p.rest, on_tertiary=p.paper, error=p.ink, on_error=p.paper,
        inverse_surface=p.ink, on_inverse_surface=p.paper, surface_tint=p.paper,
    )


def _text_theme(p: Palette) -> ft.TextTheme:
    body, label, title = ink_style(p), ink_style(p, T_BODY, SEMI), ink_style(p, T_LEAD, EXTRA)
    return ft.TextTheme(
        body_large=body, body_medium=body, body_small=ink_style(p, T_CAPTION),
        label_large=label, label_medium=label, label_small=ink_style(p, T_CAPTION, SEMI),
        title_large=title, title_medium=title, title_small=label,
        headline_small=ink_style(p, T_HEAD, EXTRA), headline_medium=ink_style(p, T_TITLE, EXTRA),
    )
