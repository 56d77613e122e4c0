"""A Chromium of its own that can be killed at once with all its processes, and started again on the same profile."""
from __future__ import annotations

import os
import re
import signal
import subprocess
import time
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Playwright

FLAGS = ("--headless=new", "--remote-debugging-port=0", "--no-first-run", "--disable-gpu-sandbox",
         "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1", "--autoplay-policy=no-user-gesture-required")
WITHIN_S = 30.0


class Chromium:
    """One running browser, driven over its debugging port."""

    def __init__(self, playwright: Playwright, path: str, profile: Path) -> None:
        told = profile / "DevToolsActivePort"
        told.unlink(missing_ok=True)
        rootless = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
        self._process = subprocess.Popen([path, *FLAGS, *rootless, f"--user-data-dir={profile}", "about:blank"],
                                         stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        self.browser: Browser = playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{_port(told)}")

    @property
    def context(self) -> BrowserContext:
        """The profile's own context: what it keeps is there after a restart."""
        return self.browser.contexts[0]

    def kill(self) -> None:
        """SIGKILL to every process of it, with no chance to write anything."""
        ours = {self._process.pid, *_below(self._process.pid)}
        for one in ours:
            try:
                os.kill(one, signal.SIGKILL)
            except ProcessLookupError:
                continue
        self._process.wait()
        end = time.monotonic() + WITHIN_S
        while any(_is_running(one) for one in ours) and time.monotonic() < end:
            time.sleep(0.02)


def _port(told: Path) -> int:
    end = time.monotonic() + WITHIN_S
    while time.monotonic() < end:
        if told.is_file() and (found := re.match(r"(\d+)\n", told.read_text())):
            return int(found[1])
        time.sleep(0.05)
    raise TimeoutError("the browser did not start")


def _below(top: int) -> set[int]:
    """Every process started by one, and by those."""
    parents = {}
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                parents[int(entry.name)] = int((entry / "stat").read_text().rpartition(")")[2].split()[1])
            except OSError:
                continue
    found, ahead = set[int](), [top]
    while ahead:
        one = ahead.pop()
        children = [pid for pid, parent in parents.items() if parent == one]
        found.update(children)
        ahead += children
    return found


def _is_running(pid: int) -> bool:
    try:
        return (Path("/proc") / str(pid) / "stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False
