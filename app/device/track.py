"""The sound track of a session through the client: one player sounds while the next version is loaded by another."""
from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Protocol

import flet as ft
import flet_audio as fta

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask
from app.device.clock import loop_s
from app.domain.sound.audio_track import CueTrack

LOADED_WITHIN_S = 8.0
DONE_WITHIN_S = 3.0
GRACE_S = 5.0
"""A page that is just being drawn anew may still ask for a track that was given up."""
NEAR_MS = 60
"""A track this near its place is left alone: moving it would be heard."""
LEAD_MS = 25
"""What it takes from being asked to play to playing, as measured in Chromium."""

NOTHING = "sounds/tick.wav"
"""A player must have something from the first on."""

Where = Callable[[], int]
"""The position of the session, ms, at the moment of asking."""


class TrackShelf(Protocol):
    """Where tracks are put so that the client's player can fetch them."""

    async def keep(self, track: CueTrack, since: int) -> str:
        """A source for the client: an address, or data. Up to sample `since` it sounds as the track kept before.

        Raises:
            OSError: there is no room for it.
        """

    def drop(self) -> None:
        """Nothing is needed any more."""


class Deck:
    """One player of the client."""

    def __init__(self) -> None:
        self.ready = asyncio.Event()
        self.audio = fta.Audio(src=NOTHING, release_mode=fta.ReleaseMode.STOP, on_loaded=lambda _: self.ready.set())
        self.track = CueTrack(0, ())
        self.is_playing = False

    async def load(self, source: str, track: CueTrack) -> None:
        """Returns once the client has it."""
        await self.ready.wait()  # for what was there before, whose coming would be taken for this one's
        self.track = track
        self._put(source)
        await self.ready.wait()

    def empty(self) -> None:
        """Nothing is there to be fetched any more, also not by a page that is drawn anew."""
        if self.audio.src != NOTHING:
            self._put(NOTHING)

    def _put(self, source: str) -> None:
        self.ready.clear()
        self.audio.src = source
        self.audio.update()

    async def play(self, where: Where) -> None:
        """From where the session stands at this moment."""
        if self.is_playing:
            await self.audio.seek(self._at(where))
        else:
            await self.audio.play(self._at(where))
        self.is_playing = True

    def _at(self, where: Where) -> ft.Duration:
        return ft.Duration(milliseconds=self.track.track_ms(where()) + LEAD_MS)

    async def off_by(self, where: Where) -> int:
        """How far what sounds is ahead of the session, ms."""
        asked = loop_s()
        found = await self.audio.get_current_position()
        half_ms = int((loop_s() - asked) * 500)
        return (found.in_milliseconds if found else 0) + half_ms - self.track.track_ms(where())

    async def pause(self) -> None:
        """Silent, at once."""
        self.is_playing = False
        await self.audio.pause()  # type: ignore[no-untyped-call]


class FletTrack:
    """Make it once, in `main`, and hold it. Without a shelf there is never a track."""

    def __init__(self, missing: Missing, shelf: TrackShelf | None) -> None:
        self._missing = missing
        self._shelf = shelf
        self._decks = [Deck(), Deck()] if shelf else []
        self._turn = asyncio.Lock()
        self._loads = 0

    async def load(self, track: CueTrack, since: int = 0) -> bool:
        async with self._turn:
            return await self._asked(lambda: self._loaded(track, since), LOADED_WITHIN_S)

    async def _loaded(self, track: CueTrack, since: int) -> None:
        assert self._shelf
        self._loads += 1
        spare = self._decks[1]
        await spare.load(await self._shelf.keep(track, since), track)
        self._decks.reverse()

    async def play(self, where: Where) -> bool:
        async with self._turn:
            return await self._asked(lambda: self._played(where), DONE_WITHIN_S)

    async def _played(self, where: Where) -> None:
        now, before = self._decks
        await now.play(where)
        if before.is_playing:
            await before.pause()

    async def hold_to(self, where: Where) -> bool:
        async with self._turn:
            return await self._asked(lambda: self._held(where), DONE_WITHIN_S)

    async def _held(self, where: Where) -> None:
        deck = self._decks[0]
        if deck.is_playing and abs(await deck.off_by(where)) > NEAR_MS:
            await deck.play(where)

    async def off_by(self, where: Where) -> int | None:
        async with self._turn:
            found: list[int] = []

            async def look() -> None:
                found.append(await self._decks[0].off_by(where))

            return found[0] if await self._asked(look, DONE_WITHIN_S) else None

    async def pause(self) -> bool:
        async with self._turn:
            return await self._asked(self._paused, DONE_WITHIN_S)

    async def _paused(self) -> None:
        for deck in self._decks:
            if deck.is_playing:
                await deck.pause()

    async def drop(self) -> None:
        async with self._turn:
            loads = self._loads
            await self._asked(self._paused, DONE_WITHIN_S)
            for deck in self._decks:
                deck.empty()
        await asyncio.sleep(GRACE_S)
        if self._shelf and loads == self._loads:
            self._shelf.drop()

    async def _asked(self, act: Callable[[], object], within_s: float) -> bool:
        if not self._shelf:
            self._missing.note(Ability.TRACK)
            return False
        return await ask(Ability.TRACK, self._missing, act, within_s)  # type: ignore[arg-type]
