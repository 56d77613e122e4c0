"""Pages that lie: a phone in three columns, a desk in two with one row of buttons below."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from app.ui.client.player.room import pieces
from app.ui.client.player.room.measures import (
    GAP,
    LEAST_EASIER,
    LEAST_MOVE,
    TIGHT_EASIER,
    TIGHT_MOVE,
    PageForm,
    Room,
    StripShown,
    Way,
    WordsToFit,
    together,
)
from app.ui.client.player.room.pieces import Pair, harm_height, is_large
from app.ui.client.player.room.standing import HURTS, STOP_SIGNS
from app.ui.parts import theme as t
from app.ui.parts.fitted_words import em

BIGGER = "Bigger"
PHONE_GAP, LEAST_PAUSE = 5.0, 72.0
LEAST_LETTERS = 19.0
"""Of buttons, which grow no larger than the column lets all of them be whole, px."""
PRESS_LEAST, PAUSE_LEAST = 48.0, 60.0
THREE = 3
"""Back, skip and the end: two of them beside one another."""
PHONE_MARGIN, DESK_MARGIN = 10.0, 24.0
PHONE_COUNTS = (150.0, 132, 116, 104, 92, 84, 72)
DESK_COUNTS = (230.0, 200, 170, 150, 132, 116, 100, 84)
WIDER = (0.34, 0.38)
PHONE_TRIES = (((LEAST_MOVE, LEAST_EASIER), (0.24, 0.27, 0.3), False), ((LEAST_MOVE, LEAST_EASIER), WIDER, False),
               ((TIGHT_MOVE, TIGHT_EASIER), WIDER, False), ((TIGHT_MOVE, TIGHT_EASIER), (0.27, 0.3, *WIDER), True))
"""Least figures, shares of the width for the words, and whether the cue scrolls: the first that fits is taken."""
Found = tuple[float, Room] | None


def lying(width: float, height: float, scale: float, said: WordsToFit) -> Room:
    """A phone that lies: words, figures, buttons."""
    large = is_large(scale)
    body = _phone_letters(said, height, t.T_BODY * scale)
    right = max(150, em(HURTS) * body + 46, em(STOP_SIGNS) * body + 46, em(said.main) * body + 32,
                *(em(one) * body + 32 for one in said.taps if len(said.taps) < THREE),
                2 * (max(em(one) for one in said.taps) * body + 30) + 4 if len(said.taps) == THREE else 0)
    amiss = min(body, max(15.0, (right - 46) / em(said.amiss))) if said.amiss else body
    room = Room(PageForm.LYING, PHONE_MARGIN, 0, 0, right, body, stacked=True, taps_stacked=True, amiss=amiss,
                press=_phone_press(said, height), pause=_phone_pause(said, height))
    free = height - 2 * PHONE_MARGIN
    words_free = free - 3 * GAP - (body * 1.15 + GAP if said.whose else 0)
    for least, shares, tight in PHONE_TRIES:
        found: Found = None
        for left in (share * width for share in shares):
            here = replace(room, words=left, pair=width - right - left - 4 * PHONE_MARGIN,
                           scrolls=large or said.opened or tight)
            words = together(
                pieces.upright_band(said, left, scale, PHONE_COUNTS, ((40, 28), (24, 20))),
                pieces.name_ways(said, left, scale, (t.T_HEAD, t.T_LEAD, t.T_BODY)),
                _sight(pieces.cue_ways(said, left, scale, (30, t.T_HEAD, t.T_LEAD, t.T_BODY)),
                       40 if large or tight else 60 if said.opened else 0))
            strips = pieces.strip_ways(scale, (StripShown.NONE,) if large else (StripShown.THREAD, StripShown.NONE))
            pairs = pieces.pairs(said, here.pair, left, scale, (0.58, 0.54, 0.5), big=False)
            found = _better(found, _beside(here, words, strips, [*pairs], free, words_free, least))
        if found:
            return found[1]
    return _loose(replace(room, words=0.27 * width, pair=width - right - 0.27 * width - 4 * PHONE_MARGIN), scale, said)


def _phone_keys(said: WordsToFit) -> tuple[int, int]:
    """How many buttons of each kind stand in the column: plain ones, and under the double rule."""
    plain = min(2, len(said.taps)) if said.taps else 1
    return plain, 3 if said.amiss else 2


def _phone_press(said: WordsToFit, height: float) -> float:
    """As high as the column allows, from 48 to 72 px."""
    plain, harm = _phone_keys(said)
    return min(72.0, max(PRESS_LEAST, (_phone_left(said, height) - 2 * LEAST_PAUSE) / (plain + harm - 1)))


def _phone_pause(said: WordsToFit, height: float) -> float:
    plain, harm = _phone_keys(said)
    taken = (plain + harm - 1) * _phone_press(said, height)
    return min(88.0, max(PAUSE_LEAST, (_phone_left(said, height) - taken) / 2))


def _phone_letters(said: WordsToFit, height: float, most: float) -> float:
    """The largest letters of buttons with which the whole column is seen."""
    plain, harm = _phone_keys(said)
    free = height - 2 * PHONE_MARGIN - (plain + harm + 1) * PHONE_GAP - 2

    def high(size: float) -> float:
        pause = pieces.press_height(size, PAUSE_LEAST) + harm_height(size, PAUSE_LEAST)
        return pause + plain * pieces.press_height(size, PRESS_LEAST) + (harm - 1) * harm_height(size, PRESS_LEAST)

    size = most
    while size > LEAST_LETTERS and high(size) > free:
        size = max(LEAST_LETTERS, size - 1)
    return size


def _phone_left(said: WordsToFit, height: float) -> float:
    """Of the column for what is pressed, without edges and gaps."""
    plain, harm = _phone_keys(said)
    gaps = (plain + harm + 1) * PHONE_GAP
    return height - 2 * PHONE_MARGIN - gaps - (plain + 1) * pieces.PRESS_EDGE - harm * pieces.HARM_EDGE - 2


def desk(width: float, height: float, scale: float, said: WordsToFit) -> Room:
    """Words at the left, large figures and the strip at the right, buttons below."""
    large = is_large(scale)
    room = _desk_foot(width, scale, said)
    foot = room.rows * (harm_height(room.button, room.pause) + GAP) + 12
    free = height - 2 * DESK_MARGIN - foot - (room.button * 1.15 + 4 if said.whose else 0)
    for least in ((LEAST_MOVE, LEAST_EASIER), (TIGHT_MOVE, TIGHT_EASIER)):
        found: Found = None
        tight = least[0] == TIGHT_MOVE
        for left in (0.27 * width, 0.3 * width, 0.34 * width):
            here = replace(room, words=left, pair=width - left - 3 * DESK_MARGIN,
                           scrolls=large or said.opened or tight)
            words = together(
                pieces.upright_band(said, left, scale, DESK_COUNTS, ((52, 36), (34, 24))),
                pieces.name_ways(said, left, scale, (t.T_TITLE, t.T_BIG, t.T_HEAD)),
                _sight(pieces.cue_ways(said, left, scale, (t.T_BIG, t.T_HEAD, t.T_LEAD, t.T_BODY)),
                       60 if large or tight else 200 if said.opened else 0),
                pieces.next_ways(said, left, room.button, may=not said.opened))
            strips = pieces.strip_ways(scale, (StripShown.NONE,) if said.opened else tuple(StripShown)[::-1])
            pairs = [pair for pair in pieces.pairs(said, here.pair, left, scale, (0.58, 0.54, 0.5), big=True)
                     if pair.easier]
            found = _better(found, _beside(here, words, strips, pairs, free, free - 4 * GAP, least))
        if found:
            return found[1]
    return _loose(replace(room, words=0.3 * width, pair=0.7 * width - 3 * DESK_MARGIN), scale, said)


def _desk_foot(width: float, scale: float, said: WordsToFit) -> Room:
    """Letters of the row of buttons, so that all of them fit; in two rows where they would be small."""
    body = (t.T_BODY if is_large(scale) else t.T_LEAD) * scale
    ends = [] if is_large(scale) else [BIGGER]
    keys = [*ends, STOP_SIGNS, *([said.amiss] if said.amiss else []), *said.taps, said.main, HURTS]
    first = [*ends, STOP_SIGNS, *([said.amiss] if said.amiss else [])]
    room = width - 2 * DESK_MARGIN

    def size(words: Sequence[str]) -> float:
        return (room - 46 * len(words) - GAP * len(words) - 12) / sum(em(one) for one in words)

    rows = 1 if size(keys) >= 0.85 * body else 2
    body = min(body, size(keys)) if rows == 1 else min(body, size(first), size(keys[len(first):]))
    return Room(PageForm.DESK, DESK_MARGIN, 0, 0, 0, body, amiss=body, rows=rows, press=72, pause=76)


def _sight(ways: Sequence[Way], least: float) -> tuple[Way, ...]:
    """Where they scroll, so much of them is in sight."""
    return (pieces.in_sight(ways, least),) if least else tuple(ways)


def _beside(room: Room, words: Sequence[Way], strips: Sequence[Way], pairs: Sequence[Pair], free: float,
            words_free: float, least: tuple[float, float]) -> Found:
    """The best of both columns, which only share what has no room at the figures."""
    found: Found = None
    for pair in pairs:
        fits = [way for way in words if way.height + (0 if room.scrolls else pair.beyond) <= words_free]
        if not fits:
            continue
        said = max(fits, key=lambda way: way.worth)
        for strip in strips:
            move, figure = pair.figures(free - strip.height)
            if move < least[0] or figure < least[1]:
                continue
            worth = said.worth + strip.worth + pair.worth + pieces.MOVE_WORTH * move + figure
            if found is None or worth > found[0]:
                found = worth, replace(room, **said.sets, **strip.sets, **pair.sets(move, figure))
    return found


def _better(a: Found, b: Found) -> Found:
    return a if b is None or (a is not None and a[0] >= b[0]) else b


def _loose(room: Room, scale: float, said: WordsToFit) -> Room:
    """For a page too small for all of it."""
    low = together(pieces.upright_band(said, room.words, scale, (84.0, 60), ((24, 20),))[:1],
                   pieces.name_ways(said, room.words, scale, (t.T_BODY,)),
                   pieces.cue_ways(said, room.words, scale, (t.T_BODY,))[:1])[0]
    pair = next(pieces.pairs(said, room.pair, room.words, scale, (0.54,), big=False))
    move, figure = pair.figures(TIGHT_MOVE + pair.around_easier)
    return replace(room, **low.sets, **pair.sets(max(60.0, move), max(60.0, min(figure, pair.easy - 10))),
                   scrolls=True, loose=True)


