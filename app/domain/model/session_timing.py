"""The times of counting and looking that the player, the sound and the functional checks share. [P]"""
from __future__ import annotations

COUNT_FROM = 3
"""3, 2, 1."""
COUNT_IN_MS = COUNT_FROM * 1_000
"""One beat a second."""
LAST_TEN_MS = 10_000
"""So long before its end the last ten seconds are called."""
JOURNAL_BEAT_MS = 500
"""How far a session may move on before its position is kept, so that one that was killed is found within a second."""
LOOK_S = 0.2
"""How often the position of a session is looked at, seconds of its clock."""
CHECK_LOOK_S = 0.1
"""The same of a functional check, whose times are told in tenths."""
BREATH_S = 0.02
"""The least that is left to the rest of the page between two looks, seconds of the machine: for a fast clock."""
