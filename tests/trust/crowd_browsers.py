"""Two people at real browsers amid a crowd: one answers the check-in while the other starts the session."""
from __future__ import annotations

import re
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from threading import Barrier, Event, Lock

from playwright.sync_api import sync_playwright

from app.words import parts
from app.words.client import check_in, events, pauses, player
from app.words.client import today as client
from tests.browser.driver import Walker
from tests.browser.window import launch
from tests.stories.steps import WHY
from tests.trust.crowd_server import CrowdServer

ARRIVED_WITHIN_S, LOOK_S = 240.0, 0.5
BEGUN_WITHIN_S = 60.0
FEELS = 5
"""What is answered where one may say from 1 to 5; nobody else says that."""
GO_ON = re.compile(f"^{player.GO_ON} from")
RUNS = re.compile("left$")
TODAY = re.compile(f"{WHY.pattern}|^{client.GOING_ON_HEAD[0]}|^{client.DONE_HEAD}")
"""What stands there before, amid and after the session."""
END = re.compile(f"^({player.END}|{player.END_HERE})$")

Act = Callable[[Walker], object]


def answers(walker: Walker) -> None:
    """The check-in, to its end."""
    walker.choose(parts.answer(check_in.ANYTHING_SHORT, parts.NO)).press(client.NEXT).sees(check_in.JOINTS[0])
    walker.choose(check_in.NOTHING_HURTS).press(client.NEXT).sees(check_in.MUSCLES[0])
    walker.choose(check_in.NO_ACHES).press(client.NEXT).sees(check_in.FEEL[0])
    walker.choose(*(parts.of(about, FEELS, 5) for about in (check_in.SLEPT, check_in.ENERGY, check_in.SETTLED)))
    walker.press(client.DONE).sees(TODAY)


def starts(walker: Walker) -> None:
    """The session: here, wherever else somebody has begun it meanwhile."""
    walker.press(player.START)
    end = time.monotonic() + BEGUN_WITHIN_S
    while not walker.words(RUNS).count():
        assert time.monotonic() < end, f"not begun; the page says {walker.spoken()}"
        for name in (pauses.TAKE_OVER, GO_ON):
            if walker.shows_button(name):
                walker.press(name)
        walker.settle()


def ends(walker: Walker) -> None:
    """The session, which is kept then; it may stand still and ask, where the machine was too busy for its clock."""
    if walker.shows_button(player.PAUSE):
        walker.press(player.PAUSE)
    walker.press(END, re.compile("^Enough for today")).sees(re.compile("How hard was it"))


def looks(walker: Walker) -> None:
    """At Today, which is there as before."""
    walker.go("/diary").sees_button(events.NOTE_SOMETHING).go("/today").sees(TODAY)


class Browsers:
    """Both of them, each at a Chromium of its own, in a thread of its own: that is how the driver is used."""

    def __init__(self, server: CrowdServer, path: str) -> None:
        self._server, self._path = server, path
        self._arrived, self._over, self._opening = Barrier(3), Event(), Lock()
        self.took_s: dict[str, float] = {}
        """How long each took for what it came for, seconds."""

    def arrived(self) -> None:
        """Waits until both see their page; from then on they act."""
        self._arrived.wait(ARRIVED_WITHIN_S)

    def finish(self) -> None:
        """Nobody else is there any more."""
        self._over.set()

    def sit(self, at: str, act: Act, afterwards: Act) -> None:
        """Comes to an address, acts with the other one, stays until everybody else has gone, and ends."""
        try:
            with sync_playwright() as driver, launch(driver, self._path) as chromium, Walker(chromium) as walker:
                with self._opening:  # each key opens once
                    walker.open(self._server.at(at))
                walker.settle()
                self._arrived.wait(ARRIVED_WITHIN_S)
                began = time.monotonic()
                act(walker)
                self.took_s[act.__name__] = time.monotonic() - began
                while not self._over.is_set():
                    walker.wait(LOOK_S)
                afterwards(walker)
        except BaseException:
            self._arrived.abort()
            raise


@contextmanager
def browsers(server: CrowdServer, path: str, amiss: list[str]) -> Iterator[Browsers]:
    """Both at their pages, and acting; what went wrong with them is told in the end."""
    both = Browsers(server, path)
    with ThreadPoolExecutor(2) as threads:
        sitting: list[Future[None]] = [threads.submit(both.sit, "/check-in", answers, looks),
                                       threads.submit(both.sit, "/play", starts, ends)]
        try:
            both.arrived()
            yield both
        finally:
            both.finish()
            amiss += [f"browser: {error!r}"[:900] for one in sitting if (error := one.exception())]
