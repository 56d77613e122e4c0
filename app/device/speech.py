"""A spoken line: on a desktop that has a voice, or by the browser's own."""
from __future__ import annotations

from app.device.abilities import Ability, Missing
from app.device.bounded_call import ask
from app.device.desktop import on_desktop
from app.device.store_place import StorePlace, tell_voice

WITHIN_S = 30.0
LANGUAGE = "en-GB"
"""In which the program speaks, unless its reader has chosen another English."""


class PlyerSpeech:
    """One line at a time: a line that comes while another is spoken is left out, since it would come too late."""

    def __init__(self, missing: Missing, on: bool = False) -> None:
        self.on, self.language = on, LANGUAGE
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

    async def hush(self) -> None:
        """A desktop's voice ends by itself: one line is all that it has."""


class PageSpeech:
    """The browser's own voice, if it has one on this device. A newer line takes the place of one still spoken."""

    def __init__(self, missing: Missing, place: StorePlace, on: bool = False) -> None:
        self.on, self.language = on, LANGUAGE
        self._missing, self._place = missing, place

    async def say(self, text: str) -> bool:
        if not self.on:
            return False
        if not self._place.has_voice:
            self._missing.note(Ability.SPEECH)
            return False
        self._missing.forget(Ability.SPEECH)
        tell_voice(self._place.folder, "\n".join(("say", self.language, " ".join(text.split()))))
        return True

    async def hush(self) -> None:
        if self.on and self._place.has_voice:
            tell_voice(self._place.folder, "hush")
