"""A spoken line on a desktop that has a voice."""
from __future__ import annotations

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask
from app.device.desktop import on_desktop

WITHIN_S = 30.0


class PlyerSpeech:
    """One line at a time: a line that comes while another is spoken is left out, since it would come too late."""

    def __init__(self, missing: Missing, on: bool = False) -> None:
        self.on = on
        self._missing = missing
        self._speaking = False

    async def say(self, text: str) -> bool:
        if not self.on or self._speaking:
            return False
        self._speaking = True
        try:
            return await ask(Ability.SPEECH, self._missing, lambda: on_desktop("tts", "speak", message=text), WITHIN_S)
        finally:
            self._speaking = False
