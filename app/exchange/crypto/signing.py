"""Signed bytes: a line with the key, a line with the signature, then what was signed.

    key BASE64\\n
    signature BASE64\\n
    BODY

The signature covers what comes before these lines in the file, the key line and every byte of the body.
"""
from __future__ import annotations

import base64
import binascii
import re

from app.domain.errors import DamagedFile
from app.exchange.crypto import cipher
from app.exchange.crypto.keys import KeyPair

_LINES = re.compile(rb"key ([A-Za-z0-9+/]{43}=)\nsignature ([A-Za-z0-9+/]{86}==)\n")
#: Length of the two lines.
SIGNED_BYTES = len("key ") + 44 + 1 + len("signature ") + 88 + 1


async def sign(message: bytes, pair: KeyPair) -> bytes:
    """An Ed25519 signature, 64 bytes."""
    return await cipher.ed25519_sign(pair.private, message)


async def verify(message: bytes, signature: bytes, public: bytes) -> bool:
    """Whether the signature is that key's over exactly that message."""
    return await cipher.ed25519_verify(public, signature, message)


async def signed(before: bytes, body: bytes, pair: KeyPair) -> bytes:
    """The key line, the signature line and the body."""
    key_line = b"key " + base64.b64encode(pair.public) + b"\n"
    signature = await sign(before + key_line + body, pair)
    return key_line + b"signature " + base64.b64encode(signature) + b"\n" + body


async def read_signed(before: bytes, data: bytes, name: str) -> tuple[bytes, bytes]:
    """The signer's public key and the body, once the signature holds.

    Raises:
        DamagedFile: the lines are not exact or the signature is not that key's.
    """
    lines = _LINES.match(data)
    if lines is None:
        raise DamagedFile(name=name, why="signature lines")
    public, signature = canonical_base64(lines[1], name), canonical_base64(lines[2], name)
    key_line, body = data[:49], data[SIGNED_BYTES:]
    if not await verify(before + key_line + body, signature, public):
        raise DamagedFile(name=name, why="signature")
    return public, body


def canonical_base64(text: bytes, name: str) -> bytes:
    """The bytes, if the text is the one way to write them.

    Raises:
        DamagedFile: another way, or none.
    """
    try:
        value = base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError) as error:
        raise DamagedFile(name=name, why="base64") from error
    if base64.b64encode(value) != text:
        raise DamagedFile(name=name, why="base64")
    return value
