"""The key schedule that the browser's cipher is built on, against published values, the native library and another."""
from __future__ import annotations

from base64 import b64decode

from cryptography.hazmat.primitives.asymmetric.x25519 import X25519PrivateKey, X25519PublicKey
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from hypothesis import given
from hypothesis import strategies as st
from pyhpke import AEADId, CipherSuite, KDFId, KEMId

from app.exchange.crypto import cipher
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.hpke import derived_private, hkdf_expand, hkdf_extract, message_key
from app.exchange.crypto.sealing import seal
from tests.exchange.fixed import COACH, READERS, run
from tests.exchange.published import HPKE

#: A library that somebody else wrote from the same document.
OTHER = CipherSuite.new(KEMId.DHKEM_X25519_HKDF_SHA256, KDFId.HKDF_SHA256, AEADId.AES256_GCM)
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


def test_the_other_library_meets_the_whole_published_vector() -> None:
    """So that agreeing with it is agreeing with what was published: keys, the first message, what is exported."""
    assert OTHER.kem.derive_key_pair(HPKE["ikmR"]).public_key.to_public_bytes() == HPKE["pkRm"]
    reader = OTHER.kem.deserialize_private_key(HPKE["skRm"])
    opened = OTHER.create_recipient_context(HPKE["enc"], reader, info=HPKE["info"])
    assert opened.open(HPKE["ct"], aad=HPKE["aad"]) == HPKE["pt"]
    assert opened.export(b"", 32) == HPKE["exported"]
    assert opened.export(b"TestContext", 32) == HPKE["exported for TestContext"]
    writer = OTHER.kem.derive_key_pair(HPKE["ikmE"])
    enc, sealing = OTHER.create_sender_context(OTHER.kem.deserialize_public_key(HPKE["pkRm"]), info=HPKE["info"],
                                               eks=writer)
    assert (enc, sealing.seal(HPKE["pt"], aad=HPKE["aad"])) == (HPKE["enc"], HPKE["ct"])


@given(_KEYS, st.binary(max_size=80), st.binary(max_size=80))
def test_the_other_library_opens_what_the_program_sealed_and_the_other_way(theirs: bytes, plain: bytes, info: bytes
                                                                            ) -> None:
    """Natively, for any key, message and info."""
    public = run(cipher.sealing_public(theirs))
    sealed = run(cipher.hpke_seal(public, plain, info))
    reader = OTHER.kem.deserialize_private_key(theirs)
    assert OTHER.create_recipient_context(sealed[:32], reader, info=info).open(sealed[32:]) == plain
    enc, context = OTHER.create_sender_context(OTHER.kem.deserialize_public_key(public), info=info)
    assert run(cipher.hpke_open(theirs, enc + context.seal(plain), info)) == plain


@given(_KEYS, _KEYS, st.binary(max_size=80))
def test_the_schedule_gives_what_the_other_library_seals_with(mine: bytes, theirs: bytes, info: bytes) -> None:
    """As a browser does it: the other one opens what the schedule's key and nonce have sealed."""
    enc, public = run(cipher.sealing_public(mine)), run(cipher.sealing_public(theirs))
    once = message_key(_shared(mine, public), enc, public, info)
    sealed = run(cipher.aes_seal(once.key, once.nonce, b"plain", b""))
    reader = OTHER.kem.deserialize_private_key(theirs)
    assert OTHER.create_recipient_context(enc, reader, info=info).open(sealed) == b"plain"


def test_a_whole_file_is_opened_by_the_other_library() -> None:
    """Header, key and body as RETURN.md says, with the other library in the place of ours."""
    data = run(seal(b"plain", READERS, Kind.RETURN))
    lines = data.split(b"\n", 5)
    before = data[:len(data) - len(lines[5])]
    info = b"".join(b" ".join(line.split(b" ")[:2]) + b"\n" for line in lines[:4])
    sealed = b64decode(lines[1].split(b" ")[2])
    reader = OTHER.kem.deserialize_private_key(COACH.sealing.private)
    key = OTHER.create_recipient_context(sealed[:32], reader, info=info).open(sealed[32:])
    assert AESGCM(key).decrypt(bytes(12), lines[5], before) == b"plain"
