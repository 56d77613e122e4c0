"""Which piece of the player gets how much room, for a page of any size and text of any size. Numbers only, no Flet.

What must be whole without scrolling: name, side, seconds, both figures, the cue, Pause, "That hurts", "Stop signs".
Every way of giving room to the pieces that fits is weighed, and the one that is worth most is taken: a pixel of figure
is worth more than a pixel of anything else, so that numerals, strip and margins give way first.
"""
from __future__ import annotations

from functools import lru_cache

from app.ui.client.player.room.lying import desk, lying
from app.ui.client.player.room.measures import Room, WordsToFit
from app.ui.client.player.room.standing import standing
from app.ui.parts import theme as t

LEAST_PAIR = 260
"""In a narrower column two figures would not be told from one another, px."""


@lru_cache(maxsize=256)
def room_of(width: float, height: float, scale: float, said: WordsToFit) -> Room:
    """The best room for these words; weighed once for each set of them."""
    if width <= height:
        return standing(width, height, scale, said)
    room = lying(width, height, scale, said) if height < t.LOW else desk(width, height, scale, said)
    return standing(width, height, scale, said) if room.loose and room.pair < LEAST_PAIR else room
