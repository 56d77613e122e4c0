"""Objections to single exercises: ladders of easier options, and demands that nothing relieves."""
from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.domain.compile.substitution import ladder_down
from app.domain.model.exercise import MANNER_AXES, Axis, Exercise, asks_more
from app.domain.model.source import Source
from app.domain.proofreading.finding import CLEAR_DEMAND, FULL_DEMAND, Finding


def ladder_problems(library: Mapping[str, Exercise]) -> Iterator[Finding]:
    """An easier option asks no more anywhere, relieves what it says, and leads back to nothing above it."""
    for exercise in library.values():
        for option in exercise.easier:
            other = library[option.to]
            for axis in asks_more(other, exercise):
                yield Finding("easier_asks_more", exercise.id, other.asks(axis), exercise.asks(axis), True,
                              f"{other.id}:{axis}")
            relieved = {a for a in Axis if other.asks(a) < exercise.asks(a)}
            if set(option.relieves) - relieved:
                yield Finding("relief_not_there", exercise.id, len(set(option.relieves) - relieved), 0, True, other.id)
        below = [exercise, *(easier for easier, _ in ladder_down(exercise, library))]
        if any(option.to == exercise.id for easier in below for option in easier.easier):
            yield Finding("ladder_in_a_circle", exercise.id, 1, 0, True)


def relief_problems(source: Source, library: Mapping[str, Exercise]) -> Iterator[Finding]:
    """A demand of 2 or 3 in use wants an option that asks less there; without one for a 3 nothing is published."""
    used = {item.exercise for session in source.sessions for _, item in session.items()}
    for exercise in (library[i] for i in sorted(used)):
        below = [e for e, _ in ladder_down(exercise, library)]
        for axis in (a for a in Axis if a in exercise.demand and a not in MANNER_AXES):
            asked = exercise.asks(axis)
            if asked >= CLEAR_DEMAND and not any(e.asks(axis) < asked for e in below):
                yield Finding("no_easier_option", exercise.id, asked, CLEAR_DEMAND - 1, asked >= FULL_DEMAND, axis)
