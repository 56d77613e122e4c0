"""The server that a crowd comes to, and its owner's way in, also past strangers who connect and ask for nothing."""
from __future__ import annotations

import json
import os
import signal
import socket
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from http.client import HTTPConnection
from urllib.parse import urlsplit

from tests.browser.server import Server
from tests.trust.crowd_app import COUNT

WITHIN_S = 120.0
"""For an answer: a hundred times what it takes on a machine that does nothing else."""
SWEPT_WITHIN_S = 60.0
"""Until a visit that is over has left memory: it is kept for seconds, and Flet looks each ten."""
HELD = 1
"""Visits that are over and still in memory: Flet's look for those that are over holds the last one that it found."""


class LockedOut(AssertionError):
    """The owner was refused."""


class CrowdServer(Server):
    """The app on a data directory, which says what it keeps in memory."""

    module = "tests.trust.crowd_app"

    @property
    def host(self) -> str:
        """Its address and port."""
        return f"127.0.0.1:{self.port}"

    @property
    def log(self) -> list[str]:
        """Every line that it has logged so far: warnings and worse."""
        return [line for line in self._log.read_text("utf-8").splitlines() if line.strip()]

    def count(self) -> dict[str, float]:
        """What is left of its visits, and its memory."""
        assert self._process
        place = self.data_dir.parent / COUNT
        place.unlink(missing_ok=True)
        os.kill(self._process.pid, signal.SIGUSR1)
        end = time.monotonic() + WITHIN_S
        while not place.exists():
            assert time.monotonic() < end and self._process.poll() is None, self.log
            time.sleep(0.05)
        found: dict[str, float] = json.loads(place.read_text())
        return found

    def swept(self, windows: int = 0) -> dict[str, float]:
        """The same, once no more visits are left than so many open windows have, or after a while.

        That one which Flet still holds is not counted.
        """
        end = time.monotonic() + SWEPT_WITHIN_S
        while (found := self.count())["visits"] > windows + HELD and time.monotonic() < end:
            time.sleep(1)
        return found | {"visits": max(0, found["visits"] - windows - HELD)}


def let_in(server: CrowdServer) -> str:
    """A cookie for a key of the page beside the data, as its owner's browser gets one; each key opens once.

    Raises:
        LockedOut: it does not open.
    """
    parts, cookie = urlsplit(server.address), ""
    for asked, status in ((f"{parts.path}?{parts.query}", 303), ("/", 200)):
        gate = HTTPConnection(server.host, timeout=WITHIN_S)
        try:
            gate.request("GET", asked, headers={"Cookie": cookie} if cookie else {})
            answer = gate.getresponse()
        except OSError as error:
            raise LockedOut(f"no answer at {parts.path}: {error!r}") from error
        finally:
            gate.close()
        cookie = cookie or (answer.headers["set-cookie"] or "").partition(";")[0]
        if answer.status != status:
            raise LockedOut(f"{answer.status} and not {status}")
    return cookie


@contextmanager
def strangers(server: CrowdServer, number: int) -> Iterator[list[socket.socket]]:
    """So many connections that ask for nothing."""
    with ExitStack() as open_ones:
        yield [open_ones.enter_context(socket.create_connection(("127.0.0.1", server.port), WITHIN_S))
               for _ in range(number)]


def turned_away(connections: list[socket.socket]) -> int:
    """How many of them were closed from the other end."""
    return sum(_is_closed(one) for one in connections)


def _is_closed(connection: socket.socket) -> bool:
    connection.setblocking(False)
    try:
        return connection.recv(1) == b""
    except BlockingIOError:
        return False
    except ConnectionError:
        return True
