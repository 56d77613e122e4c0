"""What the player's page is asked to hold, the room that each piece is given, and the ways between which is chosen."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Any

from app.ui.parts.fitted_words import Fitted

GAP, EDGE = 8.0, 14.0
"""Between pieces; of the band above and below its words, px."""
LEAST_MOVE, LEAST_EASIER = 132.0, 88.0
"""Smaller than this a figure tells little at arm's length, px."""
TIGHT_MOVE, TIGHT_EASIER = 110.0, 84.0
"""Where nothing else fits."""
SMALL = Fitted(19, 1)
NUMERAL_HIGH, NUMERAL_WIDE = 0.8, 0.62


class PageForm(Enum):
    """How the page is laid out."""

    STANDING = "one column, buttons below"
    LYING = "three columns, buttons at the right"
    DESK = "two columns, buttons below"


class StripShown(Enum):
    """How much of the session's strip there is room for."""

    NONE = "none"
    THREAD = "the whole session in a line"
    PART = "the part that one is in, and the whole in a line"


@dataclass(frozen=True)
class WordsToFit:
    """The words whose length matters."""

    word: str
    tag: str
    """The side, or what is counted."""
    name: str
    cues: tuple[str, ...]
    easier: str
    amount: str = ""
    """Under the move's figure: "5 times, 5 kg"."""
    digits: int = 2
    """Signs of the count at its longest."""
    asks: str = ""
    """What is waited for; stands in place of the count."""
    main: str = "Pause"
    taps: tuple[str, ...] = ()
    """Buttons over Pause."""
    whose: str = ""
    amiss: str = ""
    """Somebody leads: whose session it is, and the leader's own stop."""
    after: str = ""
    """What comes next."""
    opened: bool = False
    """Paused: every cue instead of one and the strip."""
    undo: bool = False


@dataclass(frozen=True)
class Room:
    """Px on the screen; sizes of letters hold the text scale."""

    form: PageForm
    margin: float
    words: float
    """Width of the column of words."""
    pair: float
    """Width of both figures with their gap."""
    right: float
    """Width of the column of buttons; 0 where they stand below."""
    button: float
    """Letters of buttons."""
    count: float = 84
    word: Fitted = SMALL
    tag: float = 20
    asks: Fitted = SMALL
    name: Fitted = SMALL
    cue: Fitted = SMALL
    move: float = TIGHT_MOVE
    easy: float = 120
    """Width of the easier column."""
    easy_figure: float = TIGHT_EASIER
    key: float = 16
    """Letters of its key."""
    easier: Fitted | None = None
    """Its name; None where there is no room for it."""
    amount: float = 0
    """Letters of the amount under the move's figure; 0 where it stands with the cue."""
    strip: StripShown = StripShown.NONE
    next: bool = False
    beside: bool = False
    """The side stands beside the word, not under it."""
    stacked: bool = False
    """Pause and "That hurts" under one another."""
    taps_stacked: bool = False
    rows: int = 1
    """Rows of buttons on a desk."""
    pause: float = 76
    press: float = 56
    """Least heights of Pause and "That hurts", and of the other buttons."""
    amiss: float = 19
    """Letters of the leader's own stop."""
    scrolls: bool = False
    """Cue and what follows scroll: in large print, at a pause, and where nothing else helps."""
    loose: bool = False
    """Everything between the upper and the lower buttons scrolls: a page too small for anything else."""


@dataclass(frozen=True)
class Way:
    """One way of giving room to some pieces: its height, what it is worth, and the fields of the room that it sets."""

    height: float
    worth: float
    sets: Mapping[str, Any] = field(default_factory=dict)


def worthwhile(ways: Iterable[Way]) -> tuple[Way, ...]:
    """Those than which no lower one is worth as much, from the lowest on."""
    kept: list[Way] = []
    for way in sorted(ways, key=lambda way: (way.height, -way.worth)):
        if not kept or way.worth > kept[-1].worth:
            kept.append(way)
    return tuple(kept)


def together(*kinds: Iterable[Way]) -> tuple[Way, ...]:
    """Every worthwhile way of giving room to all of them under one another."""
    whole: tuple[Way, ...] = (Way(0, 0),)
    for ways in kinds:
        whole = worthwhile(Way(a.height + b.height, a.worth + b.worth, {**a.sets, **b.sets})
                           for a in whole for b in ways)
    return whole
