"""What an exercise may ask to have at hand, and what a room may hold: every id, once. Words: `app/words/kit.py`.

The ids stand in sources, packs, returns and on devices and never change; a new one is added here and worded there.
"""
from __future__ import annotations

CHAIR = "chair"
#: What somebody may own and tick, in the order in which it is asked.
KIT = (CHAIR, "worktop", "mat", "dumbbell", "step", "band", "door_anchor", "towel")
#: At hand in every room, so never a reason to leave an exercise out.
ALWAYS_AT_HAND = frozenset({"none", "wall", "doorway"})
#: Kit that is a weight, whether or not the exercise says that it is loaded.
WEIGHTS = frozenset({"dumbbell"})
#: What an exercise on a bed needs beside its kit; a place says whether there is one.
BED = "bed"
STEP = "step"


def is_known(kit: str) -> bool:
    """Whether anybody can say that it is at hand."""
    return kit in KIT or kit in ALWAYS_AT_HAND
