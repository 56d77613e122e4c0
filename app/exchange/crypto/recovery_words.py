"""A recovery secret as words: 25 of them, to be printed or written down and typed again.

256 bits of secret and 19 bits of checksum are 25 words of eleven bits; the checksum is the first 19 bits of SHA-256
over a fixed line and the secret, so a wrong or swapped word is noticed in all but one of half a million cases.
"""
from __future__ import annotations

import hashlib
import re

from app.domain.errors import UnknownName, WrongValue
from app.exchange.crypto.word_list import WORDS

SECRET_BYTES = 32
WORD_COUNT = 25
_WORD_BITS = 11
_CHECK_BITS = WORD_COUNT * _WORD_BITS - SECRET_BYTES * 8
_CHECKED = b"evenload recovery words 1\n"
_PLACES = {word: place for place, word in enumerate(WORDS)}


def recovery_words(seed: bytes) -> tuple[str, ...]:
    """The 25 words of a secret of 32 bytes.

    Raises:
        ValueError: not 32 bytes.
    """
    if len(seed) != SECRET_BYTES:
        raise ValueError("a recovery secret has 32 bytes")
    bits = int.from_bytes(seed, "big") << _CHECK_BITS | _checksum(seed)
    return tuple(WORDS[bits >> (_WORD_BITS * place) & 2047] for place in reversed(range(WORD_COUNT)))


def seed_from_words(words: str) -> bytes:
    """The secret that the words stand for. Case, line ends, numbers and punctuation between them do not matter.

    Raises:
        WrongValue: not 25 words, or words that do not belong together.
        UnknownName: a word that is not in the list.
    """
    given = re.findall(r"[a-z]+", words.lower())
    if len(given) != WORD_COUNT:
        raise WrongValue(where="recovery words", value=len(given), expected=f"{WORD_COUNT} words")
    bits = 0
    for number, word in enumerate(given, 1):
        if word not in _PLACES:
            raise UnknownName(kind=f"recovery word (number {number})", name=word)
        bits = bits << _WORD_BITS | _PLACES[word]
    seed = (bits >> _CHECK_BITS).to_bytes(SECRET_BYTES, "big")
    if bits & ((1 << _CHECK_BITS) - 1) != _checksum(seed):
        raise WrongValue(where="recovery words", value="these words", expected="the words of one sheet, in their order")
    return seed


def _checksum(seed: bytes) -> int:
    return int.from_bytes(hashlib.sha256(_CHECKED + seed).digest(), "big") >> (256 - _CHECK_BITS)
