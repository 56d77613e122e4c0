"""Sealed bytes: encrypted once under a key used for nothing else, and that key sealed to each reader.

    evenload-return 1\\n                   the first line of its kind
    reader KEYID BASE64\\n                 1 to 8 of them; HPKE of the key
    body\\n
    AES-256-GCM of the content, to the end of the file

`info` for HPKE is the first line and, for each reader, `reader KEYID\\n`; the additional data of the body is every
byte before it. So nobody can take a reader out, put one in or move the body under another header.
"""
from __future__ import annotations

import base64
import re
from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.errors import DamagedFile, TooLarge, WrongRecipient
from app.exchange.crypto import cipher
from app.exchange.crypto.file_kinds import Kind, require_kind
from app.exchange.crypto.keys import KeyPair, key_id
from app.exchange.crypto.signing import canonical_base64

MOST_READERS = 8
MOST_BYTES = 32 * 1024 * 1024
#: The key is new for every file, so one nonce will do.
_NONCE = bytes(12)
_READER = re.compile(rb"reader ([0-9a-f]{32}) ([A-Za-z0-9+/]{107}=)\n")
_BODY = b"body\n"


@dataclass(frozen=True)
class OpenedSeal:
    """What was sealed, and the header that it was bound to."""

    plain: bytes
    header: bytes


def header_of(kind: Kind, key_ids: Sequence[str]) -> bytes:
    """What HPKE binds: the first line and the readers in order, without the sealed keys."""
    return kind.first_line + b"".join(f"reader {one}\n".encode() for one in key_ids)


async def seal(plain: bytes, readers: Sequence[bytes], kind: Kind) -> bytes:
    """A whole file that any of the readers can open. `readers` are 1 to 8 X25519 public keys, all different.

    Raises:
        ValueError: no reader, too many, or one of them twice.
    """
    ids = [key_id(reader) for reader in readers]
    if not 1 <= len(ids) <= MOST_READERS or len(set(ids)) < len(ids):
        raise ValueError("readers must be 1 to 8 different keys")
    info, key = header_of(kind, ids), cipher.random_bytes(cipher.KEY_BYTES)
    lines = [
        f"reader {one} {base64.b64encode(await cipher.hpke_seal(reader, key, info)).decode()}\n".encode()
        for one, reader in zip(ids, readers, strict=True)
    ]
    before = kind.first_line + b"".join(lines) + _BODY
    return before + await cipher.aes_seal(key, _NONCE, plain, before)


async def open_sealed(data: bytes, name: str, kind: Kind, private_keys: Sequence[KeyPair]) -> OpenedSeal:
    """What was sealed, if one of the keys is a reader's.

    Raises:
        NotOurFile, NewerFormat, TooLarge, DamagedFile: not a whole, unchanged file of that kind.
        WrongRecipient: sealed for others.
    """
    if len(data) > MOST_BYTES:
        raise TooLarge(name=name, limit=MOST_BYTES, found=len(data))
    sealed_keys, at = _readers(data, name, kind)
    info = header_of(kind, tuple(sealed_keys))
    mine = next((pair for pair in private_keys if key_id(pair.public) in sealed_keys), None)
    if mine is None:
        raise WrongRecipient(name=name)
    try:
        key = await cipher.hpke_open(mine.private, sealed_keys[key_id(mine.public)], info)
        if len(key) != cipher.KEY_BYTES:
            raise cipher.Unopened
        plain = await cipher.aes_open(key, _NONCE, data[at:], data[:at])
    except cipher.Unopened as error:
        raise DamagedFile(name=name, why="seal") from error
    return OpenedSeal(plain, info)


def reader_ids(data: bytes, name: str, kind: Kind) -> tuple[str, ...]:
    """Whom it is sealed for, by key id, without opening it.

    Raises:
        NotOurFile, NewerFormat, DamagedFile: the header is not one.
    """
    return tuple(_readers(data, name, kind)[0])


def _readers(data: bytes, name: str, kind: Kind) -> tuple[dict[str, bytes], int]:
    """Sealed keys by key id in order, and where the body begins."""
    require_kind(data, name, kind)
    at, found = len(kind.first_line), dict[str, bytes]()
    while line := _READER.match(data, at):
        if line[1].decode() in found or len(found) == MOST_READERS:
            raise DamagedFile(name=name, why="readers")
        found[line[1].decode()] = canonical_base64(line[2], name)
        at = line.end()
    if not found or not data.startswith(_BODY, at):
        raise DamagedFile(name=name, why="readers")
    return found, at + len(_BODY)
