"""A sealed copy: what its passphrase opens, and all that it does not."""
from __future__ import annotations

import pytest

from app.domain.errors import AppError, DamagedFile, EasyPassphrase, NewerFormat, NotOurFile, WrongPassphrase
from app.exchange.crypto import cipher
from app.exchange.crypto.passphrase import (
    LEAST,
    MOST_ROUNDS,
    ROUNDS,
    SUGGESTED_WORDS,
    is_sealed_copy,
    open_copy,
    require_strong,
    seal_copy,
    suggested_passphrase,
)
from app.exchange.crypto.word_list import WORDS
from tests.exchange.fixed import run

PHRASE = "lantern gravel oboe unpaid café"


@pytest.fixture(scope="module")
def sealed() -> bytes:
    """One copy, since stretching takes its time."""
    return run(seal_copy(b"SQLite format 3\x00 and so on", PHRASE))


def test_stretching_gives_the_published_bytes() -> None:
    """RFC 7914, section 11: PBKDF2 with HMAC-SHA256, the first 32 bytes of each."""
    assert run(cipher.stretched(b"passwd", b"salt", 1)).hex() == (
        "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc")
    assert run(cipher.stretched(b"Password", b"NaCl", 80_000)).hex() == (
        "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56")


def test_a_copy_opens_however_its_accents_were_typed(sealed: bytes) -> None:
    """Composed or not, and with a space at the end; nothing of what is in it can be read."""
    assert is_sealed_copy(sealed) and b"SQLite" not in sealed
    assert sealed.startswith(b"evenload-copy 1\npbkdf2-sha256 %d " % ROUNDS)
    assert run(open_copy(sealed, "c", PHRASE.replace("é", "e\u0301") + " ")) == b"SQLite format 3\x00 and so on"


def test_another_passphrase_or_a_changed_byte_opens_nothing(sealed: bytes) -> None:
    """Of the body, of the salt, and an end that is cut off."""
    salt_at = sealed.index(b" ", 20) + 8
    changed = sealed[:salt_at] + bytes([sealed[salt_at] ^ 1]) + sealed[salt_at + 1:]
    tries = ((sealed, PHRASE.upper()), (sealed[:-1], PHRASE), (sealed[:-20] + b"?" + sealed[-19:], PHRASE),
             (changed, PHRASE))
    for data, phrase in tries:
        with pytest.raises((WrongPassphrase, DamagedFile)):
            run(open_copy(data, "c", phrase))


@pytest.mark.parametrize(("harm", "error"), [
    (lambda d: d[1:], NotOurFile), (lambda d: d.replace(b"copy 1", b"copy 2", 1), NewerFormat),
    (lambda d: d.replace(b"pbkdf2", b"scrypt", 1), DamagedFile),
    (lambda d: d.replace(b"body", b"bodi", 1), DamagedFile),
    (lambda d: d.replace(b"%d" % ROUNDS, b"%d" % (MOST_ROUNDS + 1), 1), DamagedFile),
    (lambda d: d.replace(b"%d" % ROUNDS, b"9999", 1), DamagedFile),
    (lambda d: d.replace(b"%d" % ROUNDS, b"0600000", 1), DamagedFile), (lambda d: d[:30], DamagedFile),
])
def test_a_head_that_is_none_is_refused_before_anything_is_stretched(
    sealed: bytes, harm: object, error: type[AppError],
) -> None:
    """So that no file keeps a device busy."""
    assert callable(harm)
    with pytest.raises(error):
        run(open_copy(harm(sealed), "c", PHRASE))


@pytest.mark.parametrize("phrase", ["", "short", "x" * 40, "abababababababab", " " * 20 + "a"])
def test_an_easy_passphrase_seals_nothing(phrase: str) -> None:
    """Too few characters, or hardly any that differ."""
    with pytest.raises(EasyPassphrase):
        run(seal_copy(b"x", phrase))


def test_a_suggested_passphrase_is_strong_and_never_the_same() -> None:
    """Six words of the list."""
    found = {suggested_passphrase() for _ in range(20)}
    assert len(found) == 20
    for phrase in found:
        require_strong(phrase)
        words = phrase.split()
        assert len(words) == SUGGESTED_WORDS and set(words) <= set(WORDS) and len(phrase) >= LEAST
