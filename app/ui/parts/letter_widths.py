"""How wide words are in the card's typeface, without drawing them: to choose a size at which they fit."""
from __future__ import annotations

#: Advance widths of the 600 cut in em, rounded up, by groups of letters.
_GROUPS = ((0.21, "'"), (0.3, "ijl ,.’"), (0.38, "frt-"), (0.42, "I"), (0.51, "csyz"), (0.53, "vx"),
           (0.56, "aejkJLFhnu"), (0.6, "obdgpqETS+"), (0.64, "PZBVYR0123456789"), (0.68, "CKAXD"), (0.72, "HUGNw"),
           (0.76, "OQ"), (0.88, "MmW"))
WIDTHS = {letter: width for width, letters in _GROUPS for letter in letters}
WIDEST = 0.88


def width_in_em(words: str) -> float:
    """At most so many times the size."""
    return sum(WIDTHS.get(letter, WIDEST) for letter in words)


def in_two_lines(words: str) -> tuple[tuple[str, ...], float]:
    """One line or two, whichever can be printed larger, and the width of the longer one in em."""
    parts = words.split()
    splits = [(" ".join(parts[:at]), " ".join(parts[at:])) for at in range(1, len(parts) + 1)]
    best = min(splits or [(words, "")], key=lambda pair: max(map(width_in_em, pair)))
    return tuple(line for line in best if line), max(1.0, *map(width_in_em, best))
