"""What clients tell in the scripts: mornings with a knee that hurts, and short sessions."""
from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

from .either import either

body = either("app.domain.model.body", "app.domain.body")
diary = either("app.domain.model.diary", "app.domain.diary")
plan = either("app.domain.model.plan", "app.domain.plan")
record = either("app.domain.model.record", "app.domain.record")

NOW = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)
KNEE = body.parse_spot("left knee")
WORK = plan.Step(plan.StepKind.WORK, plan.Part.MAIN, 8_000, 30_000, "chair-squat", plan.StepSide.BOTH, 1)
PLAN = plan.Timeline("short", (plan.Step(plan.StepKind.SETUP, plan.Part.MAIN, 0, 8_000, "chair-squat"), WORK),
                     plan.Dose(0, 1, 100, 100, 100))
DONE = (record.DoneStep(1, "chair-squat", 30_000, record.How.FULL),)


def stamp(who: str, name: str, when: datetime) -> Any:
    """A first revision."""
    return record.Stamp(name, who, when, when.date(), 0)


def check_in(who: str, name: str, when: datetime, pain: int, *, fainted: bool = False) -> Any:
    """A morning; the knee hurt a point less in the last one."""
    signs = (frozenset({diary.Symptom.EMERGENCY}), ("fainting",)) if fainted else (frozenset(), ())
    return record.CheckIn(stamp(who, name, when), *signs, {KNEE: pain}, {KNEE: max(0, pain - 1)}, {}, 4, 3, 4, level=1)


def session(who: str, name: str, when: datetime, pain: int = 1, rpe: int = 5) -> Any:
    """A whole session, an hour after the check-in."""
    return record.SessionDone(stamp(who, name, when + timedelta(hours=1)), "Short one", PLAN, "ab" * 32,
                              record.Ending.FINISHED, DONE, 1200, rpe=rpe, pain={KNEE: pain})
