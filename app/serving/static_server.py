"""A folder shown to the browser of this machine, as any web host would show it."""
from __future__ import annotations

import socket
from collections.abc import Callable
from pathlib import Path

import uvicorn
from starlette.applications import Starlette
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from app.domain.errors import PortTaken
from app.exchange.brands.web_shell import POLICY
from app.serving.half_open import MOST_HEAD, bounded_protocol
from app.serving.server import HOST, Loopback, listen

#: Always the same if it is free: a browser keeps an app's records by address and port.
USUAL_PORT = 8428
#: What a careful host sends along; the browser asks whether a file is new, since the app keeps its parts itself.
HEADERS = (
    (b"content-security-policy", POLICY.encode()), (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"), (b"cache-control", b"no-cache"),
)


class Folder:
    """An ASGI app that answers with the files of a folder and the headers that a careful host would send."""

    def __init__(self, folder: Path) -> None:
        self._files: ASGIApp = Starlette(routes=[Mount("/", StaticFiles(directory=folder, html=True))])

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                message = {**message, "headers": [*message.get("headers", ()), *HEADERS]}
            await send(message)

        if scope["type"] == "http":
            await self._files(scope, receive, with_headers)


class FolderServer(Loopback):
    """One folder on one loopback socket. `run()` serves until interrupted; `should_exit = True` ends it."""

    def __init__(self, folder: Path, *, port: int | None, on_ready: Callable[[str], None]) -> None:
        place = _open(port)
        config = uvicorn.Config(Folder(folder), log_level="warning", access_log=False, log_config=None, lifespan="off",
                                timeout_graceful_shutdown=2, http=bounded_protocol(),
                                h11_max_incomplete_event_size=MOST_HEAD)
        super().__init__(place, f"http://{HOST}:{place.getsockname()[1]}/", config, on_ready)


def serve_folder(folder: Path, *, port: int | None = None, on_ready: Callable[[str], None]) -> None:
    """Serves a folder to this machine's browser until interrupted; `on_ready` gets the address.

    Raises:
        PortTaken: the port that was asked for cannot be had.
    """
    FolderServer(folder, port=port, on_ready=on_ready).run()


def _open(port: int | None) -> socket.socket:
    if port:
        return listen(port)
    try:
        return listen(USUAL_PORT)
    except PortTaken:
        return listen(0)
