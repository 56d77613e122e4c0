"""How the owner's browser gets in: keys that open once, a cookie for each start, a page that the owner alone reads.

An address can be read by others: a browser's arguments by every user of the machine, its history by whoever sits down
at it later. So a key in an address is spent at its first use, and it is never the cookie. The page in the data
directory, which its owner alone may read, always holds a key that is not spent; whoever can read it is the owner.
"""
from __future__ import annotations

import hmac
import json
import os
import secrets
from collections.abc import Callable
from html import escape
from pathlib import Path


class Keys:
    """The unspent keys of one start of the program, and its cookie."""

    def __init__(self) -> None:
        self.cookie = secrets.token_urlsafe(32)
        self._unspent: set[str] = set()
        self.on_spent: Callable[[], None] = lambda: None
        """Called after a key was spent."""

    def new(self) -> str:
        """A key that opens once."""
        key = secrets.token_urlsafe(32)
        self._unspent.add(key)
        return key

    def holds(self, brought: str) -> bool:
        """Whether it would open."""
        return any(hmac.compare_digest(brought.encode(), key.encode()) for key in self._unspent)

    def spend(self, brought: str) -> bool:
        """Whether it opens; the same one does not again."""
        if not self.holds(brought):
            return False
        self._unspent.discard(brought)
        self.on_spent()
        return True

    def is_cookie(self, brought: str) -> bool:
        """Whether it is this start's cookie."""
        return hmac.compare_digest(brought.encode(), self.cookie.encode())


class WayInPage:
    """The page in the data directory that leads in. It is written anew whenever its key was spent."""

    def __init__(self, path: Path, keys: Keys, address: Callable[[str], str]) -> None:
        self.path = path
        self._keys, self._address, self._key = keys, address, ""
        keys.on_spent = self.renew
        self.renew()

    def renew(self) -> None:
        """With a fresh key, if the last one is spent."""
        if not self._key or not self._keys.holds(self._key):
            self._key = self._keys.new()
            _write_private(self.path, leading_page(self._address(self._key)))

    def remove(self) -> None:
        """The program ends, and the key with it."""
        self.path.unlink(missing_ok=True)


def leading_page(address: str) -> str:
    """A page that goes to an address at once, leaving itself out of the history."""
    return (f'<!doctype html><html lang="en"><meta charset="utf-8"><meta name="referrer" content="no-referrer">'
            f'<meta http-equiv="refresh" content="0;url={escape(address)}"><title>…</title>'
            f'<p><a href="{escape(address)}">Open</a></p></html>\n')


def choosing_page(there: str, seen: str, here: str) -> str:
    """A page that goes on at a host name of its own, if this browser finds it, and otherwise stays at this one.

    `there`: the address at that name; `seen`: a picture at it; `here`: the address at this one.
    """
    words = json.dumps([there, seen, here]).replace("<", "\\u003c")
    return ('<!doctype html><html lang="en"><meta charset="utf-8"><title>…</title>'
            f'<noscript><meta http-equiv="refresh" content="0;url={escape(here)}"></noscript>'
            f"<script>const [there, seen, here] = {words};"
            "let gone = false; const go = to => { if (!gone) { gone = true; location.replace(to); } };"
            "const picture = new Image(); picture.onload = () => go(there); picture.onerror = () => go(here);"
            "picture.src = seen; setTimeout(() => go(here), 1500);</script></html>\n")


def _write_private(path: Path, words: str) -> None:
    """Whole, and from its first moment on its owner's alone."""
    beside = path.with_name(f".{path.name}.{secrets.token_hex(8)}")
    with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as file:
        file.write(words)
    beside.replace(path)
