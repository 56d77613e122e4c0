"""A window that goes while it is being drawn in ends its visit as any other."""
from __future__ import annotations

import asyncio

import pytest

from app.serving.closed_windows import ClosedWindows
from app.serving.gate import Message, Receive, Scope, Send


def told(kind: str) -> list[str]:
    """What an app behind it comes to, whose other end is gone."""
    done: list[str] = []

    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        for number in range(2):
            await send({"type": "websocket.send", "bytes": b"%d" % number})
            done.append(f"sent {number}")
        done.append("ended")

    async def receive() -> Message:
        return {"type": "websocket.disconnect"}

    async def send(message: Message) -> None:
        raise ConnectionResetError

    asyncio.run(ClosedWindows(app)({"type": kind}, receive, send))
    return done


def test_what_is_still_on_its_way_to_a_closed_window_is_dropped() -> None:
    """The app behind goes on to the end of the visit."""
    assert told("websocket") == ["sent 0", "sent 1", "ended"]


def test_a_page_that_cannot_be_sent_is_an_error_as_before() -> None:
    """Only a window has a visit to end."""
    with pytest.raises(ConnectionResetError):
        told("http")
