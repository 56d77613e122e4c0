"""A window that goes, also while it is being drawn in, ends its visit as any other."""
from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Iterable
from typing import Any

import flet as ft
import msgpack
import pytest
from fastapi import WebSocket
from flet_web.fastapi import app_manager

from app.serving.closed_windows import SOCKET, ClosedWindows, Window
from app.serving.gate import Message, Receive, Scope, Send

REGISTER = b"\x00" + msgpack.packb([1, {"session_id": "", "page_name": "", "page": {"route": "/"}}])
WITHIN_S = 5.0


class Drawn:
    """A window that only draws, and notes what it came to."""

    def __init__(self) -> None:
        self.done: list[str] = []

    async def handle(self, socket: WebSocket) -> None:
        """Accepts it and draws two pictures."""
        await socket.accept()
        for number in range(2):
            await socket.send_bytes(b"%d" % number)
            self.done.append(f"sent {number}")


async def page_that_fails(scope: Scope, receive: Receive, send: Send) -> None:
    """Flet's own app."""
    await send({"type": "http.response.start", "status": 200, "headers": []})


async def shut(message: Message) -> None:
    """The other end is gone."""
    if message["type"] != "websocket.accept":
        raise ConnectionResetError


async def opened(window: Any, messages: Iterable[Message], kind: str = "websocket") -> None:
    """A window whose browser says these, and after them that it is gone."""
    said = iter([{"type": "websocket.connect"}, *messages, {"type": "websocket.disconnect", "code": 1006}])

    async def receive() -> Message:
        await asyncio.sleep(0.01)
        return next(said)

    scope = {"type": kind, "path": SOCKET, "headers": [], "query_string": b"", "scheme": "ws",
             "server": ("127.0.0.1", 1)}
    loop = asyncio.get_running_loop()
    began = loop.time()
    await asyncio.wait_for(ClosedWindows(page_that_fails, lambda: window)(scope, receive, shut), WITHIN_S)
    assert loop.time() - began < WITHIN_S, "it ended only because the test did not wait longer"


def flets(main: Callable[[ft.Page], Awaitable[None]]) -> Window:
    """Flet's own window, of which no visit is kept."""
    return Window(asyncio.get_running_loop(), app_manager.executor, main, None, session_timeout_seconds=0)


def test_what_is_still_on_its_way_to_a_closed_window_is_dropped() -> None:
    """What draws goes on to its end."""
    window = Drawn()
    asyncio.run(opened(window, []))
    assert window.done == ["sent 0", "sent 1"]


def test_a_page_that_cannot_be_sent_is_an_error_as_before() -> None:
    """Only a window has a visit to end."""
    with pytest.raises(ConnectionResetError):
        asyncio.run(opened(Drawn(), [], "http"))


def test_whatever_is_drawn_or_asked_while_it_goes_fails_nobody(caplog: pytest.LogCaptureFixture) -> None:
    """In each turn of the loop, before, while and after Flet lets go of it."""
    async def story() -> tuple[int, list[BaseException]]:
        turns, failed, over = 0, list[BaseException](), asyncio.Event()

        async def draw(page: ft.Page) -> None:
            nonlocal turns
            while not over.is_set():
                turns += 1
                try:
                    page.session.error("drawn")
                except Exception as error:
                    failed.append(error)
                await asyncio.sleep(0)

        async def main(page: ft.Page) -> None:
            drawing.append(asyncio.create_task(draw(page)))

        drawing: list[asyncio.Task[None]] = []
        await opened(flets(main), [{"type": "websocket.receive", "bytes": REGISTER}])
        over.set()
        await asyncio.gather(*drawing)
        return turns, failed

    with caplog.at_level(logging.ERROR):
        turns, failed = asyncio.run(story())
    assert turns > 2 and not failed and not caplog.records


def test_a_window_that_never_said_who_it_is_is_let_go() -> None:
    """Flet would wait for it until the program ends."""
    async def story() -> int:
        async def main(page: ft.Page) -> None:
            """Nobody is shown anything."""

        await opened(flets(main), [])
        await asyncio.sleep(0)
        return len(asyncio.all_tasks())

    assert asyncio.run(story()) == 1
