"""The wish for a screen reader, left where the page finds it at each start, before Python or the client stand."""
from __future__ import annotations

import flet as ft

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask

WITHIN_S = 5.0
#: `assets/page/reach.js` looks for it; the client sets its own prefix before it.
NAME = "screen_reader"


class FletPageTree:
    """Make it once, in `main`, and hold it. The service behind it is made when it is first wanted."""

    def __init__(self, missing: Missing) -> None:
        self._missing = missing
        self._kept: ft.SharedPreferences | None = None

    async def tell_all(self, wanted: bool) -> bool:
        kept = self._kept = self._kept or ft.SharedPreferences()
        return await ask(Ability.READ_ALOUD, self._missing, lambda: kept.set(NAME, wanted), WITHIN_S)
