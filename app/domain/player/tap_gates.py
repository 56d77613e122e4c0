"""Where a session stands still until somebody taps: down to the floor and up, counted movements, "all right?"."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum

from app.domain.model.plan import Part, Step, StepKind

RESTS = frozenset({StepKind.REST, StepKind.ROUND_REST})


class Wait(StrEnum):
    """What is waited for besides getting down to the floor and up."""

    COUNT = "count"
    """At the end of counted movements, until it is said that they are done."""
    ALL_RIGHT = "all_right"
    """Before each round, of somebody who is alone."""


def round_ends(steps: Sequence[Step]) -> tuple[int, ...]:
    """The rests in which somebody alone is asked whether all is right: the one before each round of a circuit.

    Where nothing goes round, in each rest of the main part after which another exercise comes.
    """
    others = [(rest, before, after) for rest, before, after in _rests(steps) if after.exercise != before.exercise]
    rounds = [rest for rest, before, after in others if (after.round or 0) > (before.round or 0)]
    return tuple(rounds or (rest for rest, _, _ in others))


def _rests(steps: Sequence[Step]) -> Iterator[tuple[int, Step, Step]]:
    """Each rest of the main part, with the work before and after it."""
    before, rest = None, None
    for index, step in enumerate(steps):
        if step.part is not Part.MAIN or not step.length_ms:
            continue
        if step.is_effort:
            if before is not None and rest is not None:
                yield rest, before, step
            before, rest = step, None
        elif rest is None and step.kind in RESTS:
            rest = index


def waiting_steps(steps: Sequence[Step], waits: frozenset[Wait], confirmed: frozenset[int]) -> frozenset[int]:
    """Indices of the steps at whose end a tap is awaited. `confirmed` are those where it was given."""
    last = len(steps) - 1
    found = {i for i, s in enumerate(steps) if s.awaits_tap and i < last}
    if Wait.COUNT in waits:
        found |= {i for i, s in enumerate(steps) if s.is_effort and s.reps and s.length_ms}
    if Wait.ALL_RIGHT in waits:
        found |= set(round_ends(steps))
    return frozenset(found - confirmed)
