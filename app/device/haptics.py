"""Vibration patterns through the client."""
from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence

import flet as ft

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask
from app.domain.sound.cues import Buzz

PAUSE_S = 0.16
WITHIN_S = 3.0


class FletHaptics:
    """Make it once, in `main`, and hold it."""

    def __init__(self, missing: Missing, on: bool = True) -> None:
        self.on = on
        self._missing = missing
        self._feedback = ft.HapticFeedback()

    async def play(self, name: str) -> bool:
        if not self.on:
            return False
        return await ask(Ability.HAPTICS, self._missing, lambda: self._beat(Buzz(name)), WITHIN_S)

    async def _beat(self, pattern: Buzz) -> None:
        for number, beat in enumerate(self._beats(pattern)):
            if number:
                await asyncio.sleep(PAUSE_S)
            await beat()

    def _beats(self, pattern: Buzz) -> Sequence[Callable[[], Awaitable[object]]]:
        strong, long, quick = self._feedback.heavy_impact, self._feedback.vibrate, self._feedback.medium_impact
        return {Buzz.WORK: [strong] * 2, Buzz.REST: [long],
                Buzz.ATTENTION: [quick] * 3}[pattern]
