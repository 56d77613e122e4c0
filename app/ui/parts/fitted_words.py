"""How large words may be so that they fit: whole words per line, no word ever cut. By arithmetic, without drawing."""
from __future__ import annotations

from dataclasses import dataclass

from app.ui.parts.letter_widths import width_in_em

HEAVY, LIGHT = 1.08, 1.02
"""The 800 cut is so much wider than `letter_widths` reckons; the 600 cut is held a little apart from its edge."""
LINE = 1.16
"""Height of a line, as a share of the size."""
HALF_PX = 0.5


@dataclass(frozen=True)
class Fitted:
    """Words as they are set: px on the screen, the text scale included."""

    size: float
    lines: int

    @property
    def height(self) -> float:
        """Of all lines."""
        return self.size * LINE * self.lines + 2


def em(words: str, *, heavy: bool = True) -> float:
    """At most the width of a line, as a share of its size."""
    return width_in_em(words) * (HEAVY if heavy else LIGHT)


def lines_of(words: str, size: float, width: float, *, heavy: bool = True) -> int:
    """Lines that the words take, broken between words and after hyphens, as the client breaks them."""
    count, at, gap = 1, 0.0, em(" ", heavy=heavy) * size
    for word in _pieces(words):
        long = em(word, heavy=heavy) * size
        if at and at + gap + long > width:
            count, at = count + 1, 0.0
        at += (gap if at else 0) + long
    return count


def fitted(words: str, width: float, largest: float, smallest: float, most: int, *, heavy: bool = True) -> Fitted:
    """The largest size at which the words take at most `most` lines and no word is wider than the room.

    Below `smallest` it goes only so that no word is cut; then more lines are taken.
    """
    cap = (width - 1) / max((em(word, heavy=heavy) for word in _pieces(words)), default=1.0)
    size, floor = min(largest, cap), min(smallest, largest, cap)
    while size > floor and lines_of(words, size, width, heavy=heavy) > most:
        size -= HALF_PX
    size = max(size, floor)
    return Fitted(size, lines_of(words, size, width, heavy=heavy))


def _pieces(words: str) -> list[str]:
    return words.replace("-", "- ").split()
