"""A page that stands: one column, the buttons that are needed while moving above and below it."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

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
    worthwhile,
)
from app.ui.client.player.room.pieces import harm_height, is_large, press_height
from app.ui.parts import theme as t
from app.ui.parts.fitted_words import em

BIG = 700
COUNTS = (190.0, 170, 150, 132, 116, 104, 92, 84)
TIGHT_COUNTS = (*COUNTS, 76.0)
SHRINK = 0.88
"""Letters of buttons grow smaller by so much rather than that the buttons stand under one another."""
SMALLEST = 64.0
"""Of figures where neither these nor anything else would fit: in the largest print, px."""
SHARES = (0.58, 0.54, 0.5)
STOP_SIGNS, HURTS = "Stop signs", "That hurts"


def amiss_above(width: float, scale: float) -> bool:
    """Whether the leader's own stop stands above, beside the stop signs; on a phone in large print it scrolls."""
    return width >= BIG or not is_large(scale)


def standing(width: float, height: float, scale: float, said: WordsToFit) -> Room:
    """The best room for these words."""
    page = _Page(width, height, scale, said)
    if said.opened:
        ways = [page.best(LEAST_MOVE, LEAST_EASIER, flows=flows) for flows in (False, True)]
    else:
        ways = [page.best(LEAST_MOVE, LEAST_EASIER)]
    if found := [way for way in ways if way]:
        return max(found, key=lambda way: way[0])[1]
    for least in ((TIGHT_MOVE, TIGHT_EASIER), (SMALLEST, SMALLEST)):
        for flows in (False, True):
            if tight := page.best(*least, tight=True, flows=flows):
                return tight[1]
    return page.loose()


@dataclass(frozen=True)
class _Page:
    width: float
    height: float
    scale: float
    said: WordsToFit

    @property
    def big(self) -> bool:
        return self.width >= BIG

    @property
    def margin(self) -> float:
        return 12 if self.width < 400 else 32 if self.big else 14

    @property
    def inner(self) -> float:
        return self.width - 2 * self.margin

    def base(self) -> Room:
        """What does not depend on any choice: letters of buttons, and which of them stand under one another."""
        said, inner = self.said, self.inner
        body = t.T_BODY * self.scale * (1.15 if self.big and not is_large(self.scale) else 1)
        beside = (inner - GAP - 84) / (em(said.main) + em(HURTS))
        body = beside if SHRINK * body <= beside < body else body  # a little smaller rather than under one another
        around = (26 + GAP) * len(said.taps) - GAP
        taps = (inner - around) / sum(em(one) for one in said.taps) if said.taps else body
        body = taps if SHRINK * body <= taps < body else body
        amiss = min(body, (inner - 46) / em(said.amiss)) if said.amiss else body
        return Room(PageForm.STANDING, self.margin, inner, inner, 0, body, stacked=beside < body,
                    taps_stacked=taps < body, amiss=amiss)

    def fixed(self, room: Room) -> float:
        """Heights of what is always there, without the buttons' own."""
        whose = room.button * 1.15 + 4 if self.said.whose else 0
        return 8 + whose + 2 * GAP + 20

    def buttons(self, room: Room, *, tight: bool) -> tuple[Way, ...]:
        """Pause, "That hurts" and the rest of them, as high as there is room for."""
        large = is_large(self.scale)
        ways = []
        for press, pause in ((72, 88), (72, 76), (56, 88), (56, 76), (56, 72), *(((48, 72),) if tight else ())):
            over = len(self.said.taps) if room.taps_stacked else min(1, len(self.said.taps))
            over = 0 if large and room.stacked else over  # they scroll with the cue
            above = harm_height(room.button, press) + (
                harm_height(room.amiss, press) + 6 if self.said.amiss and amiss_above(self.width, self.scale) else 0)
            main = 2 * harm_height(room.button, 72) + GAP if room.stacked else harm_height(room.button, pause)
            ways.append(Way(above + main + over * (press_height(room.button, press) + GAP),
                            pieces.PAUSE_WORTH * pause + pieces.PRESS_WORTH * press, {"press": press, "pause": pause}))
        return worthwhile(ways)

    def best(self, least_move: float, least_easier: float, *, tight: bool = False, flows: bool = False
             ) -> tuple[float, Room] | None:
        """The way that is worth most and leaves both figures so large."""
        said, scale, room = self.said, self.scale, self.base()
        large, plain = is_large(scale), not is_large(scale) and not said.opened
        opens, flows = said.opened and not flows and not large, flows or large
        cues = pieces.cue_ways(said, self.inner, scale, self._cue_sizes())
        if flows:
            least = 48 if tight else 60 if large else 104
            cues = (pieces.in_sight(cues, least),)
        kinds = tuple(StripShown)[::-1] if plain else (StripShown.NONE,)
        counts, word = TIGHT_COUNTS if tight else COUNTS, min(t.T_BIG * scale, 44)
        names = pieces.name_ways(said, self.inner, scale, (*self._name_sizes(), *((14,) if tight and large else ())),
                                 0.7 if tight else 0.85)
        rest = together(
            self.buttons(room, tight=tight), pieces.band_ways(said, self.inner, scale, counts, word),
            names, cues, pieces.strip_ways(scale, kinds),
            pieces.next_ways(said, self.inner, room.button, may=plain))
        return self._with_figures(room, rest, (least_move * (0.84 if large else 1), least_easier), flows=flows,
                                  more=pieces.OPENED_WHOLE_WORTH * opens)

    def _with_figures(self, room: Room, rest: Sequence[Way], least: tuple[float, float], *, flows: bool, more: float
                      ) -> tuple[float, Room] | None:
        found: tuple[float, Room] | None = None
        fixed = self.fixed(room)
        for pair in pieces.pairs(self.said, self.inner, self.inner, self.scale, SHARES, big=False):
            for way in rest:
                left = self.height - fixed - way.height - (0 if flows else pair.beyond)
                move, figure = pair.figures(left)
                if move < least[0] or figure < least[1] or pair.high(move, figure) > left + 0.01:
                    break  # higher ones leave less
                worth = way.worth + pair.worth + pieces.MOVE_WORTH * move + figure + more
                if found is None or worth > found[0]:
                    found = worth, replace(room, scrolls=flows, **way.sets, **pair.sets(move, figure))
        return found

    def loose(self) -> Room:
        """For a page too small for all of it."""
        room, said = self.base(), self.said
        low = together(pieces.band_ways(said, self.inner, self.scale, COUNTS[-2:], min(t.T_BIG * self.scale, 44))[:1],
                       pieces.name_ways(said, self.inner, self.scale, self._name_sizes()[-1:]),
                       pieces.cue_ways(said, self.inner, self.scale, (t.T_BODY,))[:1])[0]
        pair = next(pieces.pairs(said, self.inner, self.inner, self.scale, (0.54,), big=False))
        room = replace(room, press=56, pause=72, scrolls=True, loose=True, **low.sets)
        return replace(room, **pair.sets(min(TIGHT_MOVE + 30, pair.move), min(TIGHT_EASIER + 20, pair.easy - 10)))

    def _name_sizes(self) -> tuple[float, ...]:
        return (t.T_TITLE, t.T_BIG, t.T_HEAD) if self.big else (t.T_HEAD, t.T_LEAD, t.T_BODY)

    def _cue_sizes(self) -> tuple[float, ...]:
        return (t.T_BIG, t.T_HEAD, t.T_LEAD) if self.big else (30, t.T_HEAD, t.T_LEAD, t.T_BODY)
