"""One person's pain is one line with all of its evidence."""
from __future__ import annotations

from dataclasses import replace
from datetime import date

from app.domain.measures.attention_summary import AttentionReason, Course, Flag
from app.domain.measures.told_together import lines_of
from app.words.coach import attention as words

DAY = date(2026, 3, 1)
COURSE = Course("left knee", 1, date(2026, 2, 1), "too_much", 75, (7, 8, 8), 5)
PAIN = Flag("p", "Ada", AttentionReason.PAIN, DAY, ("r4",), (5,), ("left knee",), course=COURSE)
RISING = replace(PAIN, because=AttentionReason.RISING, numbers=(1, 3, 5))
TOO_MUCH = Flag("p", "Ada", AttentionReason.TOO_MUCH, DAY, ("r4",), (1, 4, 7, 4), ("strength",))
EFFORT = Flag("p", "Ada", AttentionReason.EFFORT, DAY, ("r4",), (8, 8, 5))
FALL = Flag("p", "Ada", AttentionReason.FALL, DAY, ("r2",), (1,))


def test_four_lines_about_one_pain_are_one() -> None:
    """What rises in the same spot, and the hard sessions that its line names, are in it; a fall is not."""
    assert lines_of((FALL, PAIN, RISING, TOO_MUCH, EFFORT)) == ((FALL, ()), (PAIN, (RISING, TOO_MUCH, EFFORT)))
    assert words.head_words(PAIN, (RISING, TOO_MUCH)) == "Pain going up, sessions harder than planned"
    assert words.head_words(PAIN) == words.REASON_WORDS[AttentionReason.PAIN]


def test_what_the_line_does_not_tell_keeps_its_own() -> None:
    """Another spot, light sessions, a pain without a course, somebody else."""
    elsewhere, light = replace(RISING, words=("back",)), replace(TOO_MUCH, words=("light",))
    once = replace(PAIN, course=replace(COURSE, efforts=(7,)))
    for pain, other in ((PAIN, elsewhere), (PAIN, light), (replace(PAIN, course=None), RISING),
                        (PAIN, replace(RISING, person="q")), (once, EFFORT)):
        assert [flag for flag, _ in lines_of((pain, other))] == [pain, other]
