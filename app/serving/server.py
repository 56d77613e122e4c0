"""The app in the browser of this machine, for its owner alone: a loopback port behind the gate of `gate.py`.

The address that is printed carries a key that opens once; a page in the data directory, readable by its owner alone,
leads in again.
"""
from __future__ import annotations

import asyncio
import contextlib
import os
import socket
from collections.abc import Awaitable, Callable, Mapping
from pathlib import Path

import flet as ft
import flet_web.fastapi
import uvicorn
from flet_web.fastapi.flet_app_manager import app_manager

from app.data_folder import OLD_KEY, WAY_IN
from app.device.track_folder import swept
from app.domain.branding.brand import EVENLOAD, Brand
from app.domain.errors import PortTaken
from app.serving.client_page import ClientPage
from app.serving.closed_windows import ClosedWindows, Window
from app.serving.gate import App, Gate
from app.serving.half_open import MOST_HEAD, bounded_protocol
from app.serving.overlay import Overlay
from app.serving.tracks import FOLDER, Tracks
from app.serving.way_in import Keys, WayInPage

HOST = "127.0.0.1"
#: Tried first, so that the browser finds its settings again; any free port does as well.
USUAL_PORT = 8427
#: How long a visit is kept after its page has gone: a phone may lie locked between the check-in and the start.
VISIT_S = 30 * 60
#: A programme of the largest size allowed must come through in one message.
LARGEST_MESSAGE = 256 * 1024 * 1024

Main = Callable[[ft.Page], Awaitable[None] | None]


def address(port: int, key: str, path: str = "/") -> str:
    """The address to open. It carries a key, so it is for the owner's eyes."""
    return f"http://{HOST}:{port}{path}{'&' if '?' in path else '?'}key={key}"


def open_socket(port: int | None) -> socket.socket:
    """A listening loopback socket: on `port`, or where none is asked for on the usual or else any free one.

    Raises:
        PortTaken: `port` was asked for and cannot be had.
    """
    if port:
        return listen(port)
    try:
        return listen(USUAL_PORT)
    except PortTaken:
        return listen(0)


def listen(port: int) -> socket.socket:
    """A socket that listens on the loopback address. 0: on a port of the system's choice.

    Raises:
        PortTaken: it cannot be had.
    """
    place = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        # Elsewhere the option means "although it was in use a moment ago"; on Windows, "although it is in use".
        if os.name != "nt":
            place.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        place.bind((HOST, port))
        place.listen()
    except (OSError, OverflowError) as refused:
        place.close()
        raise PortTaken(port=port) from refused
    return place


def flet_app(main: Main, assets_dir: Path, brand: Brand = EVENLOAD) -> App:
    """Flet's own app, its page changed: path addresses, and nothing fetched from elsewhere."""
    whole: App = flet_web.fastapi.app(
        main, assets_dir=str(assets_dir.resolve()), app_name=brand.name, app_short_name=brand.short_name,
        app_description=brand.description, no_cdn=True, session_timeout_seconds=VISIT_S,
    )
    def window() -> Window:
        return Window(asyncio.get_running_loop(), app_manager.executor, main, None, session_timeout_seconds=VISIT_S)

    return ClientPage(ClosedWindows(whole, window), assets_dir, brand)


class Loopback(uvicorn.Server):
    """One socket of this machine, and what answers on it; `on_ready` gets the address once it does."""

    def __init__(self, place: socket.socket, address: str, config: uvicorn.Config, on_ready: Callable[[str], None]
                 ) -> None:
        self.socket, self.address, self._on_ready = place, address, on_ready
        super().__init__(config)

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Hands out the address once it answers."""
        await super().startup(sockets)
        if self.started:
            self._on_ready(self.address)

    def run(self, sockets: list[socket.socket] | None = None) -> None:
        """Serves until interrupted or told to end."""
        with contextlib.suppress(KeyboardInterrupt):
            super().run(sockets or [self.socket])


class Server(Loopback):
    """One app on one socket. `run()` serves until interrupted; `should_exit = True` from elsewhere ends it.

    It listens as soon as it is made, so a port that cannot be had shows at once.
    """

    def __init__(self, main: Main, *, data_dir: Path, assets_dir: Path, port: int | None = None,
                 on_ready: Callable[[str], None], brand: Brand = EVENLOAD,
                 files: Mapping[str, bytes] | None = None, start: str = "/", name: str | None = None) -> None:
        place = open_socket(port)
        self.port = int(place.getsockname()[1])
        keys = Keys()
        self.way_in = WayInPage(data_dir / WAY_IN, keys, lambda key: address(self.port, key, start))
        (data_dir / OLD_KEY).unlink(missing_ok=True)
        site = Overlay(Tracks(flet_app(main, assets_dir, brand), swept(data_dir / FOLDER)), files or {})
        own_name = f"{brand.id}.localhost" if name is None else name
        gate = Gate(site, port=self.port, keys=keys, name=own_name, brand=brand)
        config = uvicorn.Config(gate, log_level="warning", access_log=False, log_config=None,
                                ws="websockets-sansio", ws_max_size=LARGEST_MESSAGE, timeout_graceful_shutdown=2,
                                http=bounded_protocol(), h11_max_incomplete_event_size=MOST_HEAD)
        super().__init__(place, address(self.port, keys.new(), start), config, on_ready)

    def run(self, sockets: list[socket.socket] | None = None) -> None:
        """Serves until interrupted or told to end; the way in ends with it."""
        try:
            super().run(sockets)
        finally:
            self.way_in.remove()


def serve(main: Main, *, data_dir: Path, assets_dir: Path, port: int | None = None,
          on_ready: Callable[[str], None], brand: Brand = EVENLOAD, files: Mapping[str, bytes] | None = None,
          start: str = "/", name: str | None = None) -> None:
    """Serves `main` to this machine's browser until interrupted; `on_ready` gets the address to print or open.

    Without a `port`, or with 0, one is chosen. `files`, by path, lie over the assets. `start` is the page that
    the address leads to. `name`: the host name it moves to where the browser finds it; by default one below `localhost`
    after the brand, none if empty. It needs no display.

    Raises:
        PortTaken: the port that was asked for cannot be had.
    """
    Server(main, data_dir=data_dir, assets_dir=assets_dir, port=port, on_ready=on_ready, brand=brand,
           files=files, start=start, name=name).run()
