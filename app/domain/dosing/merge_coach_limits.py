"""Limits that a coach sends beside those that the client set: the lower one holds, and the client's own comes back."""
from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

K = TypeVar("K")
#: What the coach said, and what the client's own limit was before; None: there was none.
Sent = tuple[int, int | None]


def with_coach_limits(
    now: Mapping[K, int], sent_before: Mapping[K, Sent], coming: Mapping[K, int]
) -> tuple[dict[K, int], dict[K, Sent]]:
    """The limits that hold from now on, and what to remember so that the next message can replace this one.

    A coach's limit never loosens one of the client's. Where the client changed a limit since, theirs stays.

    Args:
        now: as they hold now, 0–3.
        sent_before: what an earlier call told to remember.
        coming: all that the coach limits from now on.
    """
    own = dict(now)
    for key, (coach, before) in sent_before.items():
        if own.get(key) != _lower(coach, before):
            continue
        if before is None:
            del own[key]
        else:
            own[key] = before
    holds = own | {key: _lower(cap, own.get(key)) for key, cap in coming.items()}
    return holds, {key: (cap, own.get(key)) for key, cap in coming.items()}


def _lower(coach: int, own: int | None) -> int:
    return coach if own is None else min(coach, own)
