"""HPKE (RFC 9180), base mode, one message: DHKEM(X25519, HKDF-SHA256), HKDF-SHA256, AES-256-GCM.

Only the key schedule, from the shared secret of X25519 to the key and nonce of the one message. A browser has the
curve and the cipher of its own and no HPKE; natively the `cryptography` library does it all, and a test holds the two
to each other and to the published vector.
"""
from __future__ import annotations

import hmac
from typing import NamedTuple

#: Suite ids: section 7, tables 2, 3 and 5.
_KEM_SUITE = b"KEM\x00\x20"
_SUITE = b"HPKE\x00\x20\x00\x01\x00\x02"
_HASH_BYTES = 32


class MessageKey(NamedTuple):
    """What the one message is sealed with."""

    key: bytes
    nonce: bytes


def message_key(dh: bytes, enc: bytes, public: bytes, info: bytes) -> MessageKey:
    """The key and nonce, of 32 and 12 bytes.

    `dh` is X25519 of the one's private and the other's public key, `enc` the sender's fresh public key, `public` the
    reader's.
    """
    secret = _expanded(_KEM_SUITE, _extracted(_KEM_SUITE, b"", b"eae_prk", dh), b"shared_secret", enc + public, 32)
    context = (b"\x00" + _extracted(_SUITE, b"", b"psk_id_hash", b"")
               + _extracted(_SUITE, b"", b"info_hash", info))
    prk = _extracted(_SUITE, secret, b"secret", b"")
    return MessageKey(_expanded(_SUITE, prk, b"key", context, 32), _expanded(_SUITE, prk, b"base_nonce", context, 12))


def derived_private(ikm: bytes) -> bytes:
    """DeriveKeyPair of section 7.1.3: a private key from key material, as the published vectors make theirs."""
    return _expanded(_KEM_SUITE, _extracted(_KEM_SUITE, b"", b"dkp_prk", ikm), b"sk", b"", 32)


def hkdf_extract(salt: bytes, ikm: bytes) -> bytes:
    """HKDF-Extract with SHA-256 (RFC 5869)."""
    return hmac.digest(salt or bytes(_HASH_BYTES), ikm, "sha256")


def hkdf_expand(prk: bytes, info: bytes, length: int) -> bytes:
    """HKDF-Expand with SHA-256 (RFC 5869), up to 8,160 bytes."""
    out = block = b""
    for counter in range(1, -(-length // _HASH_BYTES) + 1):
        block = hmac.digest(prk, block + info + bytes([counter]), "sha256")
        out += block
    return out[:length]


def _extracted(suite: bytes, salt: bytes, label: bytes, ikm: bytes) -> bytes:
    return hkdf_extract(salt, b"HPKE-v1" + suite + label + ikm)


def _expanded(suite: bytes, prk: bytes, label: bytes, info: bytes, length: int) -> bytes:
    return hkdf_expand(prk, length.to_bytes(2, "big") + b"HPKE-v1" + suite + label + info, length)
