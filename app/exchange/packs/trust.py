"""Whether a pack's signer is the coach that this device agreed on."""
from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.domain.errors import UntrustedSigner
from app.exchange.packs.pack import Pack


@dataclass(frozen=True)
class PinnedCoach:
    """The keys that were accepted with the last pack of this coach."""

    signing_key: bytes
    recovery_signing_key: bytes


class Trust(StrEnum):
    """Why a pack may be taken in."""

    FIRST_SIGHT = "first_sight"
    """Nothing is pinned: ask for the five matching words to be compared, then pin."""
    KNOWN = "known"
    """Signed by the pinned key."""
    CHANGED = "changed"
    """The coach's keys changed, and the pinned or the recovery key says so: pin the new ones."""


def trust(pack: Pack, pinned: PinnedCoach | None, name: str = "") -> Trust:
    """Whether the pack may be taken in.

    The old signing key may name a new one; a new recovery key is believed from the recovery key alone, so that a
    stolen signing key can always be replaced.

    Raises:
        UntrustedSigner: another key without a statement by a pinned one.
    """
    if pinned is None:
        return Trust.FIRST_SIGHT
    by = pack.key_change.by if pack.key_change else None
    if by == pinned.recovery_signing_key and pack.signing_key != pinned.signing_key:
        return Trust.CHANGED
    same_recovery = pack.recovery_signing_key == pinned.recovery_signing_key
    if pack.signing_key == pinned.signing_key and (same_recovery or by == pinned.recovery_signing_key):
        return Trust.KNOWN if same_recovery else Trust.CHANGED
    if by == pinned.signing_key and same_recovery:
        return Trust.CHANGED
    raise UntrustedSigner(name=name, who=pack.coach)


def pinned(pack: Pack) -> PinnedCoach:
    """What to pin once the pack is accepted."""
    return PinnedCoach(pack.signing_key, pack.recovery_signing_key)
