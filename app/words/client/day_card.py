"""Words of what is folded on today's card, and of what is different today. Knows no Flet."""
from __future__ import annotations

from collections.abc import Sequence

from app.words.client.today import Pair
from app.words.reasons import QUESTION_WORDS
from app.words.text import count, listed

LEAST_FOLDED = 2
"""Fewer further changes than this are shown and not folded."""
WHY_TODAY = "Why it is like this today"
WHAT_COMES = "What comes"
LISTEN = "Is it loud enough?"
LISTEN_LINE = "Listen once, before the first session."
AS_WRITTEN_FIRST: Pair = (
    "This is the session as your coach wrote it. Your answers decide how much of it is for today.",
    "This is the session as {name}’s coach wrote it. The answers decide how much of it is for today.",
)
#: After a coach's note for the whole week, where today's session is not the one that was written.
TODAY_FIRST = "Where today’s session is different, today’s comes first."


def more_changes(number: int) -> str:
    """`4 more`: the way to the changes that are not shown at first."""
    return f"{number} more"


def unsaid_line(missing: Sequence[str], asked: str = "") -> str:
    """What was not answered, and what follows: `Not answered: whether a joint hurts. So today stays careful.`"""
    told = [QUESTION_WORDS.get(one, QUESTION_WORDS[""])[bool(asked)].format(name=asked) for one in missing]
    return f"Not answered: {listed(list(dict.fromkeys(told)))}. So today stays careful."


def why_line(reasons: int) -> str:
    """`3 reasons`."""
    return count(reasons, "reason")


def moves_line(exercises: int) -> str:
    """`18 exercises, part by part`."""
    return f"{count(exercises, 'exercise')}, part by part"
