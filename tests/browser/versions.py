"""Two versions of the offline web app, a host that goes from one to the other, and what a browser has of each."""
from __future__ import annotations

import json
import re
import threading
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import Page

from app import __version__
from app.exchange.brands.brand_file import read_brand_files
from app.storage.schema import LINEAGE
from app.words.client import welcome
from tests.browser.lab import LAB_FILES
from tests.browser.static_site import StaticSite
from tests.browser.web_app import BRANDS, ROOT, shell_files, with_files, write_app
from tests.storage.test_schema import NEXT

WELCOME = "app/words/client/welcome.py"
NEW, HEAD, GREETING = "9.8.7", "9999", "Welcome to the newer version"
#: Of another engine than the browser here; no part of what it keeps, unless it was asked for.
ASKED, UNASKED = "main.dart.js", "canvaskit/chromium/canvaskit.js"
#: What differs in the newer version, in the order in which it is fetched. `memory.mjs` names the parts of Python.
CHANGED = ("app.bin", ASKED, "memory.mjs", "parts.mjs")
#: What every start asks of the host: whether there is a newer version, and whether there is a host.
PROBES = {"/sw.js", "/version.json"}
STATE = """() => navigator.serviceWorker.getRegistration().then(known =>
  known?.installing ? "coming" : known?.waiting ? "waits" : known?.active?.state)"""
KEPT = """async () => { const found = [];
  for (const name of await caches.keys())
    for (const one of await (await caches.open(name)).keys()) found.push(new URL(one.url));
  return found.map(url => [url.pathname.slice(1), url.searchParams.get("hash")]); }"""
SERVED = """async name => { const body = await (await fetch(name)).arrayBuffer();
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return [...sum].map(byte => byte.toString(16).padStart(2, "0")).join("").slice(0, 32); }"""


class Host(StaticSite):
    """A host whose folder is exchanged for a newer one, and what may be amiss with it meanwhile."""

    def __init__(self, folder: Path) -> None:
        self.wrong: dict[str, bytes] = {}
        self.dies_at = ""
        self.is_dead = False
        self._held, self._let_go = "", threading.Event()
        super().__init__({"/": folder}, LAB_FILES)

    def publish(self, folder: Path, held: str = "") -> None:
        """From now on another version, one file of which is not sent before `let_go`."""
        self._held, self.folders = held, {"/": folder}
        self.asked.clear()

    def let_go(self) -> None:
        """Sends what was held."""
        self._let_go.set()

    def found(self, path: str) -> bytes | None:
        name = path.lstrip("/")
        self.is_dead = self.is_dead or name == self.dies_at != ""
        if self.is_dead:
            raise ConnectionAbortedError
        if name == self._held != "":
            self._let_go.wait(60)
        return self.wrong.get(name) or super().found(path)

    def wait_for(self, path: str, page: Page) -> None:
        """Until it was asked for a file."""
        for _ in range(1200):
            if path in self.asked:
                return
            page.wait_for_timeout(50)
        raise AssertionError(f"{path} was not asked for: {self.asked}")


class Versions(NamedTuple):
    """Two folders for a host."""

    old: Path
    new: Path


def make_versions(place: Path) -> Versions:
    """Today's sources; and the same with another version, greeting, file of the page and migration."""
    shell, whole = shell_files(), read_brand_files(BRANDS / "evenload.toml")
    old = write_app(place / "old", dict(shell), whole)
    shell["app.bin"] = with_files(shell["app.bin"], {name: text.encode() for name, text in newer_sources().items()})
    for name in (*CHANGED[1:], UNASKED):
        shell[name] += b"\n"
    return Versions(old, write_app(place / "new", shell, whole))


def newer_sources() -> dict[str, str]:
    """What a programmer would have written for the newer version."""
    def changed(name: str, before: str, after: str) -> str:
        text = (ROOT / name).read_text("utf-8")
        assert text.count(before) == 1, (name, before)
        return text.replace(before, after)

    revisions = json.dumps(LINEAGE.revisions)[1:-1]
    return {
        "app/__init__.py": changed("app/__init__.py", f'"{__version__}"', f'"{NEW}"'),
        WELCOME: changed(WELCOME, f'\nTITLE = "{welcome.TITLE}"', f'\nTITLE = "{GREETING}"'),
        "app/storage/schema.py": changed("app/storage/schema.py", f"({revisions})", f'({revisions}, "{HEAD}")'),
        f"migrations/versions/{HEAD}_next.py": NEXT.format(before=LINEAGE.head, more="pass"),
    }


def hashes(folder: Path) -> dict[str, str]:
    """Which file has which hash, as the service worker of a folder knows it."""
    told = re.search(r"const PARTS = (\{.*?\});", (folder / "sw.js").read_text("utf-8"))
    assert told
    parts: dict[str, str] = json.loads(told[1])
    return parts


def wait_until(page: Page, state: str) -> None:
    """Until the newer version is on its way, waits, or the page's version is `activated` and no other is there."""
    for _ in range(1200):
        if page.evaluate(STATE) == state:
            return
        page.wait_for_timeout(50)
    raise AssertionError(page.evaluate(STATE))


def kept(page: Page) -> dict[str, set[str]]:
    """Which versions of each file of the app the browser keeps; Python's memory, which it made itself, is none."""
    found: dict[str, set[str]] = {}
    for name, sum_ in page.evaluate(KEPT):
        if name != "memory.bin":
            found.setdefault(name, set()).add(sum_)
    return found


def assert_served(page: Page, folder: Path) -> None:
    """The page is given this version of every file that differs, as far as it ever asked for it."""
    parts, there = hashes(folder), kept(page)
    names = [name for name in CHANGED if name != ASKED or ASKED in there]
    assert {name: page.evaluate(SERVED, name) for name in names} == {name: parts[name] for name in names}
