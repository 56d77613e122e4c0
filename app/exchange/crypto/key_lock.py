"""Private keys under a passphrase, for a store that others can copy: what is kept of them, and how they open again.

The key that seals them is stretched from the passphrase as for a sealed copy (`passphrase.py`), with a salt of its own
each time they are sealed, so that one nonce will do.
"""
from __future__ import annotations

import base64
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from app.domain.errors import WrongKeyPassphrase
from app.exchange.crypto import cipher
from app.exchange.crypto.passphrase import Stretching, new_stretching, require_strong, stretched_key

#: What it is sealed for: nothing else that is sealed under the same passphrase opens here.
_FOR = b"evenload-keys 1\n"
_NONCE = bytes(12)


@dataclass(frozen=True)
class SealedKeys:
    """Private keys, and how they open."""

    how: Stretching = field(repr=False)
    sealed: bytes = field(repr=False)

    def as_json(self) -> dict[str, Any]:
        """For a setting."""
        return self.how.as_json() | {"sealed": base64.b64encode(self.sealed).decode()}

    @classmethod
    def from_json(cls, kept: Mapping[str, Any]) -> SealedKeys:
        """The same from a setting."""
        return cls(Stretching.from_json(kept), base64.b64decode(kept["sealed"]))


async def seal_keys(private: Mapping[str, bytes], passphrase: str) -> SealedKeys:
    """Raw private keys by kind, sealed.

    Raises:
        EasyPassphrase: it would be guessed.
    """
    require_strong(passphrase)
    how = new_stretching()
    plain = json.dumps({kind: base64.b64encode(key).decode() for kind, key in private.items()}).encode()
    return SealedKeys(how, await cipher.aes_seal(await stretched_key(passphrase, how), _NONCE, plain, _FOR))


async def open_keys(kept: SealedKeys, passphrase: str) -> dict[str, bytes]:
    """Raw private keys by kind.

    Raises:
        WrongKeyPassphrase: another passphrase, or what is kept was changed.
    """
    try:
        plain = await cipher.aes_open(await stretched_key(passphrase, kept.how), _NONCE, kept.sealed, _FOR)
    except cipher.Unopened as error:
        raise WrongKeyPassphrase() from error
    return {kind: base64.b64decode(key) for kind, key in json.loads(plain).items()}
