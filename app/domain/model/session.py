"""A session as the coach wrote it: blocks of items, before anybody's body, room or day is known."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from app.domain.model.exercise import Exercise
from app.domain.model.omit_defaults import LATE

#: How far a client may go beyond what is written where the coach says nothing, and how far at most.
USUAL_STEPS, MOST_STEPS = 8, 12
#: What packs say nothing of that were made when two steps were usual.
STEPS_UNSAID = 2


class BlockKind(StrEnum):
    """The shape of a block. The first and the last are never cut."""

    WARM_UP = "warm_up"
    CIRCUIT = "circuit"
    STRAIGHT_SETS = "straight_sets"
    HOLDS = "holds"
    COOL_DOWN = "cool_down"


MAIN_KINDS = frozenset({BlockKind.CIRCUIT, BlockKind.STRAIGHT_SETS, BlockKind.HOLDS})


@dataclass(frozen=True)
class Item:
    """One station. Exactly one of `work_s`, `reps`, `hold_s` is above 0; per side where sides are apart."""

    exercise: str
    work_s: int = 0
    reps: int = 0
    hold_s: int = 0
    rest_s: int | None = None
    """Rest after it, s; None takes the block's."""
    load_g: int = 0
    """Weight in each hand or in all, as the exercise says, grams; 0 for none."""
    accessory: bool = False
    """May be left out when time is short."""
    one_side_because: str = ""
    """A recorded reason for training one side alone."""
    steps: int = field(default=STEPS_UNSAID, metadata=LATE)
    """How many steps a client may go beyond what is written: the coach's ceiling. 0: never."""


@dataclass(frozen=True)
class Block:
    """Items done `rounds` times over, or, as straight sets, each item `rounds` times before the next."""

    kind: BlockKind
    items: tuple[Item, ...]
    rounds: int = 1
    rest_s: int = 0
    round_rest_s: int = 0

    @property
    def is_main(self) -> bool:
        """Whether the dose may change it."""
        return self.kind in MAIN_KINDS


@dataclass(frozen=True)
class Session:
    """A session with the effort the coach means it to take (0–10)."""

    id: str
    name: str
    blocks: tuple[Block, ...]
    target_rpe: int = 5
    about: str = ""

    def items(self) -> Iterator[tuple[Block, Item]]:
        """Every item with its block, in order."""
        return ((block, item) for block in self.blocks for item in block.items)

    def trains_strength(self, library: Mapping[str, Exercise]) -> bool:
        """Whether its main part holds strength work, so that a day of rest should follow."""
        return any(
            block.is_main and item.exercise in library and library[item.exercise].is_strength
            for block, item in self.items()
        )
