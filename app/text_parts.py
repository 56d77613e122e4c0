"""Words that belong to a part itself: yes and no, the ends of a scale, what a drawing says aloud."""
from __future__ import annotations

from collections.abc import Sequence

YES = "Yes"
NO = "No"


def answer(about: str, word: str) -> str:
    """The spoken name of an answer: "Knee pain: Yes"."""
    return f"{about}: {word}" if about else word


def of(about: str, number: int, top: int) -> str:
    """The spoken name of a number: "Right knee 6 of 10"."""
    return f"{about} {number} of {top}".strip()


def scale_end(number: int, word: str) -> str:
    """What a number means: "0 none"."""
    return f"{number} {word}"


def from_to(low: str, high: str) -> str:
    """Both ends of a short scale: "badly to well"."""
    return f"{low} to {high}"


def joined(said: Sequence[str]) -> str:
    """Short pieces in one line."""
    return "; ".join(said)
