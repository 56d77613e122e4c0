"""Whose pack may be taken in."""
from __future__ import annotations

import pytest

from app.domain.errors import OlderKeys, RetiredKey, UntrustedSigner
from app.exchange.crypto.keys import CoachKeys, KeyPair
from app.exchange.packs.manifest import public_keys, signed_key_change
from app.exchange.packs.pack import Pack, build_pack, read_pack
from app.exchange.packs.trust import Trust, pin, trust
from tests.exchange.fixed import COACH, RECOVERY_SIGNING, SOURCE, STRANGER, coach_keys, run

NEW = coach_keys(61)
NEW_RECOVERY = CoachKeys(NEW.signing, NEW.sealing, STRANGER.recovery_signing, STRANGER.recovery_sealing)


def _pack(coach: CoachKeys, by: KeyPair | None = None, epoch: int = 0) -> Pack:
    change = run(signed_key_change(public_keys(coach), by, epoch)) if by else None
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


# ------------------------------------------------------------------ what was said before, and is said again

FIRST, SECOND = 1_790_000_000, 1_800_000_000
THIRD = coach_keys(71)


def test_a_statement_is_believed_once_and_no_older_one_after_it() -> None:
    """K0, K1, K2, and then any pack of K1 again."""
    one, two = _pack(NEW, RECOVERY_SIGNING, FIRST), _pack(THIRD, RECOVERY_SIGNING, SECOND)
    assert trust(one, KNOWN) is Trust.CHANGED
    after_one = pin(one, KNOWN)
    assert trust(two, after_one) is Trust.CHANGED
    after_two = pin(two, after_one)
    assert (after_one.epoch, after_two.epoch) == (FIRST, SECOND)
    for replayed in (one, _pack(NEW, RECOVERY_SIGNING, SECOND), _pack(NEW, RECOVERY_SIGNING)):
        with pytest.raises(OlderKeys):
            trust(replayed, after_two)
    assert trust(_pack(NEW, RECOVERY_SIGNING, SECOND + 1), after_two) is Trust.CHANGED


def test_the_same_statement_in_the_next_pack_asks_nothing() -> None:
    """It goes with every pack from then on; its keys are pinned already."""
    one = _pack(NEW, RECOVERY_SIGNING, FIRST)
    assert trust(one, pin(one, KNOWN)) is Trust.KNOWN
    assert trust(_pack(COACH, RECOVERY_SIGNING), KNOWN) is Trust.KNOWN


def test_a_statement_without_an_epoch_is_believed_until_there_was_one_with() -> None:
    """As earlier programs wrote it."""
    old = _pack(NEW, RECOVERY_SIGNING)
    assert trust(old, KNOWN) is Trust.CHANGED and pin(old, KNOWN).epoch == 0
    assert trust(_pack(THIRD, RECOVERY_SIGNING), pin(old, KNOWN)) is Trust.CHANGED


def test_a_key_that_was_replaced_never_comes_back() -> None:
    """Not with a newer statement, not as the pinned one, not where nothing is pinned."""
    retired = {NEW.signing.public: "Nell Harker"}
    for pack in (_pack(NEW), _pack(NEW, RECOVERY_SIGNING, SECOND), _pack(NEW, COACH.signing)):
        for known in (KNOWN, None, pin(_pack(NEW))):
            with pytest.raises(RetiredKey):
                trust(pack, known, retired=retired)


def test_a_statement_of_a_day_to_come_is_not_believed() -> None:
    """So nobody makes one that no later one can beat; a day ahead may be another's clock."""
    for epoch, held in ((FIRST, True), (FIRST + 86_400, True), (FIRST + 86_401, False)):
        pack = _pack(NEW, RECOVERY_SIGNING, epoch)
        if held:
            assert trust(pack, KNOWN, now_s=FIRST) is Trust.CHANGED
        else:
            with pytest.raises(OlderKeys):
                trust(pack, KNOWN, now_s=FIRST)
    first_sight = _pack(NEW, RECOVERY_SIGNING, SECOND)
    assert pin(first_sight, None, FIRST).epoch == FIRST + 86_400


def test_a_stolen_signing_key_cannot_shut_the_recovery_key_out() -> None:
    """Whatever epoch it names."""
    thief = _pack(NEW, COACH.signing, SECOND)
    after = pin(thief, KNOWN)
    assert after.epoch == 0
    assert trust(_pack(THIRD, RECOVERY_SIGNING, FIRST), after) is Trust.CHANGED


def test_the_epoch_of_a_first_pack_is_pinned_with_it() -> None:
    """Who meets the coach later knows as much as who was there before."""
    after = pin(_pack(THIRD, RECOVERY_SIGNING, SECOND))
    assert after.epoch == SECOND
    with pytest.raises(OlderKeys):
        trust(_pack(NEW, RECOVERY_SIGNING, FIRST), after)
