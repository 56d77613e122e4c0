"""Visits to a web app, timed by the page itself, and the memory that it takes."""
from __future__ import annotations

import json
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import BrowserContext, CDPSession, Page, Worker

from tests.browser.page_scripts import TREE_ON

MIB = 1024 * 1024
WAIT_MS = 120_000
#: From the start of the navigation to the first tree that holds the words, ms; the tree is asked for as soon as it can
#: be. Looked for at every frame, so that it costs both apps the same.
WATCH = """(() => { const wanted = %s, turnOn = %s;
  addEventListener('flutter-first-frame', () => { window.firstFrame = performance.now(); }, {once: true});
  const look = () => {
    const all = [...document.querySelectorAll('flt-semantics-host *')];
    if (!all.length) turnOn();
    else if (all.some(e => (e.getAttribute('aria-label') ?? (e.children.length ? '' : e.textContent)) === wanted)) {
      window.drawn = performance.now(); return; }
    requestAnimationFrame(look); };
  look(); })()"""
CONNECTED = "() => self.pyodide?._module?.HEAPU8?.byteLength ?? 0"


class Visit(NamedTuple):
    """ms from the start of the navigation: the client's first frame, and the page's own words."""

    first_frame: float
    drawn: float


class Memory(NamedTuple):
    """MiB: Python's WebAssembly memory, the scripts' own heap and buffers in page and worker, and the whole process."""

    python: float
    scripts: float
    process: float


def watched(context: BrowserContext, address: str, words: str) -> Page:
    """A new page at that address, which notes when it says exactly these words."""
    page = context.new_page()
    page.add_init_script(WATCH % (json.dumps(words), TREE_ON))
    page.goto(address, wait_until="commit")
    page.wait_for_function("() => window.drawn", timeout=WAIT_MS, polling=100)
    return page


def times(page: Page) -> Visit:
    """What the page noted."""
    return Visit(*page.evaluate("() => [window.firstFrame ?? 0, window.drawn]"))


def python_of(page: Page) -> Worker:
    """The page's worker in which Python runs."""
    return next(one for one in page.workers if one.url.endswith("python-worker.js"))


def memory(page: Page, quiet_ms: int = 3_000) -> Memory:
    """What an open page takes once it rests. The process is 0 where it cannot be looked at, which needs Linux."""
    page.wait_for_timeout(quiet_ms)
    cdp = page.context.new_cdp_session(page)
    cdp.send("HeapProfiler.collectGarbage")
    used = cdp.send("Runtime.getHeapUsage")
    python = python_of(page).evaluate(CONNECTED)
    scripts = used["usedSize"] + used.get("backingStorageSize", 0)
    return Memory(python / MIB, scripts / MIB, process_bytes(page, cdp) / MIB)


def process_bytes(page: Page, cdp: CDPSession) -> int:
    """The page's own process, pages that it shares with others counted in part (PSS)."""
    browser = page.context.browser
    assert browser
    processes = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")["processInfo"]
    found = [proportional(one["id"]) for one in processes if one["type"] == "renderer"]
    return max(found, default=0)


def proportional(pid: int) -> int:
    """Bytes of a process, as Linux counts them."""
    path = Path(f"/proc/{pid}/smaps_rollup")
    lines = path.read_text("ascii").splitlines() if path.exists() else []
    return sum(int(line.split()[1]) * 1024 for line in lines if line.startswith("Pss:"))
