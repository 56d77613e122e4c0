"""A session under the pen: its blocks and lines keep their identity while it is written, so a row keeps its caret."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from itertools import count

from app.domain.model.session import Block, BlockKind, Item, Session

NOBODY = 0
"""The number of no line."""


@dataclass(frozen=True)
class SheetLine:
    """One exercise of the card. `number` outlives every edit."""

    number: int
    item: Item


@dataclass(frozen=True)
class SheetBlock:
    """A block under the pen, which may be empty; `number` as of a line."""

    number: int
    kind: BlockKind
    lines: tuple[SheetLine, ...] = ()
    rounds: int = 1
    rest_s: int = 0
    round_rest_s: int = 0

    def written(self) -> Block:
        """As the domain knows it."""
        return Block(self.kind, tuple(line.item for line in self.lines), self.rounds, self.rest_s, self.round_rest_s)


@dataclass(frozen=True)
class SessionSheet:
    """A session under the pen."""

    id: str
    name: str
    blocks: tuple[SheetBlock, ...]
    target_rpe: int = 5
    about: str = ""

    def session(self) -> Session:
        """The session as clients would get it: empty blocks are left out."""
        blocks = tuple(block.written() for block in self.blocks if block.lines)
        return Session(self.id, self.name, blocks, self.target_rpe, self.about)

    def rows(self) -> tuple[SheetBlock | SheetLine, ...]:
        """Heads and lines in one list, as the card shows them."""
        rows: list[SheetBlock | SheetLine] = []
        for block in self.blocks:
            rows += [block, *block.lines]
        return tuple(rows)

    def lines(self) -> Iterator[SheetLine]:
        """Every line, in order."""
        return (line for block in self.blocks for line in block.lines)

    def line(self, number: int) -> SheetLine | None:
        """The line of that number."""
        return next((line for line in self.lines() if line.number == number), None)

    def block_of(self, number: int) -> SheetBlock | None:
        """The block of that number, or the one that holds the line of that number."""
        return next((block for block in self.blocks
                     if block.number == number or any(line.number == number for line in block.lines)), None)

    def next_number(self) -> int:
        """A number that none of its rows has."""
        return max((row.number for row in self.rows()), default=NOBODY) + 1


def sheet_of(session: Session) -> SessionSheet:
    """The session laid under the pen; its rows are numbered from 1."""
    return numbered(session.id, session.name, session.blocks, session.target_rpe, session.about)


def numbered(id_: str, name: str, blocks: tuple[Block, ...], target_rpe: int, about: str) -> SessionSheet:
    """The same from its parts, where blocks may be empty."""
    numbers = count(1)
    made = tuple(
        SheetBlock(next(numbers), block.kind, tuple(SheetLine(next(numbers), item) for item in block.items),
                   block.rounds, block.rest_s, block.round_rest_s)
        for block in blocks)
    return SessionSheet(id_, name, made, target_rpe, about)


def kept_apart(new: SessionSheet, old: SessionSheet) -> SessionSheet:
    """`new` with the numbers of the rows of `old` that are still in it, so that undo moves no caret elsewhere.

    Rows are told by kind and exercise, in their order; every other row gets a number that `old` never used.
    """
    fresh = count(max(old.next_number(), new.next_number()))
    before, after = old.rows(), new.rows()
    same = SequenceMatcher(None, [_told_by(row) for row in before], [_told_by(row) for row in after], autojunk=False)
    taken = {j + n: before[i + n].number for i, j, size in same.get_matching_blocks() for n in range(size)}
    numbers = iter([taken.get(at) or next(fresh) for at in range(len(after))])
    return replace(new, blocks=tuple(
        replace(block, number=next(numbers), lines=tuple(replace(line, number=next(numbers)) for line in block.lines))
        for block in new.blocks))


def _told_by(row: SheetBlock | SheetLine) -> str:
    return row.item.exercise if isinstance(row, SheetLine) else f"[{row.kind.value}]"
