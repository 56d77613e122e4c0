"""The voice of a page: only one that the browser has on this device, told over a channel."""
from __future__ import annotations

import asyncio

import pytest

from app.device import speech
from app.device.abilities import Ability, Missing
from app.device.speech import PageSpeech
from app.device.store_place import StorePlace, told


@pytest.fixture
def posted(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, str]]:
    """What the page was told, with the app's folder."""
    found: list[tuple[str, str]] = []
    monkeypatch.setattr(speech, "tell_voice", lambda folder, words: found.append((folder, words)))
    return found


def test_a_page_with_a_voice_is_told_each_line_in_one_piece(posted: list[tuple[str, str]]) -> None:
    """A newer line is told at once, and what breaks it off; line ends are the channel's own."""
    async def story(voice: PageSpeech) -> list[bool]:
        said = [await voice.say("Next: bow\nfrom the hips."), await voice.say("Left side.")]
        await voice.hush()
        return said

    missing, place = Missing(), StorePlace(in_browser=True, folder="evenload_studio")
    told(place, {"voice": True})
    assert asyncio.run(story(PageSpeech(missing, place, on=True))) == [True, True]
    assert posted == [("evenload_studio", f"say\n{speech.LANGUAGE}\nNext: bow from the hips."),
                      ("evenload_studio", f"say\n{speech.LANGUAGE}\nLeft side."), ("evenload_studio", "hush")]
    assert not missing


def test_without_a_voice_nothing_is_told_and_the_lack_is_noted(posted: list[tuple[str, str]]) -> None:
    """It may come a moment later, as voices do in some browsers; then it is no longer lacking."""
    missing, place = Missing(), StorePlace(in_browser=True)
    voice = PageSpeech(missing, place, on=True)
    assert asyncio.run(voice.say("Rest")) is False and Ability.SPEECH in missing and not posted
    told(place, {"voice": True})
    assert asyncio.run(voice.say("Rest")) is True and not missing


def test_switched_off_it_says_nothing_and_lacks_nothing(posted: list[tuple[str, str]]) -> None:
    """The usual case: nobody asked for it."""
    missing = Missing()
    voice = PageSpeech(missing, StorePlace(in_browser=True, has_voice=True))
    assert asyncio.run(voice.say("Rest")) is False
    asyncio.run(voice.hush())
    assert not posted and not missing
