"""Which reasons of one person need a line of their own, and which the line of their pain tells already."""
from __future__ import annotations

from collections.abc import Sequence

from app.domain.measures.attention_summary import AttentionReason, Flag

OF_EFFORT = frozenset({AttentionReason.EFFORT, AttentionReason.TOO_MUCH})


def within(pain: Flag, other: Flag) -> bool:
    """Whether the course of a pain holds the other's evidence: the same spot rising, or the same hard sessions."""
    course = pain.course
    if course is None or pain.because is not AttentionReason.PAIN:
        return False
    if other.because is AttentionReason.RISING:
        return course.low is not None and other.words == pain.words
    return other.because in OF_EFFORT and len(course.efforts) > 1 and other.words != ("light",)


def lines_of(flags: Sequence[Flag]) -> tuple[tuple[Flag, tuple[Flag, ...]], ...]:
    """Each reason that has a line of its own, with those of the same person that this line tells too."""
    told = {id(other): pain for pain in flags for other in flags
            if pain.person == other.person and within(pain, other)}
    return tuple((flag, tuple(other for other in flags if told.get(id(other)) is flag))
                 for flag in flags if id(flag) not in told)
