"""Words for a session that stands still: asked where to go on, waiting for a tap, open in another window. No Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.player.player_state import Cause, Unseen
from app.words.text import count

# ------------------------------------------------------------------ time that nobody saw

JUST_NOW_MS = 15_000


def long_words(ms: int) -> str:
    """A length as people say it: `half a minute`, `12 minutes`, `about an hour`, `about 3 hours`."""
    minutes = round(ms / 60_000)
    if minutes < 1:
        return "less than a minute"
    if minutes < 50:
        return count(minutes, "minute")
    hours = round(minutes / 60)
    if hours < 36:
        return "about an hour" if hours == 1 else f"about {hours} hours"
    return f"about {count(round(hours / 24), 'day')}"


def unseen_words(unseen: Unseen | None) -> str:
    """What became of the time, in a sentence or two."""
    if unseen is None:
        return "The session was paused."
    known = long_words(unseen.ms)
    if unseen.cause is Cause.CLOSED:
        if unseen.ms < JUST_NOW_MS:
            return "The session was paused when its page was closed."
        return f"The app was closed for {known}."
    if unseen.cause is Cause.SLEPT:
        return f"This device slept for {known}, or its clock was changed."
    if unseen.cause is Cause.CLOCK_BACK:
        return "This device’s clock was put back."
    return f"This device paused for {known}."


NOT_COUNTED = "None of that time counts as done."

# ------------------------------------------------------------------ in another window

ELSEWHERE = "This session is open in another window"
ELSEWHERE_WHY = "It is running there. Only one window can run a session, so that nothing is counted twice."
TAKE_OVER = "Continue here"
TAKE_OVER_NOTE = "The other window will pause, and this one asks before it carries on."
LEAVE_IT = "Leave it there"

# ------------------------------------------------------------------ waiting for a tap

DONE_COUNTING = "Done"
COUNTING_WAITS = "Press when you’ve done them all. No hurry."
ALL_RIGHT = "I’m all right"
ALL_RIGHT_ASKED = "All right?"
ALL_RIGHT_WAITS = "All right? Press when you are. This can’t call anyone."
READY_NOW = "I’m ready"


def repetition_words(number: int, of: int) -> str:
    """`3 of 8`."""
    return f"{number} of {of}"


COUNTED_HEAD = "Counted exercises"
COUNTED_NOTE = "An exercise such as “8 times” can move to the next one on a timer, or when you press “Done”."
COUNTED: Mapping[str, str] = {"time": "On a timer", "tap": "When I press"}

# ------------------------------------------------------------------ reading distance

DISTANCE = "Bigger"
DISTANCE_NAME = "Bigger, to read from a distance"
CARD = "All buttons"
