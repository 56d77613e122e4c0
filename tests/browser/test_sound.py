"""The sound track follows the session in a browser: what the page's player does is caught where it begins to play."""
from __future__ import annotations

import shutil
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.domain.player.player_state import Wait
from app.domain.player.tap_gates import waiting_steps
from app.domain.sound.audio_track import lay_track
from app.storage.database import open_store
from app.words.client import player as says
from tests.browser.count import Sight
from tests.browser.driver import Walker
from tests.browser.real_time import LISTEN, drifts, last_run, stretches
from tests.browser.server import Server
from tests.browser.session import Session

pytestmark = pytest.mark.browser

APART_MS = 400
"""What a busy machine may hear apart; a missed leap would be thousands."""
#: Every track that sounds now: where it is, and how far, ms.
SOUNDING = """() => (window.players || []).filter(one => /tracks/.test(one.src) && !one.paused)
  .map(one => [one.src, 1000 * one.currentTime])"""
#: As a browser says it when another tab is put before the page, or the screen goes dark.
HIDDEN = """hidden => {
  const says = {hidden: hidden, visibilityState: hidden ? 'hidden' : 'visible'};
  for (const name in says) Object.defineProperty(document, name, {configurable: true, get: () => says[name]});
  document.dispatchEvent(new Event('visibilitychange')); }"""


class Ear:
    """What is heard of a session."""

    def __init__(self, session: Session, data: Path) -> None:
        self.session, self.data = session, data
        self.page = session.walker.page

    def now(self) -> list[tuple[str, float]]:
        """The tracks that sound."""
        return [(source, at_ms) for source, at_ms in self.page.evaluate(SOUNDING)]

    def hears(self, test: Callable[[list[tuple[str, float]]], bool], seconds: float = 10) -> tuple[str, float]:
        """Waits until what sounds passes a test; gives the one that does."""
        end = time.monotonic() + seconds
        while not test(heard := self.now()):
            assert time.monotonic() < end, f"still {heard}"
            time.sleep(0.05)
        return heard[0] if heard else ("", 0.0)

    def goes(self, least_ms: float = 400) -> tuple[str, float]:
        """One track sounds, and moves on."""
        source, at_ms = self.hears(lambda heard: len(heard) == 1)
        return self.hears(lambda heard: len(heard) == 1 and heard[0][0] == source and heard[0][1] >= at_ms + least_ms)

    def off_by(self, since: float) -> list[float]:
        """How far the track was from where the journal says that the session stood, at each look since a moment, ms."""
        with closing(open_store(self.data)) as store:
            run, _ = last_run(store)
        waits = frozenset(Wait(one) for one in run.about.get("waits", ()))
        track = lay_track(run.plan.steps, waiting=waiting_steps(run.plan.steps, waits, frozenset()))
        heard = [look for look in self.page.evaluate("window.heard") if look[0] >= since]
        return list(drifts(track, stretches(run), heard))


@pytest.fixture
def ear(browser: Browser, ready: Path, serve: Callable[..., Server], tmp_path: Path) -> Iterator[Ear]:
    """A session that has begun, and its track with it."""
    data = Path(shutil.copytree(ready, tmp_path / "data"))
    server = serve(data)
    with Walker(browser) as walker:
        walker.page.add_init_script(f"({LISTEN})()")
        session = Session(walker.open(server.at("/play")))
        session.start()
        yield Ear(session, data)


def leap(ear: Ear, key: str) -> tuple[float, float]:
    """Where the track was before a key that moves the session, and where it is soon after, ms."""
    before, at_ms = ear.session.now(), ear.hears(lambda heard: len(heard) == 1)[1]
    ear.session.walker.key(key)
    ear.session.until(partial(Sight.leaps_from, other=before))
    time.sleep(1)
    return at_ms, ear.goes()[1]


def test_the_track_starts_stops_and_leaps_with_the_session(ear: Ear) -> None:
    """It is silent in a pause, goes on from there, and is where the session is after a skip and after going back."""
    began = time.time() * 1000
    first = ear.goes()[1]
    assert first < 15_000
    ear.session.walker.key("Space").sees_button(says.GO_ON)
    ear.hears(lambda heard: not heard, 3)
    time.sleep(1)
    assert not ear.now()
    ear.session.walker.key("Space").sees_button(says.PAUSE)
    assert first <= ear.goes()[1] < first + 8_000
    before, after = leap(ear, "ArrowRight")
    assert after > before + 3_000
    leap(ear, "ArrowRight")
    before, after = leap(ear, "ArrowLeft")
    assert after < before
    off = ear.off_by(began)
    assert len(off) > 5 and max(map(abs, off)) < APART_MS, off


@pytest.mark.whole(keep=0)
def test_a_swap_brings_another_track_and_the_session_none_other(ear: Ear) -> None:
    """After the easier option the next version takes over from the same place; only one sounds."""
    ear.goes()
    ear.session.skip_until_easier()
    source, at_ms = ear.goes()
    ear.session.walker.key("e").sees("From now on: ")
    later, after_ms = ear.hears(lambda heard: len(heard) == 1 and heard[0][0] != source)
    assert at_ms - APART_MS <= after_ms < at_ms + 10_000
    assert ear.goes()[0] == later


@pytest.mark.whole(keep=0)
def test_it_sounds_on_while_the_page_is_hidden(ear: Ear) -> None:
    """Nothing is drawn meanwhile; the session went on all the same, and shows where it stands once it is seen again."""
    ear.goes()
    began, left_s = time.time() * 1000, ear.session.now().left_s
    ear.page.evaluate(HIDDEN, True)
    before = ear.goes()[1]
    time.sleep(2)
    assert ear.goes()[1] >= before + 1_900
    ear.page.evaluate(HIDDEN, False)
    assert ear.session.until(lambda seen: seen.left_s <= left_s - 2).kind != says.PAUSED
    off = ear.off_by(began)
    assert len(off) > 5 and max(map(abs, off)) < APART_MS, off


@pytest.mark.whole(keep=0)
def test_it_is_over_when_the_page_is_left(ear: Ear) -> None:
    """Nothing sounds on behind another page."""
    ear.goes()
    ear.session.walker.go("/today").settle()
    ear.hears(lambda heard: not heard, 3)
