"""Words for what a session holds, exercise by exercise, to read before it begins. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.compile.exercise_list import Listed
from app.domain.model.plan import Part, StepSide
from app.words.client.player import amount
from app.words.text import count, duration

PARTS: Mapping[Part, str] = {Part.WARM_UP: "Warm-up", Part.MAIN: "Main part", Part.COOL_DOWN: "Cool-down"}


def seconds_words(seconds: int) -> str:
    """`45 seconds`; from two minutes on in minutes."""
    return count(seconds, "second") if seconds < 120 else duration(seconds)


def listed_line(found: Listed, *, pounds: bool) -> str:
    """`2 times 8, 4 kg each time`; for one bout just its amount."""
    step = found.step
    told = amount(step, pounds=pounds)
    if not step.reps:
        told = ", ".join(part for part in (seconds_words(step.length_ms // 1000), told) if part)
    each_side = step.side in (StepSide.LEFT, StepSide.RIGHT)
    bouts = found.bouts // 2 if each_side and found.bouts % 2 == 0 else found.bouts
    told += ", each side" if each_side and bouts * 2 == found.bouts else ""
    return told if bouts == 1 else f"{count(bouts, 'round')} of {told}"
