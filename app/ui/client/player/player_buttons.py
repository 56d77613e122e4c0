"""The buttons of the player: the main act, what must never be looked for, and the taps of the moment."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.device.abilities import Ability
from app.domain.player import player as events
from app.domain.player.player_state import Status
from app.ui.client.player.card_words import CardWords, Tap
from app.ui.client.player.live_session import Live, Panel, SessionDrawnAs
from app.ui.client.player.room.measures import PageForm, Room
from app.ui.client.player.room.pieces import asked, is_large
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.fitted_words import em
from app.words.client import lead, pauses
from app.words.client import player as says
from app.words.sound import lacks_words

STACKED_HIGH = 72
"""Of Pause and "That hurts" where they stand under one another, px."""
SPOKEN = {Tap.MORE_REST: says.LONGER_REST, Tap.END: says.END}
"""Names of those whose faces are short."""


def signs_button(c: Card, live: Live, height: float = t.TARGET, size: float = t.T_BODY) -> ft.Control:
    """The list of stop signs, one tap away."""
    return c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS), height=height, size=size)


def under_signs(c: Card, live: Live, page: ft.Control) -> ft.Control:
    """A page over the session, with the stop signs above it that never scroll away."""
    bar = ft.Container(ft.Row([signs_button(c, live)], alignment=ft.MainAxisAlignment.END),
                       padding=ft.Padding.symmetric(horizontal=c.margin, vertical=4))
    page.expand = True
    return ft.Column([bar, c.hairline(), page], spacing=0, expand=True,
                     horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


class PlayerButtons:
    """The buttons of one drawing, as large as the room says."""

    def __init__(self, c: Card, live: Live, room: Room, now: CardWords) -> None:
        self.c, self.live, self.room, self.now = c, live, room, now
        self.size = room.button / c.scale

    def _high(self, least: float) -> float:
        return asked(least, self.room.button, self.c.scale)

    def signs(self) -> ft.Control:
        """The stop signs: there at every moment."""
        return signs_button(self.c, self.live, self._high(self.room.press), self.size)

    def bigger(self) -> ft.Control:
        """The view for three metres."""
        return self.c.button(pauses.DISTANCE, self.live.press(self.live.show, SessionDrawnAs.DISTANCE),
                             name=pauses.DISTANCE_NAME, size=self.size, height=self._high(self.room.press))

    def amiss(self) -> list[ft.Control]:
        """The stop of somebody who leads."""
        if not self.live.now.led:
            return []
        size = self.room.amiss
        return [self.c.harm_button(lead.not_themselves(self.live.now.person.sex),
                                   self.live.press(self.live.open, Panel.AMISS), size=size / self.c.scale,
                                   height=asked(self.room.press, size, self.c.scale))]

    def main(self) -> ft.Control:
        """Pause, on, or the tap that is waited for."""
        act = self.live.answer if self.now.state.status is Status.WAITING else self.live.toggle
        return self.c.main_button(self.now.main, self.live.press(act), height=self._high(self.room.pause),
                                  size=self.size)

    def hurts(self) -> ft.Control:
        """ "That hurts": everything stops."""
        least = STACKED_HIGH if self.room.stacked and self.room.form is PageForm.STANDING else self.room.pause
        return self.c.harm_button(says.HURTS, self.live.press(self.live.stand_still), height=self._high(least),
                                  size=self.size)

    def taps(self) -> list[ft.Control]:
        """More rest or enough of it, what is waited for; standing still, back, skip and the end."""
        return [self.c.button(words, self._does(tap), name=SPOKEN.get(tap, ""), size=self.size,
                              height=self._high(self.room.press))
                for tap, words in zip(self.now.taps, self.now.tap_words(), strict=True)]

    def _does(self, tap: Tap) -> Callable[[Any], Any]:
        live = self.live
        if tap is Tap.ANSWER:
            return live.press(live.answer)
        if tap is Tap.END:
            return live.press(live.open, Panel.ENDING)
        event = {Tap.MORE_REST: events.LongerRest, Tap.READY: events.Ready, Tap.BACK: events.WentBack,
                 Tap.SKIP: events.Skipped}[tap]
        return live.press(live.do, event())

    # -------------------------------------------------------------- where they stand

    @property
    def flow(self) -> bool:
        """In print so large that each button takes a row, those of second rank scroll with the cue."""
        return is_large(self.c.scale) and self.room.stacked and self.room.form is PageForm.STANDING

    def below(self) -> list[ft.Control]:
        """On a page that stands: Pause and "That hurts" beside one another where no word is cut; the others above."""
        taps = [] if self.flow else self._rows(self.taps(), self.room.taps_stacked)
        main, hurts = self.main(), self.hurts()
        if self.room.stacked:
            return [*taps, main, hurts]
        return [*taps, shared([main, hurts], (self.now.main, says.HURTS))]

    def _rows(self, taps: list[ft.Control], stacked: bool) -> list[ft.Control]:
        return taps if stacked or not taps else [shared(taps, self.now.tap_words())]

    def at_the_right(self) -> list[ft.Control]:
        """On a phone that lies: in a column; of three, two beside one another."""
        taps = self.taps()
        if len(taps) == 3:
            taps = [shared(taps[:2], self.now.tap_words()[:2], 4), taps[2]]
        far = [self.bigger()] if not taps and not is_large(self.c.scale) else []
        return [self.signs(), *self.amiss(), *far, ft.Container(expand=True), *taps, self.main(), self.hurts()]

    def on_a_desk(self) -> list[ft.Control]:
        """In one row, or in two where letters would be small."""
        far = [] if is_large(self.c.scale) else [self.bigger()]
        ends, taps, main, hurts = [*far, self.signs(), *self.amiss()], self.taps(), self.main(), self.hurts()
        acts = [main, hurts]
        if self.room.rows == 1:
            for one in acts:
                one.expand = 1
            return [ft.Row([*ends, ft.Container(expand=1), *taps, *acts], spacing=8)]
        return [ft.Row(ends, spacing=8), shared([*taps, *acts], (*self.now.tap_words(), self.now.main, says.HURTS))]


def shared(buttons: list[ft.Control], words: tuple[str, ...], spacing: float = 8) -> ft.Row:
    """Buttons in a row, each as wide as its words ask for."""
    for button, said in zip(buttons, words, strict=True):
        button.expand = max(1, round(10 * em(said)) + 24)
    return ft.Row(list(buttons), spacing=spacing)


def lacking(live: Live) -> str:
    """One quiet sentence about what this device lacks of what is switched on."""
    device = live.device
    off = {Ability.SOUND: not device.sounds.on, Ability.HAPTICS: not device.haptics.on}
    return lacks_words(ability for ability in device.missing.abilities if not off.get(ability, False))
