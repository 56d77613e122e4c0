"""Words of what is folded on today's card, and of what is different today. Knows no Flet."""
from __future__ import annotations

from collections.abc import Sequence

from app.words.client.today import Pair
from app.words.reasons import QUESTION_WORDS
from app.words.text import count, listed

LEAST_FOLDED = 2
"""Fewer further changes than this are shown and not folded."""
WHY_TODAY = "Why it is like this today"
WHAT_COMES = "What’s in this session"
LISTEN = "Is it loud enough?"
LISTEN_LINE = "Listen once, before the first session."
AS_WRITTEN_FIRST: Pair = (
    "This is how your coach wrote it. After a few short questions we’ll fit it to today.",
    "This is how {name}’s coach wrote it. After a few short questions we’ll fit it to today.",
)
#: After a coach's note for the whole week, where today's session is not the one that was written.
TODAY_FIRST = "If today’s session says something different, follow today’s."


def more_changes(number: int) -> str:
    """`4 more`: the way to the changes that are not shown at first."""
    return f"{number} more"


def unsaid_line(missing: Sequence[str], asked: str = "") -> str:
    """What was not answered, and what follows: `Not answered: whether a joint hurts. So we …`"""
    told = [QUESTION_WORDS.get(one, QUESTION_WORDS[""])[bool(asked)].format(name=asked) for one in missing]
    return f"Not answered: {listed(list(dict.fromkeys(told)))}. So we are keeping today easier."


def why_line(reasons: int) -> str:
    """`3 reasons`."""
    return count(reasons, "reason")


def moves_line(exercises: int) -> str:
    """`18 exercises, part by part`."""
    return f"{count(exercises, 'exercise')}, part by part"
