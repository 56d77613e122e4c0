"""Connections that have not asked for anything yet: a few, for a few seconds, the newest first.

Any program on this machine can connect. One that opens hundreds of connections and asks for nothing would use up what
the system allows; so the one that has waited longest goes when there are too many, and the owner's browser, which asks
at once, always finds room. A request has a bounded head.
"""
from __future__ import annotations

import asyncio
from functools import partial
from typing import Any

from uvicorn.protocols.http.h11_impl import H11Protocol

#: How many may wait, and how long for the head of a request to be whole.
MOST_WAITING, WAIT_S = 64, 10.0
#: Bytes of the head of a request. The app's own cookie, addresses and headers take two.
MOST_HEAD = 16 * 1024


class HalfOpen:
    """Those of one server, the one that has waited longest first."""

    def __init__(self, most: int = MOST_WAITING, wait_s: float = WAIT_S) -> None:
        self.most, self.wait_s = most, wait_s
        self._waiting: dict[asyncio.Transport, asyncio.TimerHandle] = {}

    def __len__(self) -> int:
        return len(self._waiting)

    def add(self, transport: asyncio.Transport) -> None:
        """Begins to wait; one too many, and the first one goes."""
        if transport not in self._waiting:
            loop = asyncio.get_running_loop()
            self._waiting[transport] = loop.call_later(self.wait_s, self._give_up, transport)
        while len(self._waiting) > self.most:
            self._give_up(next(iter(self._waiting)))

    def done(self, transport: asyncio.Transport) -> None:
        """It has asked, or is gone."""
        timer = self._waiting.pop(transport, None)
        if timer is not None:
            timer.cancel()

    def _give_up(self, transport: asyncio.Transport) -> None:
        self.done(transport)
        transport.abort()


class BoundedProtocol(H11Protocol):
    """HTTP with a bounded number of connections that have not asked yet."""

    def __init__(self, *args: Any, half_open: HalfOpen, **more: Any) -> None:
        super().__init__(*args, **more)
        self._half_open = half_open

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """It waits until it has asked."""
        super().connection_made(transport)
        self._half_open.add(transport)

    def data_received(self, data: bytes) -> None:
        """Part of a request, or all of it; a second one waits as the first did."""
        transport = self.transport
        if self.cycle is None or self.cycle.response_complete:
            self.headers = None  # type: ignore[assignment]
            self._half_open.add(transport)
        super().data_received(data)
        if self.headers is not None:
            self._half_open.done(transport)

    def connection_lost(self, exc: Exception | None) -> None:
        """Whoever is gone waits no more."""
        self._half_open.done(self.transport)
        super().connection_lost(exc)


def bounded_protocol() -> Any:
    """What makes the protocol of each connection of one server; for `uvicorn.Config(http=…)`."""
    return partial(BoundedProtocol, half_open=HalfOpen())
