"""The page's own part of the voice: which voice it takes, and that a newer line takes the place of an older one."""
from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from app.device.speech import LANGUAGE
from tests.browser.server import ROOT

pytestmark = pytest.mark.browser

#: A browser with these voices that notes what it is asked for, since a headless one has none.
SPOKEN = """voices => { window.heard = [];
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
  Object.defineProperty(window, 'speechSynthesis', {configurable: true, value: voices && {
    getVoices: () => voices, addEventListener: () => {},
    cancel: () => heard.push(['cancel']),
    speak: one => heard.push([one.text, one.voice.name, one.lang, one.rate])}}); }"""
OURS = {"name": "Home", "lang": "en-GB", "localService": True}
OTHER = {"name": "Else", "lang": "en_AU", "localService": True}
FAR = {"name": "Far", "lang": "en-GB", "localService": False}
DUTCH = {"name": "Thuis", "lang": "nl-NL", "localService": True}


@pytest.fixture
def page_with(browser: Browser, tmp_path: Path) -> Any:
    """A page with `voice.js` in a browser of those voices; None: of no speech at all."""
    contexts = []

    def opened(voices: list[dict[str, object]] | None) -> Page:
        context = browser.new_context()
        contexts.append(context)
        page = context.new_page()
        page.goto((tmp_path / "empty.html").as_uri())
        page.evaluate(SPOKEN, voices)
        script = (ROOT / "build/web/voice.js").read_text("utf-8")
        page.add_script_tag(content=f"const pageFolder = 'evenload', tellPage = () => {{}};\n{script}")
        return page

    (tmp_path / "empty.html").write_text("<!doctype html><title>Empty</title>", "utf-8")
    yield opened
    for context in contexts:
        context.close()


def heard(page: Page, *told: str) -> list[list[object]]:
    """What the browser was asked for after the worker told these."""
    page.evaluate("""async told => { const channel = new BroadcastChannel('voice:evenload');
        for (const one of told) channel.postMessage(one);
        await new Promise(done => setTimeout(done, 150)); }""", told)
    return list(page.evaluate("heard"))


Opened = Callable[[list[dict[str, object]] | None], Page]


def test_a_line_is_spoken_by_a_voice_of_this_device_and_takes_the_place_of_the_last(page_with: Opened) -> None:
    """One that a server elsewhere would speak is never taken: there may be no network."""
    page = page_with([FAR, OTHER, OURS])
    found = heard(page, f"say\n{LANGUAGE}\nNext: bow from the hips.", f"say\n{LANGUAGE}\nLeft side.", "hush")
    assert found == [["cancel"], ["Next: bow from the hips.", "Home", "en-GB", 0.9], ["cancel"],
                     ["Left side.", "Home", "en-GB", 0.9], ["cancel"]]


def test_another_kind_of_english_does_where_there_is_no_better(page_with: Opened) -> None:
    """And is asked for in its own."""
    assert heard(page_with([DUTCH, OTHER]), f"say\n{LANGUAGE}\nRest.") == [["cancel"], ["Rest.", "Else", "en_AU", 0.9]]


@pytest.mark.parametrize("voices", [[FAR], [DUTCH], [], None], ids=["far", "another language", "none", "no speech"])
def test_without_a_voice_of_its_own_the_page_is_silent_and_says_so(
        page_with: Opened, voices: list[dict[str, object]] | None) -> None:
    """Nothing fails, and Python is told that there is none."""
    page = page_with(voices)
    assert [one for one in heard(page, f"say\n{LANGUAGE}\nRest.") if one != ["cancel"]] == []
    assert page.evaluate("!!ownVoice('en')") is False
    assert page_with([OTHER]).evaluate("!!ownVoice('en')") is True
