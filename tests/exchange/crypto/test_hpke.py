"""The key schedule that the browser's cipher is built on, against published values and the native library."""
from __future__ import annotations

from cryptography.hazmat.primitives.asymmetric.x25519 import X25519PrivateKey, X25519PublicKey
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.crypto import cipher
from app.exchange.crypto.hpke import derived_private, hkdf_expand, hkdf_extract, message_key
from tests.exchange.fixed import run
from tests.exchange.published import HPKE

_KEYS = st.binary(min_size=32, max_size=32)


def _shared(private: bytes, public: bytes) -> bytes:
    return X25519PrivateKey.from_private_bytes(private).exchange(X25519PublicKey.from_public_bytes(public))


def test_hkdf_gives_the_published_bytes() -> None:
    """RFC 5869, appendix A.1."""
    prk = hkdf_extract(bytes(range(13)), b"\x0b" * 22)
    assert prk.hex() == "077709362c2e32df0ddc3f0dc47bba6390b6c73bb50f9c3122ec844ad7c2b3e5"
    assert hkdf_expand(prk, bytes(range(0xF0, 0xFA)), 42).hex() == (
        "3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865")


def test_the_schedule_gives_the_published_key_nonce_and_message() -> None:
    """The working group's vector for this suite: keys from their material, then the first message."""
    assert derived_private(HPKE["ikmE"]) == HPKE["skEm"] and derived_private(HPKE["ikmR"]) == HPKE["skRm"]
    dh = _shared(HPKE["skRm"], HPKE["enc"])
    assert dh == _shared(HPKE["skEm"], HPKE["pkRm"])
    once = message_key(dh, HPKE["enc"], HPKE["pkRm"], HPKE["info"])
    assert once == (HPKE["key"], HPKE["base_nonce"])
    assert run(cipher.aes_seal(once.key, once.nonce, HPKE["pt"], HPKE["aad"])) == HPKE["ct"]


@given(_KEYS, _KEYS, st.binary(max_size=80), st.binary(max_size=80))
def test_the_native_library_opens_what_the_schedule_sealed(mine: bytes, theirs: bytes, plain: bytes,
                                                           info: bytes) -> None:
    """Any keys, any message, any info: byte for byte the same scheme."""
    enc, public = run(cipher.sealing_public(mine)), run(cipher.sealing_public(theirs))
    once = message_key(_shared(mine, public), enc, public, info)
    sealed = enc + run(cipher.aes_seal(once.key, once.nonce, plain, b""))
    assert run(cipher.hpke_open(theirs, sealed, info)) == plain
