"""The order of a block's stations today, so that no round gains a way down to the floor or to bed by a stand-in.

What stands in higher up than what was written is done beside the work that is done there anyway, or, in a block that
was all on the floor, after it.
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.domain.compile.posture import depth
from app.domain.compile.substitution import StationPart
from app.domain.model.exercise import Exercise
from app.domain.model.session import BlockKind

#: Depth of the station before a block and of the one after it.
Around = tuple[int, int]


@dataclass(frozen=True)
class Unit:
    """One part of a station of a block, as it is done today."""

    key: tuple[int, int]
    written: Exercise
    part: StationPart
    ends_station: bool = True

    @property
    def depth(self) -> int:
        """How far down it is done."""
        return depth(self.part.exercise)


def ways_down(depths: Sequence[int]) -> int:
    """How often one gets down in a row of depths."""
    return sum(b > a for a, b in pairwise(depths))


def lowest(blocks: Sequence[Sequence[Unit]], *, last: bool) -> int:
    """Depth of what is done just before, or just after; 0 where nothing is."""
    units = [unit for block in blocks for unit in block]
    return units[-1 if last else 0].depth if units else 0


def arranged(kind: BlockKind, written: Sequence[Exercise], units: Sequence[Unit], rounds: int, around: Around
             ) -> list[list[Unit]]:
    """The units in groups; each group is done in all its rounds before the next. As written where that is as good."""
    turns = 1 if kind is BlockKind.STRAIGHT_SETS else rounds

    def ways(groups: Sequence[Sequence[int]]) -> int:
        return ways_down([around[0], *(d for group in groups for _ in range(turns) for d in group), around[1]])

    as_written = ways([[depth(e) for e in written]])
    if ways([[u.depth for u in units]]) <= as_written:
        return [list(units)]
    raised = [u for u in units if u.depth < depth(u.written)]
    stay = [u for u in units if u not in raised]
    tries = [[[*stay[:at], *raised, *stay[at:]]] for at in reversed(range(len(stay) + 1))]
    tries += [[stay, raised], [raised, stay]]
    return min(tries, key=lambda groups: ways([[u.depth for u in group] for group in groups]))
