"""Key pairs, the short id that a file names a key by, and the five words that two people compare."""
from __future__ import annotations

import hashlib
import hmac
from dataclasses import dataclass, field

from app.exchange.crypto import cipher
from app.exchange.crypto.word_list import WORDS

_MATCHING = b"evenload matching words 1\n"
_WORD_BITS = 11


@dataclass(frozen=True)
class KeyPair:
    """A private key and its public one, raw, 32 bytes each. The private one is never printed."""

    private: bytes = field(repr=False)
    public: bytes


@dataclass(frozen=True)
class CoachKeys:
    """What a coach signs and reads with. Of the recovery keys only the public halves stay on the machine."""

    signing: KeyPair
    sealing: KeyPair
    recovery_signing: bytes
    recovery_sealing: bytes


@dataclass(frozen=True)
class ClientKeys:
    """What a client signs and reads with."""

    signing: KeyPair
    sealing: KeyPair


async def signing_pair(private: bytes) -> KeyPair:
    """The Ed25519 pair of that private key."""
    return KeyPair(private, await cipher.signing_public(private))


async def sealing_pair(private: bytes) -> KeyPair:
    """The X25519 pair of that private key."""
    return KeyPair(private, await cipher.sealing_public(private))


async def new_signing_pair() -> KeyPair:
    """A fresh Ed25519 pair."""
    return await signing_pair(cipher.random_bytes(cipher.KEY_BYTES))


async def new_sealing_pair() -> KeyPair:
    """A fresh X25519 pair."""
    return await sealing_pair(cipher.random_bytes(cipher.KEY_BYTES))


async def recovery_pairs(seed: bytes) -> tuple[KeyPair, KeyPair]:
    """The recovery signing and sealing pair that one secret of 32 bytes gives, always the same.

    So a recovery sheet holds one secret. Each private key is HMAC-SHA256(seed, its purpose).
    """
    signing = hmac.digest(seed, b"evenload recovery signing 1", "sha256")
    sealing = hmac.digest(seed, b"evenload recovery sealing 1", "sha256")
    return await signing_pair(signing), await sealing_pair(sealing)


def key_id(public: bytes) -> str:
    """The first 16 bytes of the public key's SHA-256, as 32 hex digits."""
    return hashlib.sha256(public).hexdigest()[:32]


def matching_words(public: bytes) -> tuple[str, str, str, str, str]:
    """Five words of 11 bits each: the first 55 bits of SHA-256 over a fixed line and the key.

    Enough to notice a wrong or a mixed-up key, and to make a look-alike cost 2^55 tries.
    """
    bits = int.from_bytes(hashlib.sha256(_MATCHING + public).digest(), "big") >> (256 - 5 * _WORD_BITS)
    a, b, c, d, e = (WORDS[bits >> (_WORD_BITS * place) & 2047] for place in (4, 3, 2, 1, 0))
    return a, b, c, d, e
