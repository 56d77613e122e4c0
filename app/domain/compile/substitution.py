"""An exercise that today's body, kit and room allow, as near as can be to the one that was written.

First the ladder of easier options, then the coach's approved swaps, then, where the coach allows it, the whole
library, and last a held or seated option for the same muscles. Nothing asks more on any axis than today allows.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.domain.dosing.limits import Limits
from app.domain.model.client import Client
from app.domain.model.exercise import Exercise, Mode, Position, Sides, asks_more

Library = Mapping[str, Exercise]


@dataclass(frozen=True)
class ChosenExercise:
    """The exercise to do, or None for leaving it out, and what spoke against the one written."""

    exercise: Exercise | None
    because: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    """What of `because` the written exercise asks, in detail."""


@dataclass(frozen=True)
class Candidate:
    """A stand-in with its loss: the smaller, the nearer to what was written."""

    exercise: Exercise
    tier: int
    distance: int

    def loss(self, written: Exercise, taken: frozenset[str]) -> tuple[int, int, int, int, int, int, str]:
        """Ladder distance first, then muscles and pattern kept, position kept, no repeat in the round, and the id."""
        other = self.exercise
        lost = len(set(written.muscles) - {*other.muscles, *other.muscles_too})
        return (
            self.tier,
            int(other.id in taken),
            self.distance,
            lost + int(other.pattern is not written.pattern),
            int(other.position is not written.position),
            sum(other.demand.values()),
            other.id,
        )


def ladder_down(written: Exercise, library: Library) -> Iterator[tuple[Exercise, int]]:
    """Easier options, nearest first, each once, with its distance in rungs."""
    seen, rung, distance = {written.id}, [written], 0
    while rung:
        distance += 1
        below: list[Exercise] = []
        for exercise in rung:
            for option in exercise.easier:
                if option.to in library and option.to not in seen:
                    seen.add(option.to)
                    below.append(library[option.to])
        yield from ((exercise, distance) for exercise in below)
        rung = below


def against_side(exercise: Exercise, client: Client) -> tuple[str, ...]:
    """`side` where it changes sides within one bout and one of them is not to be trained."""
    return ("side",) if client.rest_side and exercise.sides is Sides.ALTERNATING else ()


def may_stand_in(exercise: Exercise, written: Exercise, client: Client, limits: Limits) -> bool:
    """Admissible today; and for someone alone, shown before or explaining itself.

    A hold for each side cannot share the time of one bout, so it stands in for one-sided work only.
    """
    known = not client.alone or exercise.self_explanatory or exercise.id in client.shown
    fits = exercise.mode is not Mode.HOLD or exercise.sides is not Sides.EACH or written.sides is Sides.EACH
    return known and fits and not limits.against(exercise) and not against_side(exercise, client)


def candidates(written: Exercise, library: Library, *, whole_library: bool) -> Iterator[Candidate]:
    """Everything that could stand in, with its tier."""
    yield from (Candidate(e, 0, d) for e, d in ladder_down(written, library))
    yield from (Candidate(library[o.to], 1, 1) for o in written.swaps if o.to in library)
    for exercise in library.values():
        if exercise.id == written.id or not set(exercise.muscles) & set(written.muscles):
            continue
        if asks_more(exercise, written):
            continue
        if whole_library and exercise.pattern is written.pattern:
            yield Candidate(exercise, 2, 0)
        if exercise.is_strength is not written.is_strength:
            continue
        if exercise.mode is Mode.HOLD or exercise.position is Position.SEATED:
            yield Candidate(exercise, 3, 0)


def choose(
    written: Exercise,
    library: Library,
    client: Client,
    limits: Limits,
    taken: frozenset[str] = frozenset(),
    *,
    whole_library: bool = False,
) -> ChosenExercise:
    """The exercise for today in place of `written`, which itself comes first unless something speaks against it.

    Args:
        taken: exercises already in this round, which are only repeated when nothing else is left.
    """
    chosen = library.get(client.chosen.get(written.id, ""))
    against = (*limits.against(written), *against_side(written, client))
    asked = limits.detail(written)
    if chosen is not None and may_stand_in(chosen, written, client, limits):
        return ChosenExercise(chosen, against or ("choice",), asked)
    if not against:
        return ChosenExercise(written)
    if limits.is_same_order or client.same_as_always:
        return ChosenExercise(None, against, asked)
    able = [
        c for c in candidates(written, library, whole_library=whole_library)
        if may_stand_in(c.exercise, written, client, limits)
    ]
    if not able:
        return ChosenExercise(None, against, asked)
    return ChosenExercise(min(able, key=lambda c: c.loss(written, taken)).exercise, against, asked)
