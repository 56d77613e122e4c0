"""The app's process as tests see it: started on a data directory, killed, started again at the same address."""
from __future__ import annotations

import html
import os
import re
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Self
from urllib.parse import urlsplit

from app.data_folder import WAY_IN

ROOT = Path(__file__).resolve().parents[2]
#: The server framework complains when a window is closed while it is being drawn in.
PAGE_GONE = re.compile(r"WebSocketDisconnect|ClientDisconnected|ConnectionClosed")


def surroundings() -> dict[str, str]:
    """Environment variables of a process: days begin at the same moment on every machine."""
    return dict(os.environ) | {"TZ": "UTC"}


def way_in(data_dir: Path) -> str:
    """The address that opens next, which the server keeps beside the data."""
    page = (data_dir / WAY_IN).read_text("utf-8")
    return html.unescape(page.partition('href="')[2].partition('"')[0])


class Server:
    """One data directory, served at one address. `more` are arguments of `app_process`."""

    module = "tests.browser.app_process"

    def __init__(self, data_dir: Path, *more: str) -> None:
        self.data_dir = data_dir
        self.more = list(more)
        self.port = 0
        self._log = data_dir.parent / f"{data_dir.name}.log"
        self._process: subprocess.Popen[str] | None = None
        self._told: str | None = None

    def start(self) -> Self:
        """Starts it, at the address that it had before if it had one."""
        port = ["--port", str(self.port)] if self.port else ["--port", str(_free_port())]
        command = [sys.executable, "-m", self.module, str(self.data_dir), *port, *self.more]
        with self._log.open("a", encoding="utf-8") as log:
            self._process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=log, text=True,
                                             env=surroundings())
        assert self._process.stdout
        told = self._process.stdout.readline().strip()
        assert told, f"the app did not start:\n{self.complaints()}"
        self.port = int(urlsplit(told).port or 0)
        return self

    @property
    def address(self) -> str:
        """An address that opens once, another one each time that the last was used."""
        return way_in(self.data_dir)

    def at(self, path: str) -> str:
        """The address of a page, with the key."""
        return self.address.replace("/?", f"{path}?")

    def kill(self) -> float:
        """`kill -9`. The moment of it, on the machine's monotonic clock, s."""
        assert self._process
        self._process.send_signal(signal.SIGKILL)
        moment = time.monotonic()
        self._process.wait()
        return moment

    def stop(self) -> None:
        """Ends it. What it says while being ended with a window still open does not count."""
        self._told = self.complaints()
        if self._process and self._process.poll() is None:
            self._process.terminate()
            try:
                self._process.wait(10)
            except subprocess.TimeoutExpired:
                self._process.kill()
                self._process.wait()

    def complaints(self) -> str:
        """What it said about things that went wrong until it was ended, closed windows left out."""
        if self._told is not None:
            return self._told
        log = self._log.read_text("utf-8") if self._log.exists() else ""
        told = re.split(r"^(?=ERROR:|Task exception|Exception in)", log, flags=re.MULTILINE)
        return "".join(one for one in told if not PAGE_GONE.search(one))


def _free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])
