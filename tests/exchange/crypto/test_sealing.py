"""Sealed bytes: opened by each reader, by nobody else, and not at all once changed."""
from __future__ import annotations

import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import DamagedFile, NewerFormat, NotOurFile, TooLarge, WrongRecipient
from app.exchange.crypto import cipher, sealing
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import KeyPair, sealing_pair
from app.exchange.crypto.sealing import OpenedSeal, open_sealed, reader_ids, seal
from tests.exchange.damage import assert_refused, cut, flipped
from tests.exchange.fixed import CLIENT, COACH, OTHER_CLIENT, READERS, RECOVERY_SEALING, STRANGER, run


async def _open(data: bytes, *keys: KeyPair) -> OpenedSeal:
    return await open_sealed(data, "file", Kind.RETURN, keys or (COACH.sealing,))


@given(st.binary(max_size=2000))
def test_every_reader_opens_what_was_sealed(plain: bytes) -> None:
    """The coach, the coach's recovery key and the client read the same."""
    data = run(seal(plain, READERS, Kind.RETURN))
    for pair in (COACH.sealing, RECOVERY_SEALING, CLIENT.sealing):
        assert run(_open(data, STRANGER.sealing, pair)).plain == plain


def test_nobody_else_opens_it() -> None:
    """Without a reader's key it is for someone else, said so."""
    data = run(seal(b"plain", READERS, Kind.RETURN))
    assert_refused(lambda d: _open(d, STRANGER.sealing, OTHER_CLIENT.sealing), data, WrongRecipient)
    with pytest.raises(WrongRecipient):
        run(open_sealed(data, "file", Kind.RETURN, ()))


def test_any_flipped_byte_and_any_cut_is_refused() -> None:
    """In any line and in the body, for each reader."""
    data = run(seal(b"plain", READERS, Kind.RETURN))
    for pair in (COACH.sealing, CLIENT.sealing):
        for harmed in (*flipped(data), *cut(data), data + b"\0", data + b"\n"):
            assert_refused(lambda d, pair=pair: _open(d, pair), harmed)  # type: ignore[misc]


def test_a_reader_cannot_be_taken_out_put_in_or_moved() -> None:
    """The header is bound to every sealed key and to the body."""
    data = run(seal(b"plain", READERS, Kind.RETURN))
    first, *lines, rest = data.split(b"\n", 4)
    other = run(seal(b"plain", (STRANGER.sealing.public,), Kind.RETURN)).split(b"\n")[1]
    for changed in (lines[:2], [lines[0], lines[2]], [lines[1], lines[0], lines[2]], [*lines, other],
                    [*lines, lines[0]], []):
        assert_refused(_open, b"\n".join([first, *changed, rest]))


def test_a_return_is_no_reply() -> None:
    """A seal holds for its kind alone, even with the first line changed."""
    data = run(seal(b"plain", READERS, Kind.RETURN))
    with pytest.raises(NotOurFile):
        run(open_sealed(data, "file", Kind.REPLY, (COACH.sealing,)))
    with pytest.raises(DamagedFile):
        run(open_sealed(data.replace(b"return", b"reply", 1), "file", Kind.REPLY, (COACH.sealing,)))


def test_a_newer_major_version_is_said() -> None:
    """So that the person can be told to update."""
    data = run(seal(b"plain", READERS, Kind.RETURN))
    assert_refused(_open, data.replace(b" 1\n", b" 2\n", 1), NewerFormat)
    for line in (b" 0\n", b" 01\n", b" 1 \n", b" 1\r\n", b"\n"):
        assert_refused(_open, data.replace(b" 1\n", line, 1), NotOurFile)


def test_a_file_over_the_limit_is_refused_before_it_is_looked_at() -> None:
    """Size first."""
    assert_refused(_open, b"evenload-return 1\n" + bytes(sealing.MOST_BYTES), TooLarge)


def test_readers_are_one_to_eight_different_keys() -> None:
    """Anything else is a mistake of the program."""
    for readers in ((), (READERS[0], READERS[0]), tuple(bytes([i]) * 32 for i in range(1, 10))):
        with pytest.raises(ValueError):
            run(seal(b"", readers, Kind.RETURN))


def test_whom_a_file_is_for_can_be_seen_without_opening_it() -> None:
    """By key id, in order."""
    data = run(seal(b"plain", READERS, Kind.RETURN))
    assert len(reader_ids(data, "file", Kind.RETURN)) == 3


def test_two_seals_of_one_text_share_nothing_but_the_header() -> None:
    """Every file has a key of its own."""
    first, second = run(seal(b"plain", READERS, Kind.RETURN)), run(seal(b"plain", READERS, Kind.RETURN))
    assert first[-16:] != second[-16:] and first[60:160] != second[60:160]


# The published base-mode vector for 0x0020, 0x0001, 0x0002 (the CFRG's test-vectors.json for RFC 9180).
_INFO = bytes.fromhex("4f6465206f6e2061204772656369616e2055726e")
_READER = bytes.fromhex("497b4502664cfea5d5af0b39934dac72242a74f8480451e1aee7d6a53320333d")
_READER_PUBLIC = "430f4b9859665145a6b1ba274024487bd66f03a2dd577d7753c68d7d7d00c00c"
_ENC = bytes.fromhex("6c93e09869df3402d7bf231bf540fadd35cd56be14f97178f0954db94b7fc256")
_KEY = bytes.fromhex("f50b0609186798729ed0564b36ef2ef8044f1f9d05636874d1f46c819c7a669f")
_NONCE = bytes.fromhex("151d9929e2449747889bc923")
_TEXT = bytes.fromhex("4265617574792069732074727574682c20747275746820626561757479")
_AAD = bytes.fromhex("436f756e742d30")
_CIPHER = "e5d84cd531cfb583096e7cfa9641bd3079cf3a91cda813c52deb5f512be9931980a41de125a925cdad859d5b7a"


def test_hpke_derives_the_published_key_and_nonce() -> None:
    """The published cipher text has additional data, which the one-message interface does not take.

    So its key and nonce are first shown to give the published cipher text; then what they give without additional
    data is opened through our own call, which only succeeds if it derives the same key and nonce from `enc` and `info`.
    """
    assert AESGCM(_KEY).encrypt(_NONCE, _TEXT, _AAD).hex() == _CIPHER
    assert run(sealing_pair(_READER)).public.hex() == _READER_PUBLIC
    sealed = _ENC + AESGCM(_KEY).encrypt(_NONCE, _TEXT, b"")
    assert run(cipher.hpke_open(_READER, sealed, _INFO)) == _TEXT
    with pytest.raises(cipher.Unopened):
        run(cipher.hpke_open(_READER, sealed, _INFO + b"x"))


def test_hpke_refuses_the_point_that_gives_no_secret() -> None:
    """An encapsulated key of zeros would make a key that everybody knows (RFC 9180, section 7.1.4)."""
    with pytest.raises(cipher.Unopened):
        run(cipher.hpke_open(_READER, bytes(32) + bytes(48), _INFO))
