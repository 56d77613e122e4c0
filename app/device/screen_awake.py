"""The screen kept on through the client."""
from __future__ import annotations

import flet as ft

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask

WITHIN_S = 3.0


class FletAwake:
    """Make it once, in `main`, and hold it. Browsers refuse it to a hidden page; ask again when the page is back."""

    def __init__(self, missing: Missing) -> None:
        self._missing = missing
        self._lock = ft.Wakelock()

    async def keep(self) -> bool:
        return await ask(Ability.AWAKE, self._missing, self._lock.enable, WITHIN_S)

    async def release(self) -> bool:
        return await ask(Ability.AWAKE, self._missing, self._lock.disable, WITHIN_S)
