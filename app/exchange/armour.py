"""The text form of a return or a reply, to paste into any messenger.

    [evenload return begin]
    BASE64, 64 to a line
    [evenload return end 0123abcd]

The last eight characters are the start of the SHA-256 of the bytes. Mail programs wrap, quote and surround; so white
space, invisible characters and `>` are ignored, wherever they stand, and so is everything outside the two brackets.
"""
from __future__ import annotations

import base64
import binascii
import hashlib
import re

from app.domain.errors import DamagedFile, NotOurFile, TooLarge
from app.exchange.kinds import Kind
from app.exchange.sealing import MOST_BYTES

_NOISE = re.compile(r"[\s>\u00ad\u200b-\u200f\u2028-\u202f\u2060\ufeff]+")
_BEGIN = re.compile(r"\[evenload(return|reply)begin\]", re.IGNORECASE)
_REST = re.compile(r"([A-Za-z0-9+/]*={0,2})\[evenload(return|reply)end([0-9a-f]{8})\]", re.IGNORECASE)
_LINE = 64


def to_text(data: bytes, kind: Kind) -> str:
    """The file as lines of plain ASCII."""
    body = base64.b64encode(data).decode()
    lines = [body[at:at + _LINE] for at in range(0, len(body), _LINE)]
    return "\n".join([f"[evenload {kind} begin]", *lines, f"[evenload {kind} end {_sum(data)}]", ""])


def from_text(text: str, name: str = "") -> bytes:
    """The bytes of the first text form in it.

    Raises:
        NotOurFile: none is in it.
        DamagedFile: it is cut short or changed.
        TooLarge: over what a return or reply may be.
    """
    if len(text) > 2 * MOST_BYTES:
        raise TooLarge(name=name, limit=MOST_BYTES, found=len(text) // 2)
    compact = _NOISE.sub("", text)
    begin = _BEGIN.search(compact)
    if begin is None:
        raise NotOurFile(name=name)
    rest = _REST.match(compact, begin.end())
    if rest is None or rest[2].lower() != begin[1].lower():
        raise DamagedFile(name=name, why="text form cut short")
    try:
        data = base64.b64decode(rest[1], validate=True)
    except (binascii.Error, ValueError) as error:
        raise DamagedFile(name=name, why="base64") from error
    if _sum(data) != rest[3].lower():
        raise DamagedFile(name=name, why="checksum")
    return data


def unwrapped(data: bytes, name: str) -> bytes:
    """The file itself, whether it came as it is or in its text form.

    Raises:
        NotOurFile, DamagedFile, TooLarge: as `from_text`.
    """
    if data.startswith(b"evenload-"):
        return data
    return from_text(data[:2 * MOST_BYTES + 1].decode("utf-8", errors="replace"), name)


def _sum(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:8]
