"""Objections to a tempo: what the cues of an exercise count out must fit into one repetition.

Only counts in English words are read ("counting three", "pause for two"); cues in another language bring no objection.
"""
from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from app.domain.model.exercise import Exercise, Mode
from app.domain.model.proofreading_limits import ProofreadingLimits
from app.domain.proofreading.finding import Finding

NUMBERS = {word: at for at, word in enumerate(
    ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), 1)}
_COUNTED = re.compile(
    rf"\b(?:counting|count|for)\s+({'|'.join(NUMBERS)})(?=[.,;!]|\s+(?:seconds|on|as)\b|$)", re.IGNORECASE)


def counted_s(exercise: Exercise) -> tuple[int, ...]:
    """Each stretch of a repetition that the cues count out, seconds, at one count a second."""
    return tuple(NUMBERS[word.lower()] for line in exercise.cues.action for word in _COUNTED.findall(line))


def tempo_problems(library: Mapping[str, Exercise], limits: ProofreadingLimits) -> Iterator[Finding]:
    """A repetition takes what is counted and, where only one way is counted, some time for the other way."""
    for exercise in library.values():
        counts = counted_s(exercise)
        if exercise.mode is not Mode.REPS or not counts:
            continue
        needed = sum(counts) + (limits.uncounted_s if len(counts) == 1 else 0)
        if exercise.rep_ms < needed * 1000:
            yield Finding("tempo_too_quick", exercise.id, exercise.rep_ms // 1000, needed)
