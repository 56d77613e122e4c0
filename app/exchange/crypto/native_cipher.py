"""The `cryptography` library behind `cipher`. Keys are raw, 32 bytes each."""
from __future__ import annotations

import hashlib

from cryptography.exceptions import InvalidSignature, InvalidTag
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
from cryptography.hazmat.primitives.asymmetric.x25519 import X25519PrivateKey, X25519PublicKey
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.hpke import AEAD, KDF, KEM, Suite

from app.exchange.crypto.cipher_terms import KEY_BYTES, Unopened

_HPKE = Suite(KEM.X25519, KDF.HKDF_SHA256, AEAD.AES_256_GCM)


async def signing_public(private: bytes) -> bytes:
    """The Ed25519 public key of a private one."""
    return Ed25519PrivateKey.from_private_bytes(private).public_key().public_bytes_raw()


async def sealing_public(private: bytes) -> bytes:
    """The X25519 public key of a private one."""
    return X25519PrivateKey.from_private_bytes(private).public_key().public_bytes_raw()


async def ed25519_sign(private: bytes, message: bytes) -> bytes:
    """An Ed25519 signature (RFC 8032), 64 bytes."""
    return Ed25519PrivateKey.from_private_bytes(private).sign(message)


async def ed25519_verify(public: bytes, signature: bytes, message: bytes) -> bool:
    """Whether the signature is that key's over that message; False for bytes that are no key at all."""
    try:
        Ed25519PublicKey.from_public_bytes(public).verify(signature, message)
    except (InvalidSignature, ValueError):
        return False
    return True


async def aes_seal(key: bytes, nonce: bytes, plain: bytes, bound: bytes) -> bytes:
    """AES-256-GCM with `bound` as additional data; the tag comes last."""
    return AESGCM(key).encrypt(nonce, plain, bound)


async def aes_open(key: bytes, nonce: bytes, sealed: bytes, bound: bytes) -> bytes:
    """What `aes_seal` was given.

    Raises:
        Unopened: anything differs.
    """
    try:
        return AESGCM(key).decrypt(nonce, sealed, bound)
    except (InvalidTag, ValueError) as error:
        raise Unopened from error


async def hpke_seal(public: bytes, plain: bytes, info: bytes) -> bytes:
    """HPKE (RFC 9180) base mode, one message: DHKEM(X25519, HKDF-SHA256), HKDF-SHA256, AES-256-GCM, no additional data.

    Returns:
        The encapsulated key, then the cipher text.
    """
    return _HPKE.encrypt(plain, X25519PublicKey.from_public_bytes(public), info)


async def hpke_open(private: bytes, sealed: bytes, info: bytes) -> bytes:
    """What `hpke_seal` was given.

    Raises:
        Unopened: anything differs.
    """
    try:
        return _HPKE.decrypt(sealed, X25519PrivateKey.from_private_bytes(private), info)
    except (InvalidTag, ValueError) as error:
        raise Unopened from error


async def stretched(secret: bytes, salt: bytes, rounds: int) -> bytes:
    """A key of 32 bytes from something that people remember: PBKDF2 with HMAC-SHA256 (RFC 8018)."""
    return hashlib.pbkdf2_hmac("sha256", secret, salt, rounds, KEY_BYTES)
