"""A letter: JSON, signed by its writer, compressed, sealed to its readers. Returns and replies are letters.

The signature covers the header with its readers, so that nobody can hand a letter on as if it were meant for another.
"""
from __future__ import annotations

import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.domain.errors import ContentError, DamagedFile, TooLarge
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import KeyPair, key_id
from app.exchange.crypto.sealing import header_of, open_sealed, seal
from app.exchange.crypto.signing import SIGNED_BYTES, read_signed, signed
from app.exchange.forms.json_parts import check_values
from app.exchange.forms.to_json import to_json
from app.exchange.forms.validation_errors import F, read_form, read_form_in_pieces

#: What a letter's JSON may measure, and how many values it may hold.
MOST_JSON: Mapping[Kind, int] = {Kind.RETURN: 32 * 1024 * 1024, Kind.REPLY: 1024 * 1024}
MOST_VALUES: Mapping[Kind, int] = {Kind.RETURN: 4_000_000, Kind.REPLY: 100_000}
#: Bytes unpacked for each byte of the file; sessions that are all alike reach ninety. A small letter may be anything.
MOST_RATIO, SMALL = 200, 1024 * 1024
#: The best first; the last packs nothing, for a letter that would pack too well to be believed.
_LEVELS = (6, 1, 0)


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
    check_json(body, "", kind)
    header = header_of(kind, [key_id(reader) for reader in readers])
    return await seal(_packed(await signed(header, body, writer)), readers, kind)


async def read_letter(data: bytes, name: str, kind: Kind, private_keys: Sequence[KeyPair]) -> Letter:
    """The letter, once its seal and its signature hold.

    Raises:
        NotOurFile, NewerFormat, TooLarge, DamagedFile: refused as a whole.
        WrongRecipient: sealed for others.
    """
    opened = await open_sealed(data, name, kind, private_keys)
    signer, body = await read_signed(opened.header, _inflated(opened.plain, name, kind), name)
    check_json(body, name, kind)
    return Letter(body, signer)


def check_json(body: bytes, name: str, kind: Kind) -> None:
    """Whether the JSON is within the bounds of its kind, before any of it is read.

    Raises:
        TooLarge: it is not.
    """
    if len(body) > MOST_JSON[kind]:
        raise TooLarge(name=name, limit=MOST_JSON[kind], found=len(body))
    check_values(body, name, MOST_VALUES[kind])


def read_content(form: type[F], letter: Letter, name: str, most: Mapping[str, int]) -> F:
    """What a letter says. `most`: the most entries of each of the form's long lists.

    Raises:
        DamagedFile: a value that cannot be.
        TooLarge: an entry that holds too many values.
    """
    try:
        return read_form_in_pieces(form, letter.json, "", name, most)
    except ContentError as error:
        raise DamagedFile(name=name, why="content", error=error) from error


def most_plain(packed: int, kind: Kind) -> int:
    """Bytes that so many packed ones may unpack to."""
    return min(MOST_JSON[kind] + SIGNED_BYTES, max(SMALL, packed * MOST_RATIO))


def _packed(plain: bytes) -> bytes:
    tries = (zlib.compress(plain, level) for level in _LEVELS)
    return next(packed for packed in tries if len(plain) <= max(SMALL, len(packed) * MOST_RATIO))


def _inflated(data: bytes, name: str, kind: Kind) -> bytes:
    """One whole zlib stream, unpacked no further than the limit."""
    stream, most = zlib.decompressobj(), most_plain(len(data), kind)
    try:
        plain = stream.decompress(data, most + 1)
    except zlib.error as error:
        raise DamagedFile(name=name, why="compression") from error
    if len(plain) > most:
        raise TooLarge(name=name, limit=most, found=len(plain))
    if not stream.eof or stream.unused_data:
        raise DamagedFile(name=name, why="compression")
    return plain
