"""A coach's public signing key as one line of text, or as a link to the app. Specified in `PACK.md`.

    evenload-key 1 BASE64 NAME
    ADDRESS#/key?key=BASE64URL&coach=NAME

Neither is signed: what makes a key the coach's is that two people compare its matching words.
"""
from __future__ import annotations

import base64
import binascii
import re
from urllib.parse import parse_qs, quote

from app.domain.branding.brand import CoachKey
from app.domain.errors import DamagedFile, NewerFormat, NotOurFile
from app.exchange.crypto.cipher import KEY_BYTES
from app.exchange.crypto.file_kinds import MAJOR

ROUTE = "/key"
_LONGEST_NAME = 120
_LINE = re.compile(r"evenload-key\s+([1-9][0-9]{0,3})\s+(\S+)[ \t]*([^\r\n]*)")
_LINK = re.compile(r"#/key\?(\S+)")


def key_line(coach: CoachKey) -> str:
    """The key as a line of text."""
    return f"evenload-key {MAJOR} {base64.b64encode(bytes.fromhex(coach.signing_key)).decode()} {coach.name}".strip()


def key_link(coach: CoachKey, address: str) -> str:
    """The same as a link into the app at an address. What stands behind the # is sent to no server."""
    key = base64.urlsafe_b64encode(bytes.fromhex(coach.signing_key)).decode().rstrip("=")
    named = f"&coach={quote(coach.name, safe='')}" if coach.name else ""
    return f"{address.partition('#')[0]}#{ROUTE}?key={key}{named}"


def holds_key(text: str) -> bool:
    """Whether either form begins in it."""
    return "evenload-key" in text or _LINK.search(text) is not None


def key_from_text(text: str, name: str) -> CoachKey:
    """The first key in it, in either form.

    Raises:
        NotOurFile: there is none.
        NewerFormat: of a newer major version.
        DamagedFile: it is cut short or changed in a way that shows.
    """
    line = _LINE.search(text)
    if line:
        if int(line[1]) > MAJOR:
            raise NewerFormat(name=name, found=int(line[1]), known=MAJOR)
        return CoachKey(_named(line[3], name), _raw(line[2], name).hex())
    link = _LINK.search(text)
    if link is None:
        raise DamagedFile(name=name, why="cut short") if holds_key(text) else NotOurFile(name=name)
    said = parse_qs(link[1], keep_blank_values=True)
    key = said.get("key", [""])[0].replace("-", "+").replace("_", "/")
    return CoachKey(_named(said.get("coach", [""])[0], name), _raw(key + "=" * (-len(key) % 4), name).hex())


def _raw(text: str, name: str) -> bytes:
    """The 32 bytes, if the text is the one way to write them."""
    try:
        raw = base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError) as error:
        raise DamagedFile(name=name, why="base64") from error
    if len(raw) != KEY_BYTES or base64.b64encode(raw).decode() != text:
        raise DamagedFile(name=name, why="key")
    return raw


def _named(words: str, name: str) -> str:
    said = " ".join(words.split())
    if len(said) > _LONGEST_NAME or not (said.isprintable() or not said):
        raise DamagedFile(name=name, why="coach's name")
    return said
