"""Tones through the client's own players."""
from __future__ import annotations

import asyncio
import contextlib

import flet_audio as fta

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask
from app.domain.sound.cues import CueKind

#: One player cannot overlap itself, so each tone has two and they take turns.
PLAYERS = 2
READY_WITHIN_S = 0.3
STARTED_WITHIN_S = LOADED_WITHIN_S = 2.0


class Player:
    """One loaded tone. Playing one before it is loaded would hang for half a minute, so `ready` is asked first."""

    def __init__(self, source: str) -> None:
        self.ready = asyncio.Event()
        self.audio = fta.Audio(src=source, release_mode=fta.ReleaseMode.STOP, on_loaded=lambda _: self.ready.set())

    async def play(self) -> None:
        """Starts it from its beginning. Raises TimeoutError while it is not loaded."""
        await asyncio.wait_for(self.ready.wait(), READY_WITHIN_S)
        await self.audio.play()


class FletSounds:
    """Loads its tones when told to, or at the first that is asked for; make it once, in `main`, and hold it.

    Each player that Flet is given costs a start more than the one before, so a page does not begin with them.
    """

    def __init__(self, missing: Missing, on: bool = True) -> None:
        self.on = on
        self._missing = missing
        self._players: dict[CueKind, list[Player]] = {}

    async def load(self) -> None:
        self._make()
        with contextlib.suppress(TimeoutError):
            await asyncio.wait_for(self.loaded(), LOADED_WITHIN_S)

    async def play(self, name: str) -> bool:
        if not self.on:
            return False
        return await ask(Ability.SOUND, self._missing, lambda: self._next(name).play(), STARTED_WITHIN_S)

    def _next(self, name: str) -> Player:
        self._make()
        players = self._players[CueKind(name)]
        players.append(players.pop(0))
        return players[-1]

    def _make(self) -> None:
        if not self._players:
            self._players = {tone: [Player(f"sounds/{tone}.wav") for _ in range(PLAYERS)] for tone in CueKind}

    async def loaded(self) -> None:
        """Returns when every tone is loaded."""
        await asyncio.gather(*(player.ready.wait() for players in self._players.values() for player in players))
