"""Words of the commands. Knows no Flet."""
from __future__ import annotations

from app.words.text import count

NOT_PUBLISHED = "Nothing was written: mend what could hurt a client first."


def packed(name: str, coach: str, words: str) -> str:
    """What the `pack` command says at the end."""
    return (f"{name} is written and signed for {coach}. When a client opens the first one, "
            f"read these words to them: {words}.")


def open_at(name: str, address: str) -> str:
    """Where the app of that name can be opened."""
    return f"{name} is open at {address}"


def demo_at(folder: str) -> str:
    """Where the demo's records lie."""
    return f"The demo is a coach with three clients and six weeks of records, in {folder}"


def closed(name: str) -> str:
    """What is said at the end."""
    return f"{name} is closed. Everything is kept."


def taken_in(file: str, person: str, new: int, newer: int, same: int, older: int) -> str:
    """What became of one return."""
    return f"{file}: {person}, {count(new, 'new record')}, {newer} corrected, {same + older} known already."


def refused(name: str, why: str) -> str:
    """A file that was not taken in."""
    return why if why.startswith(name) else f"{name}: {why}"


def went_back(copy: str, aside: str) -> str:
    """The store was put back from a copy."""
    kept = f" What was there is kept as {aside}." if aside else ""
    return f"The records are as they were in {copy}.{kept}"


TIMELINE_EXAMPLE = """The files are JSON; leave out what does not apply. A question left out of the diary counts as
unanswered. Body parts: neck shoulder elbow wrist back hip knee ankle, with "left " or "right " before them.

  client  {"spare": {"wrist": 1}, "conditions": ["osteoporosis"], "alone": true, "kit": ["chair", "dumbbell"],
           "weights_kg": [2, 4]}
  place   {"kit": ["chair"], "floor": true, "noise": false, "space": "small", "minutes": 20}
  diary   {"symptoms": [], "pain": {"right hip": 5}, "pain_rise": {}, "soreness": {}, "slept": 4, "energy": 4,
           "calm": 4, "last": {"days_ago": 3, "rpe": 5, "target_rpe": 5, "completed": 1.0, "pain": 2}}
"""
