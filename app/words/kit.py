"""The words of everything that may be at hand. The ids: `app/domain/model/kit.py`. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class KitWords(NamedTuple):
    """What one thing is called: to be ticked, and in "… needed"."""

    ticked: str
    needed: str


KIT_WORDS: Mapping[str, KitWords] = {
    "chair": KitWords("A firm chair", "a chair"),
    "worktop": KitWords("A kitchen worktop", "a worktop"),
    "mat": KitWords("A mat or carpet to lie on", "a mat"),
    "dumbbell": KitWords("Dumbbells", "dumbbells"),
    "step": KitWords("A low step", "a step"),
    "band": KitWords("An exercise band", "a band"),
    "door_anchor": KitWords("A door anchor for the band", "a door anchor"),
    "towel": KitWords("A towel", "a towel"),
}
