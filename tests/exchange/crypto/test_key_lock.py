"""Private keys under a passphrase: only that one opens them, and a change in any byte is found."""
from __future__ import annotations

import asyncio
import json

import pytest

from app.domain.errors import EasyPassphrase, WrongKeyPassphrase
from app.exchange.crypto.key_lock import SealedKeys, open_keys, seal_keys

PASSPHRASE = "kettle plum ladder north"
PRIVATE = {"signing": bytes(range(32)), "sealing": bytes(32)}


def test_what_was_sealed_opens_with_its_passphrase_alone() -> None:
    """However it is kept in between; spaces at either end do not matter, other letters do."""
    kept = asyncio.run(seal_keys(PRIVATE, PASSPHRASE))
    again = SealedKeys.from_json(json.loads(json.dumps(kept.as_json())))
    assert asyncio.run(open_keys(again, f" {PASSPHRASE} ")) == PRIVATE
    for wrong in ("kettle plum ladder south", "", PASSPHRASE.upper()):
        with pytest.raises(WrongKeyPassphrase):
            asyncio.run(open_keys(again, wrong))
    assert all(key not in json.dumps(kept.as_json()).encode() for key in PRIVATE.values())
    assert "sealed" not in repr(kept) and "salt" not in repr(kept.how)


def test_a_changed_byte_opens_nothing() -> None:
    """At either end and in the middle."""
    kept = asyncio.run(seal_keys(PRIVATE, PASSPHRASE))
    for at in (0, len(kept.sealed) // 2, len(kept.sealed) - 1):
        changed = bytes(b ^ (i == at) for i, b in enumerate(kept.sealed))
        with pytest.raises(WrongKeyPassphrase):
            asyncio.run(open_keys(SealedKeys(kept.how, changed), PASSPHRASE))


def test_twice_the_same_is_sealed_in_two_ways() -> None:
    """A salt of its own each time, so the key is used once."""
    first, second = (asyncio.run(seal_keys(PRIVATE, PASSPHRASE)) for _ in range(2))
    assert first.how.salt != second.how.salt and first.sealed != second.sealed


@pytest.mark.parametrize("easy", ["", "short", "aaaaaaaaaaaaaaaaaaaa"])
def test_what_would_be_guessed_seals_nothing(easy: str) -> None:
    """As for a copy."""
    with pytest.raises(EasyPassphrase):
        asyncio.run(seal_keys(PRIVATE, easy))
