"""What a passphrase opens: a sealed copy of everything, and the keys of a store. The copy is specified in `COPY.md`.

    evenload-copy 1\\n
    pbkdf2-sha256 ROUNDS SALT\\n
    body\\n
    AES-256-GCM of the content, to the end of the file

Every file has a salt of its own, so its key is used once and one nonce will do. PBKDF2, and no function that wants
memory too, since a browser has no other of its own.
"""
from __future__ import annotations

import base64
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from app.domain.errors import DamagedFile, EasyPassphrase, NewerFormat, NotOurFile, WrongPassphrase
from app.exchange.crypto import cipher
from app.exchange.crypto.signing import canonical_base64
from app.exchange.crypto.word_list import WORDS

#: Iterations for HMAC-SHA256. Source: OWASP, Password Storage Cheat Sheet (2023).
ROUNDS = 600_000
#: A reader takes no fewer and no more, so that no file keeps a phone busy for long.
LEAST_ROUNDS, MOST_ROUNDS = 100_000, 1_000_000
SALT_BYTES = 16
#: Characters. Source: NIST SP 800-63B-4 (2025), section 3.1.1.2, for a password that stands alone.
LEAST = 15
#: Of the list of 2,048 words: 66 bits.
SUGGESTED_WORDS = 6
COPY_SUFFIX = ".evenload-copy"
MAJOR = 1
_NONCE = bytes(12)
_FIRST = re.compile(rb"evenload-copy ([1-9][0-9]{0,3})\n")
_HOW = re.compile(rb"pbkdf2-sha256 ([1-9][0-9]{0,8}) ([A-Za-z0-9+/]{22}==)\n")
_BODY = b"body\n"


@dataclass(frozen=True)
class Stretching:
    """How a key is made of what somebody remembers."""

    salt: bytes = field(repr=False)
    rounds: int = ROUNDS

    def as_json(self) -> dict[str, Any]:
        """For a setting."""
        return {"salt": base64.b64encode(self.salt).decode(), "rounds": self.rounds}

    @classmethod
    def from_json(cls, kept: Mapping[str, Any]) -> Stretching:
        """The same from a setting, whatever else stands in it."""
        return cls(base64.b64decode(kept["salt"]), int(kept["rounds"]))


def new_stretching() -> Stretching:
    """One that was never used."""
    return Stretching(cipher.random_bytes(SALT_BYTES))


async def stretched_key(secret: str, how: Stretching) -> bytes:
    """32 bytes. However a keyboard composes its accents, and whatever space stands at either end, is the same."""
    return await cipher.stretched(unicodedata.normalize("NFC", secret.strip()).encode(), how.salt, how.rounds)


def require_strong(passphrase: str) -> None:
    """Before anything is sealed under it.

    Raises:
        EasyPassphrase: shorter than 15 characters, or hardly any of them differ.
    """
    said = passphrase.strip()
    if len(said) < LEAST or len(set(said)) < LEAST // 3:
        raise EasyPassphrase(least=LEAST)


def suggested_passphrase() -> str:
    """Six words by chance."""
    numbers = (int.from_bytes(cipher.random_bytes(2), "big") % len(WORDS) for _ in range(SUGGESTED_WORDS))
    return " ".join(WORDS[number] for number in numbers)


def is_sealed_copy(data: bytes) -> bool:
    """Whether the first line says so."""
    return _FIRST.match(data) is not None


async def seal_copy(plain: bytes, passphrase: str) -> bytes:
    """A whole file that the passphrase opens.

    Raises:
        EasyPassphrase: it would be guessed.
    """
    require_strong(passphrase)
    how = new_stretching()
    salt = base64.b64encode(how.salt)
    before = b"evenload-copy %d\npbkdf2-sha256 %d %s\n" % (MAJOR, how.rounds, salt) + _BODY
    return before + await cipher.aes_seal(await stretched_key(passphrase, how), _NONCE, plain, before)


async def open_copy(data: bytes, name: str, passphrase: str) -> bytes:
    """What was sealed.

    Raises:
        NotOurFile, NewerFormat, DamagedFile: no whole header of such a file.
        WrongPassphrase: another passphrase, or what it opens was changed; which of the two nobody can tell.
    """
    first = _FIRST.match(data)
    if first is None:
        raise NotOurFile(name=name)
    if int(first[1]) > MAJOR:
        raise NewerFormat(name=name, found=int(first[1]), known=MAJOR)
    how = _HOW.match(data, first.end())
    if how is None or not data.startswith(_BODY, how.end()) or not LEAST_ROUNDS <= int(how[1]) <= MOST_ROUNDS:
        raise DamagedFile(name=name, why="head of the copy")
    at = how.end() + len(_BODY)
    key = await stretched_key(passphrase, Stretching(canonical_base64(how[2], name), int(how[1])))
    try:
        return await cipher.aes_open(key, _NONCE, data[at:], data[:at])
    except cipher.Unopened as error:
        raise WrongPassphrase(name=name) from error
