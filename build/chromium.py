"""A Chromium for the browser tests: one that is here, else Debian's package, else the browser driver's own download."""
from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

ON_PATH = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge",
           "microsoft-edge-stable", "msedge")
ON_MAC = ("Chromium.app/Contents/MacOS/Chromium", "Google Chrome.app/Contents/MacOS/Google Chrome",
          "Microsoft Edge.app/Contents/MacOS/Microsoft Edge")
ON_WINDOWS = ("Chromium/Application/chrome.exe", "Google/Chrome/Application/chrome.exe",
              "Microsoft/Edge/Application/msedge.exe")
WINDOWS_ROOTS = ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")


def places(env: Mapping[str, str], platform: str) -> Iterator[Path]:
    """Where an installed browser may be, the likeliest first. What EVENLOAD_BROWSER names comes before all."""
    if named := env.get("EVENLOAD_BROWSER"):
        yield Path(named)
    for name in ON_PATH:
        if found := shutil.which(name, path=env.get("PATH")):
            yield Path(found)
    if platform == "darwin":
        for root in ("/Applications", str(Path.home() / "Applications")):
            yield from (Path(root, app) for app in ON_MAC)
    if platform == "win32":
        for root in filter(None, map(env.get, WINDOWS_ROOTS)):
            yield from (Path(root, program) for program in ON_WINDOWS)


def starts(browser: Path) -> bool:
    """Whether it is a program that runs: some distributions leave a stub behind, or libraries are missing."""
    if not browser.is_file():
        return False
    if os.name == "nt":
        return True  # there, asking for the version opens a window
    try:
        asked = subprocess.run([str(browser), "--version"], capture_output=True, timeout=60, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return asked.returncode == 0


def downloaded(python: Path) -> Path | None:
    """The browser that the driver of `python`'s environment keeps for itself, where it has been downloaded."""
    ask = ("from playwright.sync_api import sync_playwright as start\n"
           "with start() as p: print(p.chromium.executable_path)")
    told = subprocess.run([str(python), "-c", ask], capture_output=True, text=True, check=False)
    path = Path(told.stdout.strip() or os.devnull)
    return path if starts(path) else None


def installed(python: Path) -> Path | None:
    """The first browser on this machine that starts."""
    return next(filter(starts, places(os.environ, sys.platform)), None) or downloaded(python)


def from_debian(package: str = "chromium") -> bool:
    """Installs a package of Debian, where this machine has such packages and we may."""
    apt = shutil.which("apt-get")
    if not apt or not hasattr(os, "geteuid") or os.geteuid() != 0:
        return False
    print(f"Installing Debian's {package} for the browser tests", flush=True)
    env = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    for step in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", package]):
        if subprocess.run([apt, *step], env=env, stdout=subprocess.DEVNULL, check=False).returncode != 0:
            return False
    return True


def from_driver(python: Path) -> bool:
    """Lets the browser driver download its own."""
    print("No browser found: downloading the browser driver's own", flush=True)
    return subprocess.run([str(python), "-m", "playwright", "install", "chromium"], check=False).returncode == 0


def obtain(python: Path) -> Path | None:
    """A browser that starts, installed if need be; None where none can be had."""
    found = installed(python)
    if not found and from_debian():
        found = installed(python)
    if not found and from_driver(python):
        found = downloaded(python)
    return found
