"""Exercises that ask for something that nobody can say is at hand."""
from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.domain.model.exercise import Exercise
from app.domain.model.kit import is_known
from app.domain.proofreading.finding import Finding


def kit_problems(library: Mapping[str, Exercise]) -> Iterator[Finding]:
    """An unknown id hurts nobody, so it does not block: the exercise is left out wherever somebody told their kit."""
    for exercise in library.values():
        for kit in sorted(set(exercise.equipment)):
            if not is_known(kit):
                yield Finding("unknown_kit", exercise.id, 0, 0, what=kit)
