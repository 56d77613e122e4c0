"""A window that has gone, also in the midst of being drawn: what is on its way is dropped, and the visit ends as any.

Flet begins to count a visit's last half hour once everything has been sent. A failure to send would come before that,
and the visit, with all that it drew, would be kept until the program ends. For a moment after that Flet has no queue to
send by and still takes the window for open: whatever is drawn or asked then would fail, and what draws the visit with
it, so that it stood still for whoever came back. For a window that never said who it is Flet would wait for ever.
"""
from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Callable

from fastapi import WebSocket
from flet.messaging.protocol import Message as Told
from flet_web.fastapi.flet_app import FletApp

from app.serving.gate import App, Message, Receive, Scope, Send

SOCKET = "/ws"


class Window(FletApp):
    """Flet's own end of a window."""

    def send_message(self, message: Told) -> None:
        """Sends it; nothing once the window has gone, as Flet itself does with frames of bytes."""
        if getattr(self, "_FletApp__send_queue", None) is not None:
            super().send_message(message)


class ClosedWindows:
    """An ASGI app around Flet's own, whose windows it opens itself, each made by `window`."""

    def __init__(self, app: App, window: Callable[[], Window]) -> None:
        self._app, self._window = app, window

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "websocket" or scope["path"] != SOCKET:
            await self._app(scope, receive, send)
            return

        async def send_if_open(message: Message) -> None:
            with contextlib.suppress(OSError):  # as servers say that the other end is gone
                await send(message)

        heard = gone_unheard = False

        async def hear() -> Message:
            nonlocal heard, gone_unheard
            message = await receive()
            heard = heard or message["type"] == "websocket.receive"
            if message["type"] == "websocket.disconnect" and not heard:
                gone_unheard = True
                asyncio.get_running_loop().call_soon(open_window.cancel)
            return message

        open_window = asyncio.ensure_future(self._window().handle(WebSocket(scope, hear, send_if_open)))
        try:
            await open_window
        except asyncio.CancelledError:
            if not gone_unheard:
                raise
