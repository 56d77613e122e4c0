"""The browser's own cryptography behind `cipher`. Keys are raw, 32 bytes each.

It needs a secure context: HTTPS, or this machine's own address. Private keys go in as PKCS#8, which for these two
curves is a fixed prefix before the raw key (RFC 8410).
"""
from __future__ import annotations

import base64
from collections.abc import Awaitable
from typing import Any

from js import Object, crypto
from pyodide.ffi import JsException, to_js

from app.exchange.crypto.cipher_terms import KEY_BYTES, SIGNATURE_BYTES, Unopened, random_bytes
from app.exchange.crypto.hpke import MessageKey, message_key

_PKCS8_X25519 = bytes.fromhex("302e020100300506032b656e04220420")
_PKCS8_ED25519 = bytes.fromhex("302e020100300506032b657004220420")
#: The base point of X25519: its product with a private key is the public one.
_BASE_POINT = b"\x09" + bytes(31)


async def signing_public(private: bytes) -> bytes:
    """The Ed25519 public key of a private one."""
    key = await _imported("pkcs8", _PKCS8_ED25519 + _sized(private), _named("Ed25519"), "sign", extractable=True)
    # a private key leaves as JWK alone with its public half beside it
    return _base64url((await crypto.subtle.exportKey("jwk", key)).x)


async def sealing_public(private: bytes) -> bytes:
    """The X25519 public key of a private one."""
    return await _x25519(private, _BASE_POINT)


async def ed25519_sign(private: bytes, message: bytes) -> bytes:
    """An Ed25519 signature (RFC 8032), 64 bytes."""
    key = await _imported("pkcs8", _PKCS8_ED25519 + _sized(private), _named("Ed25519"), "sign")
    return await _bytes(crypto.subtle.sign(_named("Ed25519"), key, _array(message)))


async def ed25519_verify(public: bytes, signature: bytes, message: bytes) -> bool:
    """Whether the signature is that key's over that message; False for bytes that are no key at all."""
    if len(public) != KEY_BYTES or len(signature) != SIGNATURE_BYTES:
        return False
    try:
        key = await _imported("raw", public, _named("Ed25519"), "verify")
        return bool(await crypto.subtle.verify(_named("Ed25519"), key, _array(signature), _array(message)))
    except JsException:
        return False


async def aes_seal(key: bytes, nonce: bytes, plain: bytes, bound: bytes) -> bytes:
    """AES-256-GCM with `bound` as additional data; the tag comes last."""
    ready = await _imported("raw", _sized(key), _named("AES-GCM"), "encrypt")
    return await _bytes(crypto.subtle.encrypt(_gcm(nonce, bound), ready, _array(plain)))


async def aes_open(key: bytes, nonce: bytes, sealed: bytes, bound: bytes) -> bytes:
    """What `aes_seal` was given.

    Raises:
        Unopened: anything differs.
    """
    try:
        ready = await _imported("raw", _sized(key), _named("AES-GCM"), "decrypt")
        return await _bytes(crypto.subtle.decrypt(_gcm(nonce, bound), ready, _array(sealed)))
    except (JsException, ValueError) as error:
        raise Unopened from error


async def hpke_seal(public: bytes, plain: bytes, info: bytes) -> bytes:
    """HPKE (RFC 9180) base mode, one message: DHKEM(X25519, HKDF-SHA256), HKDF-SHA256, AES-256-GCM, no additional data.

    Returns:
        The encapsulated key, then the cipher text.

    Raises:
        ValueError: the public key is none.
    """
    ephemeral = random_bytes(KEY_BYTES)
    enc = await sealing_public(ephemeral)
    try:
        shared = await _x25519(ephemeral, _sized(public))
    except JsException as error:
        raise ValueError("not an X25519 public key") from error
    once: MessageKey = message_key(shared, enc, public, info)
    return enc + await aes_seal(once.key, once.nonce, plain, b"")


async def hpke_open(private: bytes, sealed: bytes, info: bytes) -> bytes:
    """What `hpke_seal` was given.

    Raises:
        Unopened: anything differs.
    """
    enc = sealed[:KEY_BYTES]
    try:
        shared = await _x25519(private, _sized(enc))
    except (JsException, ValueError) as error:
        raise Unopened from error
    once = message_key(shared, enc, await sealing_public(private), info)
    return await aes_open(once.key, once.nonce, sealed[KEY_BYTES:], b"")


async def stretched(secret: bytes, salt: bytes, rounds: int) -> bytes:
    """A key of 32 bytes from something that people remember: PBKDF2 with HMAC-SHA256 (RFC 8018)."""
    ready = await _imported("raw", secret, _named("PBKDF2"), "deriveBits")
    how = _object(name="PBKDF2", hash="SHA-256", salt=_array(salt), iterations=rounds)
    return await _bytes(crypto.subtle.deriveBits(how, ready, KEY_BYTES * 8))


async def _x25519(private: bytes, public: bytes) -> bytes:
    """Raises JsException for a point that gives nothing but zeros, as RFC 7748 asks."""
    mine = await _imported("pkcs8", _PKCS8_X25519 + _sized(private), _named("X25519"), "deriveBits")
    other = await _imported("raw", public, _named("X25519"))
    return await _bytes(crypto.subtle.deriveBits(_object(name="X25519", public=other), mine, 256))


async def _imported(form: str, key: bytes, algorithm: Any, *uses: str, extractable: bool = False) -> Any:
    return await crypto.subtle.importKey(form, _array(key), algorithm, extractable, to_js(list(uses)))


def _sized(key: bytes) -> bytes:
    if len(key) != KEY_BYTES:
        raise ValueError(f"a key has {KEY_BYTES} bytes")
    return key


def _gcm(nonce: bytes, bound: bytes) -> Any:
    return _object(name="AES-GCM", iv=_array(nonce), additionalData=_array(bound), tagLength=128)


def _named(name: str) -> Any:
    return _object(name=name)


def _object(**members: Any) -> Any:
    return to_js(members, dict_converter=Object.fromEntries)


def _array(data: bytes) -> Any:
    """A copy of its own: the browser must not look into Python's memory, which may move."""
    return to_js(bytes(data))


async def _bytes(answer: Awaitable[Any]) -> bytes:
    return bytes((await answer).to_bytes())


def _base64url(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))
