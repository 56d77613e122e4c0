"""A letter: JSON, signed by its writer, compressed, sealed to its readers. Returns and replies are letters.

The signature covers the header with its readers, so that nobody can hand a letter on as if it were meant for another.
"""
from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from app.domain.errors import ContentError, DamagedFile, TooLarge
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import KeyPair, key_id
from app.exchange.crypto.sealing import header_of, open_sealed, seal
from app.exchange.crypto.signing import read_signed, signed
from app.exchange.forms.to_json import to_json
from app.exchange.forms.validation_errors import F, read_form

#: What a letter may unpack to.
MOST_PLAIN_BYTES = 64 * 1024 * 1024
_LEVEL = 6


@dataclass(frozen=True)
class Letter:
    """What was read, and the public key of who signed it."""

    json: bytes
    signer: bytes


async def write_letter(table: dict[str, Any], kind: Kind, form: type[F], writer: KeyPair,
                       readers: Sequence[bytes]) -> bytes:
    """A whole file. `readers` are 1 to 8 X25519 public keys.

    Raises:
        WrongValue, UnknownName: the table says what a reader would refuse.
        TooLarge: more than a letter may hold.
    """
    body = to_json(table)
    read_form(form, body, kind.value)
    if len(body) > MOST_PLAIN_BYTES // 2:
        raise TooLarge(name="", limit=MOST_PLAIN_BYTES // 2, found=len(body))
    header = header_of(kind, [key_id(reader) for reader in readers])
    return await seal(zlib.compress(await signed(header, body, writer), _LEVEL), readers, kind)


async def read_letter(data: bytes, name: str, kind: Kind, private_keys: Sequence[KeyPair]) -> Letter:
    """The letter, once its seal and its signature hold.

    Raises:
        NotOurFile, NewerFormat, TooLarge, DamagedFile: refused as a whole.
        WrongRecipient: sealed for others.
    """
    opened = await open_sealed(data, name, kind, private_keys)
    signer, body = await read_signed(opened.header, _inflated(opened.plain, name), name)
    return Letter(body, signer)


def read_content(form: type[F], letter: Letter, name: str) -> F:
    """What a letter says.

    Raises:
        DamagedFile: a value that cannot be.
    """
    try:
        return read_form(form, letter.json, "")
    except ContentError as error:
        raise DamagedFile(name=name, why="content", error=error) from error


def _inflated(data: bytes, name: str) -> bytes:
    """One whole zlib stream, unpacked no further than the limit."""
    stream = zlib.decompressobj()
    try:
        plain = stream.decompress(data, MOST_PLAIN_BYTES + 1)
    except zlib.error as error:
        raise DamagedFile(name=name, why="compression") from error
    if len(plain) > MOST_PLAIN_BYTES:
        raise TooLarge(name=name, limit=MOST_PLAIN_BYTES, found=len(plain))
    if not stream.eof or stream.unused_data:
        raise DamagedFile(name=name, why="compression")
    return plain
