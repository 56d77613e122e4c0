"""What an event on the way changed in the rest of a session: exercises replaced and exercises left out."""
from __future__ import annotations

from dataclasses import dataclass

from app.domain.player.player_state import PlayerState


@dataclass(frozen=True)
class Changes:
    """Exercise ids, each once, in the order in which they would have come."""

    swaps: tuple[tuple[str, str], ...] = ()
    """(before, now)."""
    left_out: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.swaps or self.left_out)


def changes_between(before: PlayerState, after: PlayerState) -> Changes:
    """What differs between two states of one session, in work that was still to be done."""
    ahead = range(before.index, len(before.steps))
    pairs = [(before.steps[i], after.steps[i], i) for i in ahead if before.steps[i].is_effort]
    swaps = ((old.exercise, new.exercise) for old, new, _ in pairs if old.exercise != new.exercise)
    out = (old.exercise for old, _, i in pairs if i in after.passed_by and i not in before.passed_by)
    return Changes(
        tuple(dict.fromkeys((old, new) for old, new in swaps if old and new)), tuple(dict.fromkeys(i for i in out if i))
    )
