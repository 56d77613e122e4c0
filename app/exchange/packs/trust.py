"""Whether a pack's signer is the coach that this device agreed on."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from app.domain.errors import OlderKeys, RetiredKey, UntrustedSigner
from app.exchange.packs.manifest import MOST_EPOCH
from app.exchange.packs.pack import Pack

#: A statement about keys may be made so much before its reader's clock.
AHEAD_S = 24 * 3600
NONE_RETIRED: Mapping[bytes, str] = {}


@dataclass(frozen=True)
class PinnedCoach:
    """The keys that were accepted with the last pack of this coach."""

    signing_key: bytes
    recovery_signing_key: bytes
    epoch: int = 0
    """Of the last statement by the recovery key that was believed; 0: there was none, or one without an epoch."""


class Trust(StrEnum):
    """Why a pack may be taken in."""

    FIRST_SIGHT = "first_sight"
    """Nothing is pinned: ask for the five matching words to be compared, then pin."""
    KNOWN = "known"
    """Signed by the pinned key."""
    CHANGED = "changed"
    """The coach's keys changed, and the pinned or the recovery key says so: ask for the words, then pin the new ones.
    """


def trust(pack: Pack, pinned: PinnedCoach | None, name: str = "", *, now_s: int = MOST_EPOCH,
          retired: Mapping[bytes, str] = NONE_RETIRED) -> Trust:
    """Whether the pack may be taken in.

    The old signing key may name a new one; a new recovery key is believed from the recovery key alone, so that a
    stolen signing key can always be replaced. What the recovery key said is never believed again once it said
    something later, and a key that was replaced never comes back.

    Args:
        pack: as it was read.
        pinned: what is known of its coach.
        name: of the file, for the errors.
        now_s: this device's clock, in seconds since 1970.
        retired: the coach's name by every signing key that was replaced.

    Raises:
        RetiredKey: signed by a key that was replaced.
        OlderKeys: a statement no newer than the one that was believed, or of a day to come.
        UntrustedSigner: another key without a statement by a pinned one.
    """
    if pack.signing_key in retired:
        raise RetiredKey(name=name, who=retired[pack.signing_key] or pack.coach)
    if pinned is None:
        return Trust.FIRST_SIGHT
    by = pack.key_change.by if pack.key_change else None
    same_recovery = pack.recovery_signing_key == pinned.recovery_signing_key
    if pack.signing_key == pinned.signing_key and same_recovery:
        return Trust.KNOWN
    if by == pinned.recovery_signing_key:
        if not _is_newer(pack, pinned, now_s):
            raise OlderKeys(name=name, who=pack.coach)
        return Trust.CHANGED
    if by == pinned.signing_key and same_recovery:
        return Trust.CHANGED
    raise UntrustedSigner(name=name, who=pack.coach)


def pin(pack: Pack, before: PinnedCoach | None = None, now_s: int = MOST_EPOCH) -> PinnedCoach:
    """What to pin once the pack is accepted. `before`: what was pinned, where the coach was known."""
    by_recovery = pack.recovery_signing_key if before is None else before.recovery_signing_key
    change = pack.key_change
    said = min(change.epoch, now_s + AHEAD_S) if change is not None and change.by == by_recovery else 0
    return PinnedCoach(pack.signing_key, pack.recovery_signing_key, max(said, before.epoch if before else 0))


def _is_newer(pack: Pack, pinned: PinnedCoach, now_s: int) -> bool:
    """A statement without an epoch is as old as can be: believed only while none with one was."""
    epoch = pack.key_change.epoch if pack.key_change else 0
    return pinned.epoch == 0 if epoch == 0 else pinned.epoch < epoch <= now_s + AHEAD_S
