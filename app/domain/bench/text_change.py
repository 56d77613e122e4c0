"""What differs between two states of one text: one stretch that went and one that came."""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class TextChange:
    """From character `at` on, `gone` was there before and `came` afterwards."""

    at: int
    gone: str
    came: str


def change_between(before: str, after: str) -> TextChange:
    """The least stretch that makes one into the other."""
    at = _alike(before, after)
    end = _alike(before[at:][::-1], after[at:][::-1])
    return TextChange(at, before[at:len(before) - end], after[at:len(after) - end])


def changed(text: str, change: TextChange) -> str:
    """The text afterwards.

    Raises:
        ValueError: the change belongs to another text.
    """
    end = change.at + len(change.gone)
    if text[change.at:end] != change.gone:
        raise ValueError("a change of another text")
    return text[:change.at] + change.came + text[end:]


def _alike(one: str, other: str) -> int:
    """How many characters both begin with. Halved at each look, so that a long text costs little."""
    low, high = 0, min(len(one), len(other))
    while low < high:
        middle = (low + high + 1) // 2
        if one[:middle] == other[:middle]:
            low = middle
        else:
            high = middle - 1
    return low
