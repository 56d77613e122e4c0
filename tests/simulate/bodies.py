"""A body that answers to what it does: strength, fatigue, soreness, pain, and how hard it says a session was. Seeded.

A small form of the model of home training in later life that the project keeps with its sources: gain and its ceiling
(Churchward-Venne 2015, Walker), loss in weeks off (Taaffe), repetitions possible by Epley's estimate, effort told
with the scatter of single ratings (intraclass correlation 0.7–0.8), soreness that peaks after a day or two. Everything
else is a guess [P]: it shows what the rules do, and nothing of what bodies do.
"""
from __future__ import annotations

import math
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from app.domain.model.plan import Part, Step
from app.domain.model.record import SessionDone

SEEN_AFTER_DAYS = 9
"""After so many days without a session a clinician has seen them, and says yes though it still hurts."""
RESERVE_AT_START = 6.0
"""Repetitions left when a beginner does what is written for the first time."""


@dataclass
class Body:
    """`gain` is over the strength at the start; `fatigue` in points of effort; `sore` 0–10 on the morning after."""

    dice: random.Random
    ceiling: float = 0.30
    """The most that it can gain."""
    rate: float = 0.035
    noise: float = 0.6
    """Standard deviation of the effort told."""
    bias: float = 0.0
    gain: float = 0.0
    fatigue: float = 0.0
    sore: float = 0.0
    last: date | None = None
    seen: dict[str, int] = field(default_factory=dict)
    """How often each exercise was done."""
    starts: dict[str, tuple[int, float]] = field(default_factory=dict)
    """By exercise: load in grams and amount at the first time, as its reserve then was RESERVE_AT_START."""

    def sleep_to(self, day: date) -> None:
        """The days since the last session: fatigue goes, soreness clears, and after a week off strength does too."""
        if self.last is None:
            return
        days = (day - self.last).days
        self.fatigue *= math.exp(-days / 2.0)
        self.sore = self.sore if days <= 2 else self.sore * 0.3 if days == 3 else 0.0
        if days > 7:
            self.gain *= math.exp(-(days - 7) / (34 * 7))

    def waited(self, day: date, refused: Sequence[date]) -> bool:
        """Whether there has been no session for a week, so that somebody has looked at what hurts by now."""
        return bool(refused) and self.last is not None and (day - self.last).days > SEEN_AFTER_DAYS

    def left(self, step: Step) -> float:
        """Repetitions left at the end of one bout, by Epley's estimate from its first time."""
        amount = step.reps or max(1.0, step.length_ms / 4000)
        load_g, first = self.starts.setdefault(step.exercise or "", (step.load_g or 0, amount))
        strength = (1 + self.gain) * (1 + (first + RESERVE_AT_START) / 30)
        heavier = (step.load_g or 0) / load_g if load_g and step.load_g else 1.0
        return 30 * (strength / heavier - 1) - amount

    def effort(self, done: SessionDone) -> int:
        """What it says of a session, 0–10: as meant the first time, less as it grows stronger, more with more to do."""
        bouts = [s for s in done.plan.steps if s.is_effort and s.part is Part.MAIN and s.exercise]
        spare = [self.left(step) - RESERVE_AT_START for step in bouts]
        mean = sum(spare) / len(spare) if spare else 0.0
        told = done.plan.target_rpe - 0.4 * mean + 0.4 * self.fatigue + self.bias + self.dice.gauss(0, self.noise)
        return min(10, max(0, round(told)))

    def train(self, done: SessionDone, day: date, rpe: int) -> None:
        """What a session leaves behind."""
        share, new = done.completed / 100, 0.0
        bouts: Mapping[str, int] = {s.exercise: 0 for s in done.plan.steps if s.is_effort and s.exercise}
        for exercise in bouts:
            times = self.seen.get(exercise, 0)
            new = max(new, math.exp(-times / 1.5))
            self.seen[exercise] = times + 1
        hard = min(1.0, max(0.25, 1 - (10 - rpe - 3) / 12))
        if done.plan.strength:
            self.gain += self.rate * 0.8 * hard * share * max(0.0, self.ceiling - self.gain)
        self.fatigue += rpe * done.took_s / 60 / 150 * share
        self.sore = min(6.0, self.sore * 0.3 + 3 * new * hard)
        self.last = day
