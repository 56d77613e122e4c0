"""Many windows at once on one machine: scripted ones that come, are drawn, press their way on and go, wave by wave.

They come through the gate as browsers do, each with a key of its own, and go as people do: some close the window, some
are gone in the midst of being drawn, some come back to what they were shown, some knock and are never seen.
"""
from __future__ import annotations

import asyncio
import re
import time
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field

from websockets.exceptions import InvalidHandshake, WebSocketException

from app.serving.half_open import MOST_WAITING
from app.words.client import check_in, events, pauses, player, send, settings
from app.words.client import today as client
from tests.trust.crowd_server import WITHIN_S, CrowdServer, LockedOut, let_in, strangers, turned_away
from tests.trust.wire import Wire, wire

KNOCKS_EACH, BACK_EACH, LOCKED_S = 10, 5, 1.0
STRANGERS = MOST_WAITING + 16

HOME = f"^({client.START}|{client.GO_ON})"
NEXT = f"^{client.NEXT}$"
PLAN = r"^Week \d+ of \d+\."
PLAY = f"^({player.BEFORE}|{player.PAUSE}|{player.CAME_BACK}|{pauses.ELSEWHERE})$"

Step = tuple[str, str, str]
"""What is done, at what, and what the page says then and did not say before: `("go", "/diary", "…")`, `("press", …)`.
Empty: nothing new is waited for."""
WALKS: tuple[tuple[Step, ...], ...] = (
    (("go", "/plan", PLAN), ("go", "/diary", events.NOTE_SOMETHING), ("go", "/today", HOME)),
    (("go", "/play", PLAY),),
    (("go", "/check-in", check_in.ANYTHING_SHORT), ("press", "worrying: No", ""),
     ("press", NEXT, re.escape(check_in.JOINTS[0])), ("press", NEXT, re.escape(check_in.MUSCLES[0])),
     ("press", NEXT, re.escape(check_in.FEEL[0]))),
    (("go", "/diary", events.NOTE_SOMETHING), ("press", events.NOTE_SOMETHING, events.TITLE),
     ("press", "^I was active", "minutes"), ("press", "^A walk", ""), ("press", "^10 ", ""),
     ("press", events.WRITE_DOWN, events.WRITTEN)),
    (("press", HOME, PLAY), ("go", "/send", send.WAYS), ("go", "/why", "^How we decide")),
    (("go", "/settings", settings.PAGES["kit"]), ("go", "/checks", "^Up from the chair"), ("go", "/today", HOME)),
)


@dataclass
class Wave:
    """How it went with one wave of clients."""

    clients: int
    first_s: list[float] = field(default_factory=list)
    """Until the first screen, seconds, of each that was answered."""
    answer_s: list[float] = field(default_factory=list)
    """Until each answer after that, seconds."""
    refused: list[str] = field(default_factory=list)
    """Windows of the owner that were not let in."""
    amiss: list[str] = field(default_factory=list)
    walks: int = 0
    """Diary entries that the app has said are kept."""
    left: int = 0
    """So many closed their page and came back."""
    resumed: int = 0
    """So many of them found the visit that they had left."""
    turned_away: int = 0
    """Connections that asked for nothing and were closed."""
    memory_mib: float = 0.0
    visits: int = 0
    """Left in memory once all of them had gone."""


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
        self._server, self.wave = server, Wave(clients)
        self._cookies = [let_in(server) for _ in range(clients + clients // KNOCKS_EACH)]

    async def come(self) -> Wave:
        """They come and go, and the owner opens one more window in the midst of them."""
        clients = self.wave.clients
        visits = [self._visit(number, cookie) for number, cookie in enumerate(self._cookies[:clients])]
        knocks = [self._knock(cookie) for cookie in self._cookies[clients:]]
        everybody = (*visits, *knocks, self._owner())
        await asyncio.gather(*(self._told(work, number) for number, work in enumerate(everybody)))
        return self.wave

    async def _told(self, work: Awaitable[None], number: int) -> None:
        try:
            await work
        except (LockedOut, InvalidHandshake) as error:
            self.wave.refused.append(f"client {number}: {error!r}")
        except (AssertionError, LookupError, OSError, WebSocketException) as error:
            self.wave.amiss.append(f"client {number}: {type(error).__name__}: {error}"[:500])

    async def _visit(self, number: int, cookie: str) -> None:
        began = time.monotonic()
        async with wire(self._server.host, cookie) as window:
            await window.register("/")
            await window.until(HOME, WITHIN_S)
            self.wave.first_s.append(time.monotonic() - began)
            for step in WALKS[number % len(WALKS)]:
                await self._step(window, *step)
            await GOING[(number + number // len(WALKS)) % len(GOING)](window)
        if number % BACK_EACH == 1:
            await self._come_back(cookie, window.session)

    async def _step(self, window: Wire, act: str, at: str, said: str) -> None:
        assert not said or not window.says(said), f"{said} is said before {act} {at}"
        began = time.monotonic()
        await (window.go(at) if act == "go" else window.press(at))
        if said:
            await window.until(said, WITHIN_S)
            self.wave.answer_s.append(time.monotonic() - began)
            self.wave.walks += said == events.WRITTEN

    async def _come_back(self, cookie: str, session: str) -> None:
        """To what was shown, as a phone does that lay locked: the page is there, and goes on from there."""
        self.wave.left += 1
        await asyncio.sleep(LOCKED_S)
        async with wire(self._server.host, cookie) as window:
            await window.register("/today", session)
            await window.until(HOME, WITHIN_S)
            self.wave.resumed += window.session == session
            await self._step(window, "go", "/plan", PLAN)

    async def _knock(self, cookie: str) -> None:
        """A socket that is gone before it has said who it is."""
        async with wire(self._server.host, cookie) as window:
            window.drop()

    async def _owner(self) -> None:
        """One more key, while everybody else is being served."""
        await asyncio.to_thread(let_in, self._server)


def wave_of(server: CrowdServer, clients: int, windows: int = 0) -> Wave:
    """One wave beside so many windows that stay open, and what it left in memory when its visits were over."""
    with strangers(server, STRANGERS) as waiting:
        wave = asyncio.run(Crowd(server, clients).come())
        wave.turned_away = turned_away(waiting)
    kept = server.swept(windows)
    wave.visits, wave.memory_mib = int(kept["visits"]), kept["memory_mib"]
    return wave
