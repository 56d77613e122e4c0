"""Key pairs, their words and their ids."""
from __future__ import annotations

from app.exchange.crypto.keys import (
    key_id,
    matching_words,
    new_sealing_pair,
    new_signing_pair,
    recovery_pairs,
    signing_pair,
)
from app.exchange.crypto.signing import sign, verify
from app.exchange.crypto.word_list import WORDS
from tests.exchange.fixed import COACH, run


def _one_apart(a: str, b: str) -> bool:
    """Whether one letter changed, added or lost turns one into the other."""
    if len(a) > len(b):
        a, b = b, a
    if len(a) == len(b):
        return sum(x != y for x, y in zip(a, b, strict=True)) == 1
    return len(b) - len(a) == 1 and any(b[:i] + b[i + 1:] == a for i in range(len(b)))


def test_the_word_list_is_2048_plain_words_told_apart_by_more_than_a_letter() -> None:
    """Eleven bits a word, and a letter misheard does not make another word of the list."""
    assert len(WORDS) == len(set(WORDS)) == 2048 and list(WORDS) == sorted(WORDS)
    assert all(word.isascii() and word.islower() and 4 <= len(word) <= 9 for word in WORDS)
    wildcards: dict[str, str] = {}
    for word in WORDS:
        for key in {word[:i] + "?" + word[i + 1:] for i in range(len(word))}:
            assert key not in wildcards, (word, wildcards.get(key))
            wildcards[key] = word
    listed = set(WORDS)
    assert not [w for w in WORDS for i in range(len(w)) if w[:i] + w[i + 1:] in listed]
    assert _one_apart("barn", "bark") and not _one_apart("barn", "bank" + "s")


def test_the_words_of_a_key_never_change() -> None:
    """People have written them down; the list and the derivation are fixed."""
    assert matching_words(bytes(32)) == ("firefly", "newspaper", "lizard", "drama", "picture")
    assert key_id(bytes(32)) == "66687aadf862bd776c8fc18b8e9f8e20"


def test_every_bit_of_a_key_changes_its_words() -> None:
    """The words come from the whole key."""
    keys = [bytes(32)] + [(1 << bit).to_bytes(32, "big") for bit in range(256)]
    assert len({matching_words(key) for key in keys}) == 257


def test_fresh_pairs_differ_and_never_print_their_private_half() -> None:
    """A key in a log would be a key given away."""
    first, second = run(new_signing_pair()), run(new_signing_pair())
    assert first.private != second.private and len(first.public) == len(first.private) == 32
    assert first.private.hex() not in repr(first) and repr(first.private) not in repr(first)
    assert run(new_sealing_pair()).public != run(new_sealing_pair()).public


def test_one_recovery_secret_gives_the_same_two_pairs_again() -> None:
    """A recovery sheet holds one secret."""
    signing, sealing = run(recovery_pairs(bytes(range(32))))
    assert (signing, sealing) == run(recovery_pairs(bytes(range(32))))
    assert signing.private != sealing.private


def test_a_signature_holds_for_its_message_and_key_alone() -> None:
    """Changed message, changed signature, another key, no key: all False."""
    signature = run(sign(b"message", COACH.signing))
    other = run(signing_pair(bytes(32)))
    assert run(verify(b"message", signature, COACH.signing.public))
    assert not run(verify(b"massage", signature, COACH.signing.public))
    assert not run(verify(b"message", signature, other.public))
    assert not run(verify(b"message", signature[:-1], COACH.signing.public))
    assert not run(verify(b"message", signature, b""))


def test_ed25519_gives_the_published_signature() -> None:
    """RFC 8032, section 7.1, test 2."""
    pair = run(signing_pair(bytes.fromhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")))
    assert pair.public.hex() == "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c"
    assert run(sign(b"\x72", pair)).hex() == (
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
        "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00")
