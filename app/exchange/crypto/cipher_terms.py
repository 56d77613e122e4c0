"""What both ciphers agree on: lengths, the one error, and where chance comes from."""
from __future__ import annotations

import os

KEY_BYTES = 32
SIGNATURE_BYTES = 64
#: What HPKE adds to a plain text: an encapsulated key of 32 bytes and a tag of 16.
HPKE_BYTES = 48


class Unopened(Exception):
    """The cipher text, its additional data or the key is not the one that was sealed."""


def random_bytes(count: int) -> bytes:
    """Bytes from the operating system's source; in a browser, from the browser's."""
    return os.urandom(count)
