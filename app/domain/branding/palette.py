"""One set of inks, and the contrasts that it has to keep. Knows no screen."""
from __future__ import annotations

from dataclasses import dataclass


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


@dataclass(frozen=True)
class InkPair:
    """Two inks that meet on a screen, by their names in a palette, and the ratio that they keep."""

    words: str
    ground: str
    least: float


@dataclass(frozen=True)
class Failing:
    """A pair that keeps too little apart, with its colours and the ratio that it has."""

    pair: InkPair
    words: str
    ground: str
    ratio: float


MOVING, STILL, SHAPE = 7.0, 4.5, 3.0
"""Least ratios: read while moving (AAA), read at rest (AA), told apart as a shape. Source: WCAG 2.2."""

PAIRS = (
    InkPair("ink", "paper", MOVING), InkPair("ink", "sheet", MOVING), InkPair("soft", "paper", MOVING),
    InkPair("soft", "sheet", MOVING), InkPair("on_work", "panel", MOVING), InkPair("rest", "tint", MOVING),
    InkPair("ink", "tint", MOVING),
    InkPair("work", "paper", MOVING), InkPair("work", "sheet", MOVING), InkPair("rest", "paper", MOVING),
    InkPair("rest", "sheet", MOVING), InkPair("ink", "focus", STILL), InkPair("paper", "focus_solid", STILL),
    InkPair("sheet", "focus", SHAPE), InkPair("ink", "focus_solid", SHAPE),
)
"""Every pair of inks that meets on a screen. The ratio is the same either way round."""


def luminance(colour: str) -> float:
    """Relative luminance of `#RRGGBB`, 0–1. Source: WCAG 2.2."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1–21. Source: WCAG 2.2."""
    dark, pale = sorted((luminance(one), luminance(other)))
    return (pale + 0.05) / (dark + 0.05)


def failing(palette: Palette) -> tuple[Failing, ...]:
    """Every pair of the palette that has too little contrast, in the order of `PAIRS`; empty if all can be read."""
    found = []
    for pair in PAIRS:
        words, ground = getattr(palette, pair.words), getattr(palette, pair.ground)
        ratio = contrast(words, ground)
        if ratio < pair.least:
            found.append(Failing(pair, words, ground, ratio))
    return tuple(found)
