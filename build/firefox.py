"""A Firefox for the tests that `test --all` runs in it: one that is here, else Debian's package."""
from __future__ import annotations

import shutil

import chromium

NAMES = ("firefox-esr", "firefox")
PACKAGE = "firefox-esr"


def is_here() -> bool:
    """Whether one is on the path; the tests look for the same names."""
    return any(map(shutil.which, NAMES))


def obtain() -> bool:
    """Whether there is one, installed if need be."""
    return is_here() or (chromium.from_debian(PACKAGE) and is_here())
