"""A session of some minutes that is nothing but rests of 10 s and work of 20 s, six cues each pair."""
from __future__ import annotations

from typing import Any

from .either import either

plan = either("app.domain.model.plan", "app.domain.plan")
audio_track = either("app.domain.sound.audio_track", "app.domain.cuetrack")
cues = either("app.domain.sound.cues", "app.domain.cues")

REST_MS, WORK_MS = 10_000, 20_000


def long_steps(minutes: int) -> tuple[Any, ...]:
    """So many whole minutes."""
    steps: list[Any] = []
    for _ in range(2 * minutes):
        for kind, length in ((plan.StepKind.REST, REST_MS), (plan.StepKind.WORK, WORK_MS)):
            steps.append(plan.Step(kind, plan.Part.MAIN, steps[-1].end_ms if steps else 0, length, "a"))
    return tuple(steps)
