"""The text form of a return, a reply or a small pack, to paste into any messenger.

    [evenload return begin]
    BASE64, 900 to a line
    [evenload return end 0123abcd]

The last eight characters are the start of the SHA-256 of the bytes. Mail programs wrap, quote and surround; so white
space, invisible characters and `>` are ignored, wherever they stand, and so is everything outside the two brackets.
"""
from __future__ import annotations

import base64
import binascii
import hashlib
import re

from app.domain.errors import DamagedFile, NotOurFile, TooLarge, TooLargeToPaste
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.sealing import MOST_BYTES

MOST_PACK_BYTES = 250_000
"""Largest pack that has a text form: as text, a third more. A field stays quick with it, and mail carries it."""
_NOISE = re.compile(r"[\s>\u00ad\u200b-\u200f\u2028-\u202f\u2060\ufeff]+")
_BEGIN = re.compile(r"\[evenload(pack|return|reply)begin\]", re.IGNORECASE)
_BODY = re.compile(r"[A-Za-z0-9+/]*")
_REST = re.compile(r"([A-Za-z0-9+/]*={0,2})\[evenload(pack|return|reply)end([0-9a-f]{8})\]", re.IGNORECASE)
_LINE = 900
"""Mail allows 998; the fewer lines, the quicker a browser pastes: 340,000 characters in 2 s and not in 55."""


def to_text(data: bytes, kind: Kind, name: str = "") -> str:
    """The file as lines of plain ASCII.

    Raises:
        TooLargeToPaste: a pack over 250,000 bytes.
    """
    if kind is Kind.PACK and len(data) > MOST_PACK_BYTES:
        raise TooLargeToPaste(name=name, limit=MOST_PACK_BYTES, found=len(data))
    body = base64.b64encode(data).decode()
    lines = [body[at:at + _LINE] for at in range(0, len(body), _LINE)]
    return "\n".join([f"[evenload {kind} begin]", *lines, f"[evenload {kind} end {_sum(data)}]", ""])


def holds_text(text: str) -> bool:
    """Whether a text form begins in it."""
    return _BEGIN.search(_NOISE.sub("", text)) is not None


def from_text(text: str, name: str = "") -> bytes:
    """The bytes of the first text form in it.

    Raises:
        NotOurFile: none is in it.
        DamagedFile: it is cut short or changed.
        TooLarge, TooLargeToPaste: over what a return or reply may be, or over what a pack may be as text.
    """
    if len(text) > 2 * MOST_BYTES:
        raise TooLarge(name=name, limit=MOST_BYTES, found=len(text) // 2)
    compact = _NOISE.sub("", text)
    begin = _BEGIN.search(compact)
    if begin is None:
        raise NotOurFile(name=name)
    if begin[1].lower() == Kind.PACK:
        _check_length(compact, begin.end(), name)
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
        NotOurFile, DamagedFile, TooLarge, TooLargeToPaste: as `from_text`.
    """
    if data.startswith(b"evenload-"):
        return data
    return from_text(data[:2 * MOST_BYTES + 1].decode("utf-8", errors="replace"), name)


def _check_length(compact: str, at: int, name: str) -> None:
    body = _BODY.match(compact, at)
    found = len(body[0]) * 3 // 4 if body else 0
    if found > MOST_PACK_BYTES:
        raise TooLargeToPaste(name=name, limit=MOST_PACK_BYTES, found=found)


def _sum(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:8]
