"""Every moment of the player on every size of page and of text: whole, nothing upon anything else, no small target."""
from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.actions.people import current_person
from app.actions.training.today import Today, today
from app.device.clock import SystemClock
from app.storage.database import open_store
from app.ui.client.player.card_words import card_words, said_of
from app.ui.client.player.room.page_room import room_of
from tests.browser.driver import Walker
from tests.browser.player_boxes import Page, placed, show
from tests.browser.server import Server
from tests.browser.still_moments import MOMENTS, moment
from tests.sampling import is_whole, spread

pytestmark = pytest.mark.browser

SIZES = ((360, 740), (412, 915), (915, 412), (768, 1024), (1280, 800))
SCALES = (1.0, 1.3, 2.0)
THEMES = ("light", "dark")
LOOKS = 10
"""So often a page is looked at, 0.6 s apart, before something on it counts as amiss."""
SAMPLED = 1
"""Pages of each moment that are looked at under `test`."""


@dataclass(frozen=True)
class Still:
    """The player standing still in a browser, and whose session it shows."""

    walker: Walker
    card: Today


class StillServer(Server):
    """Serves the player standing still."""

    module = "tests.browser.still_player"


@pytest.fixture(scope="module")
def still(browser: Browser, ready: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Still]:
    """One window on it for all pages."""
    data = Path(shutil.copytree(ready, tmp_path_factory.mktemp("still") / "data"))
    server, store, clock = StillServer(data).start(), open_store(data), SystemClock()
    try:
        person = current_person(store)
        assert person
        with Walker(browser) as walker:
            yield Still(walker.open(server.at("/work/light")), today(store, clock, person.id))
    finally:
        server.stop()
        store.close()
    assert not server.complaints()


def pages(name: str) -> list[tuple[tuple[int, int], float, str]]:
    """Sizes of page and text, and inks: all of them, or some, which differ from moment to moment."""
    every = list(product(SIZES, SCALES, THEMES))
    if is_whole():
        return every
    at = list(MOMENTS).index(name) * 7 % len(every)
    return spread(every[at:] + every[:at], SAMPLED)


@pytest.mark.parametrize("name", MOMENTS)
def test_all_that_is_needed_is_whole_without_scrolling(still: Still, name: str) -> None:
    """Name, side, seconds, both figures, cue, taps, Pause, "That hurts", stop signs; at 200 % what one acts on."""
    playing = moment(name, still.card)
    now = card_words(playing)
    found: list[str] = []
    for size, scale, theme in pages(name):
        show(still.walker, name, theme, size, scale)
        room = room_of(*size, scale, said_of(now, playing, undo=MOMENTS[name].eased))
        led = playing.person.name if playing.led else ""
        for _ in range(LOOKS):  # again where something is amiss: a page that is being resized is drawn in between
            faults = Page(placed(still.walker, size), now, scale, size, led=led, scrolls=room.scrolls).faults()
            if not faults:
                break
            still.walker.wait(0.6)
        found += [f"{size[0]} × {size[1]}, {scale:.0%}, {theme}: {fault}" for fault in faults]
    assert not found, "\n".join(found)
