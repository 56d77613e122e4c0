"""The app as its server process, beside a bare Flet app: how soon its first screen can be used, and its memory.

A start is counted from the making of the process to the moment when the page says certain words; the browser is open
before, each visit in a fresh window with an empty cache.
"""
from __future__ import annotations

import re
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple
from urllib.parse import urlsplit

from playwright.sync_api import Browser, sync_playwright

from app.data_folder import WAY_IN
from app.words.client import today
from tests.bench.measured.bare_flet import WORDS as BARE_WORDS
from tests.bench.versions import HERE, PACKAGE, CannotMeasure, Version
from tests.bench.web_visits import MIB, watched
from tests.browser.driver import Walker
from tests.browser.server import way_in
from tests.browser.session import Session
from tests.browser.window import launch

BARE = "bare"
PLAYED_MS, SETTLED_MS = 12_000, 3_000
"""How long the player runs, and a page rests, before its server's memory is read."""


class Visit(NamedTuple):
    """ms from the making of the process, and MiB that it holds in the end."""

    start_ms: float
    memory_mib: float


@dataclass(frozen=True)
class Started:
    """A server, and when it was made on the wall clock, ms."""

    address: str
    began_ms: float
    pid: int

    def at(self, path: str) -> str:
        """The address of a page, with the key."""
        return self.address.replace("/?", f"{path}?")


def free_port() -> int:
    """One that nobody listens on now."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


@contextmanager
def started(version: Version, module: str, *arguments: object) -> Iterator[Started]:
    """A process that prints its address, until the end of the block."""
    began = time.time() * 1000
    with subprocess.Popen(version.command(module, *arguments), cwd=version.root, env=version.environment(), text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
        try:
            assert process.stdout
            address = process.stdout.readline().strip()
            if not urlsplit(address).port:
                raise CannotMeasure(f"{version.name}, {module}: it did not start")
            yield Started(address, began, process.pid)
        finally:
            process.terminate()
            try:
                process.wait(10)
            except subprocess.TimeoutExpired:
                process.kill()


def resident(pid: int) -> float:
    """MiB of a process as Linux counts them; 0 elsewhere."""
    path = Path(f"/proc/{pid}/status")
    found = re.search(r"VmRSS:\s+(\d+) kB", path.read_text("ascii")) if path.exists() else None
    return int(found.group(1)) * 1024 / MIB if found else 0.0


def start_ms(browser: Browser, server: Started, words: str) -> float:
    """Until the page says these words."""
    with browser.new_context(viewport={"width": 412, "height": 915}, reduced_motion="reduce") as context:
        page = watched(context, server.address, words)
        drawn: float = page.evaluate("() => performance.timeOrigin + window.drawn")
        page.wait_for_timeout(SETTLED_MS)
    return drawn - server.began_ms


def bare(browser: Browser) -> Visit:
    """One text on a page, looked at once and again for as long as a player would run."""
    with started(HERE, f"{PACKAGE}.bare_flet", free_port()) as server:
        found = start_ms(browser, server, BARE_WORDS)
        with browser.new_context() as context:
            watched(context, server.address, BARE_WORDS).wait_for_timeout(PLAYED_MS)
            return Visit(found, resident(server.pid))


def whole(browser: Browser, version: Version, folder: Path) -> Visit:
    """Today, where this morning's answers are in, and then the player, running."""
    ready, data = folder / version.name, folder / f"{version.name} played"
    if not ready.exists():
        version.run("tests.browser.prepared", "ready", ready)
    shutil.rmtree(data, ignore_errors=True)  # a session under way would be offered instead of a start
    shutil.copytree(ready, data)
    with started(version, "tests.browser.app_process", data, "--port", free_port()) as server:
        found = start_ms(browser, server, today.START)
        if (data / WAY_IN).exists():  # its address opened once; an older checkout's opens always
            server = replace(server, address=way_in(data))
        with Walker(browser) as walker:
            walker.page.emulate_media(reduced_motion="no-preference")
            Session(walker.open(server.at("/play"))).start()
            walker.page.wait_for_timeout(PLAYED_MS)
            assert "/play" in walker.page.url
            visit = Visit(found, resident(server.pid))
    return visit


def visits(versions: tuple[Version, ...], turns: int, chromium: str) -> dict[str, list[Visit]]:
    """By version, and under `bare` the floor: all of them once in each turn."""
    found: dict[str, list[Visit]] = {name: [] for name in (BARE, *(one.name for one in versions))}
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = launch(playwright, chromium)
        for _ in range(turns):
            found[BARE].append(bare(browser))
            for version in versions:
                found[version.name].append(whole(browser, version, Path(folder)))
        browser.close()
    return found
