"""The ways in which each piece of the player's page may be set, with their heights and what they are worth."""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

from app.ui.client.player.room.measures import (
    EDGE,
    GAP,
    NUMERAL_HIGH,
    NUMERAL_WIDE,
    StripShown,
    Way,
    WordsToFit,
    worthwhile,
)
from app.ui.parts import theme as t
from app.ui.parts.fitted_words import Fitted, em, fitted, lines_of

PRESS_EDGE, HARM_EDGE = 6.0, 8.0
LEAST_WORD, LEAST_TAG = 18.0, 15.0
"""Letters of the band, px."""
EASIER_KEY = "Easier"
MOVE_WORTH, COUNT_WORTH, NAME_WORTH, CUE_WORTH = 1.1, 0.45, 2.0, 3.0
"""Of a px: of the move's figure, where the easier one's is 1; of the numerals; of letters."""
STRIP_WORTH = {StripShown.NONE: 0.0, StripShown.THREAD: 30.0, StripShown.PART: 55.0}
NEXT_WORTH, AMOUNT_WORTH, EASIER_NAME_WORTH, PAUSE_WORTH, PRESS_WORTH = 20.0, 25.0, 120.0, 0.5, 1.5
OPENED_WHOLE_WORTH = 200.0
"""At a pause: every cue in sight."""


def press_height(size: float, least: float) -> float:
    """Of a button with one line, its edge included, which lies around what is pressed."""
    return max(least, size * 1.15 + 12) + PRESS_EDGE


def harm_height(size: float, least: float) -> float:
    """The same under the double rule."""
    return max(least - 12, size * 1.15 + 12) + 12 + HARM_EDGE


def asked(least: float, size: float, scale: float) -> float:
    """The height to ask a button for so that it is `least` px high: it reckons with letters of the usual size."""
    return least - (size - size / scale) * 1.15


def is_large(scale: float) -> bool:
    """Whether the person reads large print."""
    return scale > t.LARGE_PRINT


# ------------------------------------------------------------------ the band

def band_ways(said: WordsToFit, width: float, scale: float, counts: Sequence[float], largest: float) -> tuple[Way, ...]:
    """Numerals beside the word and the side, on a page that stands."""
    if said.asks:
        return (_asking_band(said, width, scale, largest),)
    ways = []
    for count in counts:
        left = width - count * NUMERAL_WIDE * said.digits - GAP
        if left < 60:
            continue
        word = band_word(said.word.upper(), left, largest)
        tag = in_one_line(said.tag, left - 24, min(t.T_LEAD * scale, 30))
        if (word.size < LEAST_WORD or tag < LEAST_TAG) and count != counts[-1]:
            continue
        words = word.size * 1.05 * word.lines + (tag + 20 if said.tag else 0)
        height = max(count * NUMERAL_HIGH, words) + 2 * EDGE + 8
        ways.append(Way(height, COUNT_WORTH * count, {"count": count, "word": word, "tag": tag}))
    return worthwhile(ways)


def _asking_band(said: WordsToFit, width: float, scale: float, largest: float) -> Way:
    asks = fitted(said.asks, width, min(t.T_HEAD * scale, 34), t.T_BODY, 4)
    word = fitted(said.word.upper(), width, largest, LEAST_WORD, 1)
    return Way(word.size * 1.05 * word.lines + asks.height + 2 * EDGE + 20, 0, {"word": word, "asks": asks})


def upright_band(said: WordsToFit, width: float, scale: float, counts: Sequence[float],
                 sizes: Iterable[tuple[float, float]]) -> tuple[Way, ...]:
    """Numerals under word and side, in a column. `sizes`: the largest letters of both, from large to small."""
    if said.asks:
        return (_asking_band(said, width - 24, scale, 30),)
    ways = []
    for most_word, most_tag in sizes:
        word = fitted(said.word.upper(), width - 24, min(t.T_BIG * scale, most_word), LEAST_WORD, 1)
        tag = in_one_line(said.tag, width - 48, min(t.T_LEAD * scale, most_tag))
        beside = bool(said.tag) and em(said.word.upper()) * word.size + em(said.tag) * tag + 58 <= width
        high = tag + 14 if said.tag else 0
        words = word.size * 1.05 * word.lines
        head = max(words, high) if beside else words + (high + 6 if high else 0)
        ways += [Way(count * NUMERAL_HIGH + head + 2 * EDGE + 8, COUNT_WORTH * count + 0.8 * tag,
                     {"count": count, "word": word, "tag": tag, "beside": beside})
                 for count in counts if count * NUMERAL_WIDE * said.digits <= width - 10]
    return worthwhile(ways) or (Way(84 * NUMERAL_HIGH + 100, 0),)


def band_word(word: str, width: float, largest: float) -> Fitted:
    """In one line as large as may be, in two lines at most 30 px."""
    one = fitted(word, width, largest, 24, 1)
    return one if one.lines == 1 else fitted(word, width, min(largest, 30), LEAST_WORD, 2)


def in_one_line(words: str, width: float, largest: float) -> float:
    """The largest size at which they stand in one line."""
    return min(largest, (width - 1) / em(words)) if words else largest


# ------------------------------------------------------------------ name, cue, strip

def name_ways(said: WordsToFit, width: float, scale: float, sizes: Sequence[float], smallest: float = 0.85
              ) -> tuple[Way, ...]:
    """At the largest size at which no word is cut, in few lines. `smallest`: in large print, as a share of the body."""
    lines = 3 if is_large(scale) or width < 330 else 2
    least = t.T_BODY * scale * (smallest if is_large(scale) else 1)
    return worthwhile(Way(name.height + 6, NAME_WORTH * name.size / scale, {"name": name})
                      for name in (fitted(said.name, width, px * scale, least, lines) for px in sizes))


def cue_ways(said: WordsToFit, width: float, scale: float, sizes: Sequence[float]) -> tuple[Way, ...]:
    """Room for the longest of them, so that nothing jumps; at a pause for all of them."""
    ways = []
    for px in (t.T_BODY,) if is_large(scale) else (t.T_LEAD, t.T_BODY) if said.opened else sizes:
        size = px * scale
        each = [fitted(cue, width - 18, size, t.T_BODY * scale, 9) for cue in said.cues] or [Fitted(size, 1)]
        size = min(cue.size for cue in each)
        high = sum(cue.height + GAP for cue in each) if said.opened else max(cue.height for cue in each) + GAP
        lines = max(cue.lines for cue in each)
        ways.append(Way(high, CUE_WORTH * size / scale, {"cue": Fitted(size, lines)}))
    return worthwhile(ways)


def in_sight(cues: Sequence[Way], least: float) -> Way:
    """Of what scrolls at least so much is seen at once; in small letters that is more of it."""
    return Way(min(cues[0].height, least), cues[0].worth, cues[0].sets)


def strip_height(kind: StripShown, scale: float) -> float:
    """Of the session's strip with the gap under it."""
    return {StripShown.NONE: 0.0, StripShown.THREAD: 26 + GAP,
            StripShown.PART: 46 + t.T_CAPTION * 1.2 * scale + GAP}[kind]


def strip_ways(scale: float, kinds: Sequence[StripShown]) -> tuple[Way, ...]:
    """From none to all of it."""
    return worthwhile(Way(strip_height(kind, scale), STRIP_WORTH[kind], {"strip": kind}) for kind in kinds)


def next_ways(said: WordsToFit, width: float, size: float, *, may: bool) -> tuple[Way, ...]:
    """What comes after, in two lines at most; or not."""
    lines = lines_of(said.after, size, width)
    return (Way(0, 0), *([Way(size * 1.16 * lines + GAP, NEXT_WORTH, {"next": True})] if may and lines <= 2 else []))


# ------------------------------------------------------------------ both figures

@dataclass(frozen=True)
class Pair:
    """One way of sharing a width between the figures: how wide, and what stands above and below them."""

    move: float
    easy: float
    key: float
    easier: Fitted | None
    amount: float
    undo: bool
    beyond: float
    """Height of what has no room here and stands with the cue."""

    @property
    def around_easier(self) -> float:
        """Key, name, edges and the way back, px."""
        names = self.easier.height + 8 if self.easier else 4
        return names + self.key * 1.1 + 12 + 6 + (68 if self.undo else 0)

    @property
    def under_move(self) -> float:
        """The amount."""
        return self.amount * 1.1 + 4 if self.amount else 0

    def figures(self, height: float) -> tuple[float, float]:
        """The move's and the easier one's in that height, px square."""
        return min(self.move, height - self.under_move), min(self.easy - 10, height - self.around_easier)

    def high(self, move: float, figure: float) -> float:
        """What they take then."""
        return max(move + self.under_move, figure + self.around_easier)

    @property
    def worth(self) -> float:
        """Besides the figures."""
        return EASIER_NAME_WORTH * bool(self.easier) + AMOUNT_WORTH * bool(self.amount)

    def sets(self, move: float, figure: float) -> dict[str, Any]:
        """As fields of the room."""
        return {"move": move, "easy": self.easy, "easy_figure": figure, "key": self.key, "easier": self.easier,
                "amount": self.amount}


def pairs(said: WordsToFit, width: float, column: float, scale: float, shares: Sequence[float], *, big: bool
          ) -> Iterator[Pair]:
    """Every way of sharing `width`. `column`: of the words with which the rest would stand."""
    mark = 0 if is_large(scale) else 28
    for share in shares:
        move, easy = width * share, width * (1 - share) - GAP
        key = fitted(EASIER_KEY, easy - 18 - mark, (t.T_HEAD if big else t.T_LEAD) * scale, 16, 1).size
        largest = (t.T_LEAD if big else t.T_BODY) * min(scale, 1.5)
        small = t.T_CAPTION * min(scale, t.LARGE_PRINT)
        its_name = fitted(said.easier, easy - 14, largest, small, 3, heavy=False)
        its_amount = in_one_line(said.amount, move - 6, min(t.T_LEAD * scale, 30)) if said.amount else 0
        for named, counted in product((True, False), (True, False) if its_amount >= small else (False,)):
            yield Pair(move, easy, key, its_name if named else None, its_amount if counted else 0, said.undo,
                       _beyond(said, column, scale, named=named, counted=counted))


def _beyond(said: WordsToFit, width: float, scale: float, *, named: bool, counted: bool) -> float:
    size = t.T_BODY * scale
    high = 0.0 if named else fitted(f"{EASIER_KEY}: {said.easier}", width, size, size, 9).height + GAP
    return high + (fitted(said.amount, width, size, size, 9).height + GAP if said.amount and not counted else 0)
