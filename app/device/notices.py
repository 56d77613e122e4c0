"""A notice of the operating system on a desktop."""
from __future__ import annotations

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask
from app.device.desktop import on_desktop

WITHIN_S = 10.0


class PlyerNotices:
    """Shown where the desktop takes them."""

    def __init__(self, missing: Missing, program: str) -> None:
        self._missing = missing
        self._program = program

    async def show(self, title: str, text: str) -> bool:
        return await ask(Ability.NOTICES, self._missing, lambda: self._notify(title, text), WITHIN_S)

    async def _notify(self, title: str, text: str) -> None:
        await on_desktop("notification", "notify", title=title, message=text, app_name=self._program)
