"""An objection of the proofreader, and a session laid out so that it can be judged."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.model.client import Client, Place
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Timeline
from app.domain.model.proofreading_limits import ProofreadingLimits
from app.domain.model.session import Block, BlockKind, Item, Session

OPEN_DAY = date(2000, 1, 1)
CLEAR_DEMAND, FULL_DEMAND = 2, 3


@dataclass(frozen=True)
class Finding:
    """One objection. `value` against `limit`; `where` and `what` are ids for its sentence."""

    rule: str
    where: str
    value: int
    limit: int
    blocks: bool = False
    what: str = ""


@dataclass(frozen=True)
class SessionUnderCheck:
    """A session as it was written, with its compiled form and what it is held against."""

    session: Session
    timeline: Timeline
    library: Mapping[str, Exercise]
    limits: ProofreadingLimits

    def at(self, item: Item) -> str:
        """The place of an item."""
        return f"{self.session.id}/{item.exercise}"

    def of(self, item: Item) -> Exercise:
        """Its exercise."""
        return self.library[item.exercise]

    def main_items(self) -> Iterator[Item]:
        """Every station that the dose may change, as often as it is written."""
        return (item for block, item in self.session.items() if block.is_main)

    def items_in(self, kind: BlockKind) -> Iterator[Item]:
        """Every item of the blocks of that kind."""
        return (item for block, item in self.session.items() if block.kind is kind)


def written_timeline(session: Session, library: Mapping[str, Exercise]) -> Timeline:
    """A session as it was written: nobody's body, everything at hand, no check-in."""
    return compile_timeline(Order(session, library, Client(), Place(), OPEN_DAY))


def turns(block: Block) -> int:
    """How often the items of a block come round one after the other; sets of one exercise are not a round."""
    return 1 if block.kind is BlockKind.STRAIGHT_SETS or len(block.items) == 1 else block.rounds
