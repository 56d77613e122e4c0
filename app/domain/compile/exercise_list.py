"""What a session holds, as a list to read before it: each exercise once for each part, in the order of coming."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.model.plan import Part, Step


@dataclass(frozen=True)
class Listed:
    """An exercise of a part: its first bout, how many bouts there are, and the one that was written in its place."""

    step: Step
    bouts: int

    @property
    def exercise(self) -> str:
        """Its id."""
        return self.step.exercise or ""


def outline(steps: Sequence[Step]) -> dict[Part, tuple[Listed, ...]]:
    """The parts that hold work, each with its exercises."""
    first: dict[tuple[Part, str], Step] = {}
    bouts: dict[tuple[Part, str], int] = {}
    for step in steps:
        if step.is_effort and step.exercise and step.length_ms:
            key = step.part, step.exercise
            first.setdefault(key, step)
            bouts[key] = bouts.get(key, 0) + 1
    parts = dict.fromkeys(part for part, _ in first)
    return {part: tuple(Listed(step, bouts[key]) for key, step in first.items() if key[0] is part) for part in parts}
