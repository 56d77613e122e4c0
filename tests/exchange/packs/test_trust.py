"""Whose pack may be taken in."""
from __future__ import annotations

import pytest

from app.domain.errors import UntrustedSigner
from app.exchange.crypto.keys import CoachKeys, KeyPair
from app.exchange.packs.manifest import public_keys, signed_key_change
from app.exchange.packs.pack import Pack, build_pack, read_pack
from app.exchange.packs.trust import Trust, pin, trust
from tests.exchange.fixed import COACH, RECOVERY_SIGNING, SOURCE, STRANGER, coach_keys, run

NEW = coach_keys(61)
NEW_RECOVERY = CoachKeys(NEW.signing, NEW.sealing, STRANGER.recovery_signing, STRANGER.recovery_sealing)


def _pack(coach: CoachKeys, by: KeyPair | None = None) -> Pack:
    change = run(signed_key_change(public_keys(coach), by)) if by else None
    return run(read_pack(run(build_pack(SOURCE, coach=coach, key_change=change)), "file"))


KNOWN = pin(_pack(COACH))


def test_the_first_pack_asks_for_the_matching_words() -> None:
    """Nothing is pinned yet."""
    assert trust(_pack(COACH), None) is Trust.FIRST_SIGHT


def test_the_pinned_key_is_known() -> None:
    """No question asked."""
    assert trust(_pack(COACH), KNOWN) is Trust.KNOWN


@pytest.mark.parametrize("by", [COACH.signing, RECOVERY_SIGNING], ids=["old key", "recovery key"])
def test_a_new_key_is_believed_from_the_old_or_the_recovery_key(by: KeyPair) -> None:
    """Then the new one is pinned."""
    pack = _pack(NEW, by)
    assert trust(pack, KNOWN) is Trust.CHANGED
    assert trust(_pack(NEW), pin(pack)) is Trust.KNOWN


def test_a_new_recovery_key_is_believed_from_the_recovery_key_alone() -> None:
    """So a thief with the signing key cannot lock the coach out."""
    assert trust(_pack(NEW_RECOVERY, RECOVERY_SIGNING), KNOWN) is Trust.CHANGED
    same_key = CoachKeys(COACH.signing, COACH.sealing, STRANGER.recovery_signing, STRANGER.recovery_sealing)
    assert trust(_pack(same_key, RECOVERY_SIGNING), KNOWN) is Trust.CHANGED
    for pack in (_pack(NEW_RECOVERY, COACH.signing), _pack(same_key), _pack(same_key, COACH.signing)):
        with pytest.raises(UntrustedSigner):
            trust(pack, KNOWN)


def test_anybody_else_is_not_believed() -> None:
    """Without a statement, or with one by a stranger, or by the new key itself."""
    for pack in (_pack(STRANGER), _pack(NEW), _pack(NEW, STRANGER.signing), _pack(NEW, NEW.signing)):
        with pytest.raises(UntrustedSigner):
            trust(pack, KNOWN)


def test_a_key_that_was_given_up_is_not_believed_any_more() -> None:
    """Once the new one is pinned, the old one is a stranger's."""
    after = pin(_pack(NEW, RECOVERY_SIGNING))
    for pack in (_pack(COACH), _pack(STRANGER, COACH.signing)):
        with pytest.raises(UntrustedSigner):
            trust(pack, after)
