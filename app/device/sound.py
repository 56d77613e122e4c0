"""Tones through the client's own players."""
from __future__ import annotations

import asyncio

import flet_audio as fta

from app.device.abilities import Ability, Missing, Tone
from app.device.call import ask

#: One player cannot overlap itself, so each tone has two and they take turns.
PLAYERS = 2
READY_WITHIN_S = 0.3
STARTED_WITHIN_S = 2.0


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
    """Loads every tone when made; make it once, in `main`, and hold it."""

    def __init__(self, missing: Missing, on: bool = True) -> None:
        self.on = on
        self._missing = missing
        self._players = {tone: [Player(f"sounds/{tone}.wav") for _ in range(PLAYERS)] for tone in Tone}

    async def play(self, name: str) -> bool:
        if not self.on:
            return False
        return await ask(Ability.SOUND, self._missing, lambda: self._next(name).play(), STARTED_WITHIN_S)

    def _next(self, name: str) -> Player:
        players = self._players[Tone(name)]
        players.append(players.pop(0))
        return players[-1]

    async def loaded(self) -> None:
        """Returns when every tone is loaded."""
        await asyncio.gather(*(player.ready.wait() for players in self._players.values() for player in players))
