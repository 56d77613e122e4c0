"""Timelines for looking at and for the tests of parts: made by hand, steps end to end."""
from __future__ import annotations

from dataclasses import replace

from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.record import DoneStep, How

K, S = StepKind, StepSide
DOSE = Dose(level=1, rounds=2, work=100, rest=100, load=100)


def timeline(steps: list[Step], session: str = "legs-and-back") -> Timeline:
    """Steps laid end to end."""
    laid: list[Step] = []
    at = 0
    for step in steps:
        laid.append(replace(step, start_ms=at))
        at += step.length_ms
    return Timeline(session, tuple(laid), DOSE)


def step(kind: StepKind, seconds: int, exercise: str = "hip-lift", side: StepSide | None = None,
         to_floor: bool | None = None, part: Part = Part.MAIN) -> Step:
    """One step, not yet laid."""
    return Step(kind, part, 0, seconds * 1000, exercise, side, 1, to_floor=to_floor)


def circuit() -> Timeline:
    """A warm-up, two rounds with sides and a stretch on the floor, a hold at the end."""
    steps = [step(K.SETUP, 20), step(K.WORK, 60, "march"), step(K.REST, 10), step(K.WORK, 60, "circles")]
    for _ in range(2):
        steps += [step(K.ROUND_REST, 40), step(K.SETUP, 15), step(K.WORK, 40, "stand-up", S.BOTH), step(K.REST, 25)]
        for side in (S.LEFT, S.RIGHT):
            steps += [step(K.WORK, 35, "heel-raise", side), step(K.REST, 20)]
        steps += [step(K.CHANGE, 20, to_floor=True)]
        steps += [step(K.WORK, 40, "hip-lift", S.BOTH), step(K.REST, 20)]
        for side in (S.LEFT, S.RIGHT):
            steps += [step(K.WORK, 30, "clam", side), step(K.REST, 15)]
        steps += [step(K.CHANGE, 20, to_floor=False), step(K.WORK, 40, "wall-push", S.BOTH)]
    return timeline([*steps, step(K.REST, 30), step(K.HOLD, 30, "calf", S.LEFT), step(K.HOLD, 30, "calf", S.RIGHT),
                     step(K.WORK, 90, "breathe")])


def many_short() -> Timeline:
    """Four hundred steps of a few seconds."""
    sides = (S.LEFT, S.RIGHT)
    return timeline([step(K.REST if n % 2 else K.WORK, 5 + n % 7, side=sides[n // 2 % 2]) for n in range(400)])


def two_steps() -> Timeline:
    """Forty seconds in all."""
    return timeline([step(K.WORK, 25), step(K.REST, 15)])


def nothing() -> Timeline:
    """A day of rest."""
    return timeline([])


def efforts(plan: Timeline) -> list[int]:
    """Indexes of the steps in which the body works."""
    return [i for i, s in enumerate(plan.steps) if s.is_effort]


def all_done(plan: Timeline) -> tuple[DoneStep, ...]:
    """Every step in full."""
    return tuple(DoneStep(i, plan.steps[i].exercise or "", plan.steps[i].length_ms, How.FULL) for i in efforts(plan))


def mixed(plan: Timeline) -> tuple[DoneStep, ...]:
    """Some easier, one in part, two left out."""
    hows = {3: How.EASIER, 4: How.EASIER, 6: How.PART, 8: How.SKIPPED, 9: How.SKIPPED}
    done = []
    for n, one in enumerate(all_done(plan)):
        how = hows.get(n, How.FULL)
        share = {How.PART: 0.4, How.SKIPPED: 0}.get(how, 1)
        done.append(replace(one, how=how, done_ms=int(one.done_ms * share)))
    return tuple(done)


def stopped(plan: Timeline) -> tuple[DoneStep, ...]:
    """Ended in the middle of the eleventh stretch of work."""
    done = list(all_done(plan)[:11])
    done[-1] = replace(done[-1], how=How.STOPPED, done_ms=done[-1].done_ms // 2)
    return tuple(done)
