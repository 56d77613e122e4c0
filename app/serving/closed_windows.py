"""A window that is closed while it is being drawn in: what is on its way is dropped, and the visit ends as any other.

Flet begins to count a visit's last half hour once everything has been sent. A failure to send would come before that,
and the visit, with all that it drew, would be kept until the program ends.
"""
from __future__ import annotations

import contextlib

from app.serving.gate import App, Message, Receive, Scope, Send


class ClosedWindows:
    """An ASGI app around Flet's own."""

    def __init__(self, app: App) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def send_if_open(message: Message) -> None:
            with contextlib.suppress(OSError):  # as servers say that the other end is gone
                await send(message)

        await self._app(scope, receive, send_if_open if scope["type"] == "websocket" else send)
