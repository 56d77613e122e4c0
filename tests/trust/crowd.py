"""Many windows at once on one machine: scripted ones that come, are drawn, press their way on and go, wave by wave.

They come through the gate as browsers do, each with a key of its own, and go as people do: some close the window, some
are gone in the midst of being drawn, some come back to what they were shown, some knock and are never seen.
"""
from __future__ import annotations

import asyncio
import json
import os
import re
import signal
import statistics
import time
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass, field
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlsplit

from websockets.exceptions import ConnectionClosed

from tests.browser.server import Server
from tests.trust.crowd_app import COUNT
from tests.trust.wire import Wire, wire

WITHIN_S = 60.0
"""For the first screen and for each that follows: a hundred times what it takes, on a machine that does nothing else."""
SWEPT_WITHIN_S = 60.0
"""Until a visit that is over has left memory: it is kept for seconds, and Flet looks each ten."""
MOST_GROWN_MIB = 8.0
#: What a log says where something failed that nobody meant to.
FAILED = re.compile(r"a handler failed|Traceback|Unhandled error|never retrieved|Error running app|was never awaited")

KNOCKS_EACH, BACK_EACH, LOCKED_S = 10, 6, 1.0
HOME, PLAN, PLAY = "^(Start|Carry on)", "[Pp]lan", "Before you begin|Carry on|another|Pause"

Step = tuple[str, str, str]
"""What is done, at what, and what the page says then: `("go", "/plan", "…")`, `("press", "^Start$", "…")`."""
WALKS: tuple[tuple[Step, ...], ...] = (
    (("go", "/plan", PLAN), ("go", "/diary", "."), ("go", "/today", HOME)),
    (("go", "/play", PLAY),),
    (("go", "/check-in", "new or worrying"), ("press", "worrying: No", "Next"), ("press", "^Next", "hurts")),
    (("go", "/settings", "Settings"), ("go", "/checks", "."), ("go", "/today", HOME)),
    (("press", HOME, PLAY), ("go", "/send", "Send|send"), ("go", "/why", ".")),
)


@dataclass
class Wave:
    """How it went with one wave of clients."""

    clients: int
    first_s: list[float] = field(default_factory=list)
    """Until the first screen, seconds, of each that was answered."""
    amiss: list[str] = field(default_factory=list)
    screens: int = 0
    resumed: int = 0
    """So many came back to the visit that they had left."""
    memory_mib: float = 0.0
    visits: int = 0
    """Left in memory once all of them had gone."""
    took_s: float = 0.0

    def row(self) -> list[str]:
        median = f"{statistics.median(self.first_s):.2f} s" if self.first_s else "-"
        slowest = f"{max(self.first_s):.2f} s" if self.first_s else "-"
        return [f"{len(self.first_s)} of {self.clients}", median, slowest, str(self.screens), f"{self.took_s:.0f} s",
                str(self.visits), f"{self.memory_mib:.1f} MiB"]


HEAD = ["answered", "first screen, median", "slowest", "screens", "took", "visits left", "memory"]


class CrowdServer(Server):
    """The app on a data directory, which says what it keeps in memory."""

    module = "tests.trust.crowd_app"

    @property
    def host(self) -> str:
        return f"127.0.0.1:{self.port}"

    def count(self) -> dict[str, float]:
        """What is left of its visits, and its memory."""
        assert self._process
        place = self.data_dir.parent / COUNT
        place.unlink(missing_ok=True)
        os.kill(self._process.pid, signal.SIGUSR1)
        end = time.monotonic() + WITHIN_S
        while not place.exists():
            assert time.monotonic() < end and self._process.poll() is None, self.complaints()
            time.sleep(0.05)
        found: dict[str, float] = json.loads(place.read_text())
        return found

    def swept(self, windows: int = 0) -> dict[str, float]:
        """The same, once no more visits are left than windows are open, or after a while."""
        end = time.monotonic() + SWEPT_WITHIN_S
        while (found := self.count())["visits"] > windows and time.monotonic() < end:
            time.sleep(1)
        return found


def let_in(server: CrowdServer) -> str:
    """A cookie for a key of the page beside the data, as its owner's browser gets one; each key opens once.

    Raises:
        AssertionError: the owner is locked out.
    """
    parts = urlsplit(server.address)
    for asked, status in ((f"{parts.path}?{parts.query}", 303), ("/", 200)):
        gate = HTTPConnection(server.host, timeout=WITHIN_S)
        gate.request("GET", asked, headers={"Cookie": cookie} if status == 200 else {})
        answer = gate.getresponse()
        cookie = (answer.headers["set-cookie"] or "").partition(";")[0] or cookie
        assert answer.status == status, f"locked out: {answer.status} and not {status}"
        gate.close()
    return cookie


async def leave(window: Wire) -> None:
    """Closes the window."""


async def vanish(window: Wire) -> None:
    """Is gone in the midst of being drawn: another screen is asked for, and its first frame is not waited for."""
    await window.go("/play")
    window.drop()


async def vanish_drawing(window: Wire) -> None:
    """Is gone after the first frame of a screen."""
    await window.go("/settings")
    await window.take()
    window.drop()


async def vanish_pressing(window: Wire) -> None:
    """Is gone with a press on its way."""
    await window.go("/today")
    await window.until(HOME, WITHIN_S)
    await window.press(HOME)
    window.drop()


GOING: tuple[Callable[[Wire], Awaitable[None]], ...] = (leave, vanish, vanish_drawing, vanish_pressing)


class Crowd:
    """One wave of clients of one server: all are let in, and then come at once."""

    def __init__(self, server: CrowdServer, clients: int) -> None:
        self._host, self.wave = server.host, Wave(clients)
        self._cookies = [let_in(server) for _ in range(clients + clients // KNOCKS_EACH)]

    async def come(self) -> Wave:
        """They come and go."""
        began, clients = time.monotonic(), self.wave.clients
        visits = [self._visit(number, cookie) for number, cookie in enumerate(self._cookies[:clients])]
        knocks = [self._knock(cookie) for cookie in self._cookies[clients:]]
        await asyncio.gather(*(self._told(work, number) for number, work in enumerate((*visits, *knocks), 1)))
        self.wave.took_s = time.monotonic() - began
        return self.wave

    async def _told(self, work: Awaitable[None], number: int) -> None:
        try:
            await work
        except (AssertionError, ConnectionClosed, LookupError, OSError) as error:
            self.wave.amiss.append(f"client {number}: {type(error).__name__}: {error}"[:500])

    async def _visit(self, number: int, cookie: str) -> None:
        began = time.monotonic()
        async with wire(self._host, cookie) as window:
            await window.register("/")
            await window.until(HOME, WITHIN_S)
            self.wave.first_s.append(time.monotonic() - began)
            for act, at, said in WALKS[number % len(WALKS)]:
                await (window.go(at) if act == "go" else window.press(at))
                await window.until(said, WITHIN_S)
                self.wave.screens += 1
            await GOING[number % len(GOING)](window)
        if number % BACK_EACH == 1:
            await self._come_back(cookie, window.session)

    async def _come_back(self, cookie: str, session: str) -> None:
        """To what was shown, as a phone does that lay locked: the page is there, and goes on from there."""
        await asyncio.sleep(LOCKED_S)
        async with wire(self._host, cookie) as window:
            await window.register("/today", session)
            await window.until(HOME, WITHIN_S)
            await window.go("/plan")
            await window.until(PLAN, WITHIN_S)
            self.wave.screens += 2
            self.wave.resumed += window.session == session

    async def _knock(self, cookie: str) -> None:
        """A socket that is gone before it has said who it is."""
        async with wire(self._host, cookie) as window:
            window.drop()


def waves(server: CrowdServer, clients: int, count: int) -> list[Wave]:
    """So many waves, and what each left in memory when its visits were over."""
    found = []
    for _ in range(count):
        wave = asyncio.run(Crowd(server, clients).come())
        kept = server.swept()
        wave.visits, wave.memory_mib = int(kept["visits"]), kept["memory_mib"]
        found.append(wave)
    return found


def failures(log: str) -> list[str]:
    """Lines of a log that say that something failed."""
    return [line for line in log.splitlines() if FAILED.search(line)]


def amiss(found: Sequence[Wave]) -> list[str]:
    """What went wrong with clients, and what grew that should not have."""
    wrong = [f"wave {number}: {what}" for number, wave in enumerate(found, 1) for what in wave.amiss]
    wrong += [f"wave {number}: {len(wave.first_s)} of {wave.clients} were answered"
              for number, wave in enumerate(found, 1) if len(wave.first_s) < wave.clients]
    wrong += [f"wave {number}: {wave.visits} visits are left in memory" for number, wave in enumerate(found, 1)
              if wave.visits]
    grown = found[-1].memory_mib - found[1].memory_mib if len(found) > 2 else 0.0
    return [*wrong, *([f"memory grew by {grown:.1f} MiB"] if grown > MOST_GROWN_MIB else [])]
