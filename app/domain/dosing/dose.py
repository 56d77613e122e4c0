"""From the diary to today's dose: every answer votes for a level, and the highest vote wins.

Source of every threshold: `app/domain/model/rules.py`. Nothing here diagnoses; levels 6–8 give no session.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.domain.dosing.votes import MISSING, votes
from app.domain.model.client import Client
from app.domain.model.diary import Diary
from app.domain.model.level import Level
from app.domain.model.plan import Dose, Reason
from app.domain.model.rules import CARRIED, DEFAULT_RULES, RuleId, RuleTable


@dataclass(frozen=True)
class LevelAmount:
    """What a level gives, in percent of the prescription."""

    work: int
    rest: int
    load: int


AMOUNTS: Mapping[int, LevelAmount] = {
    Level.PROGRESS: LevelAmount(100, 100, 100),
    Level.HOLD: LevelAmount(100, 100, 100),
    Level.REDUCED: LevelAmount(90, 110, 100),
    Level.EASIER: LevelAmount(80, 125, 90),
    Level.LIGHT: LevelAmount(70, 150, 80),
    Level.GENTLE: LevelAmount(50, 150, 0),
}


def rounds_at(level: int, rounds: int) -> int:
    """Rounds left of `rounds` at a level: R, R − 1, half rounded up, one, none."""
    if level <= Level.REDUCED:
        return rounds
    if level == Level.EASIER:
        return max(1, rounds - 1)
    if level == Level.LIGHT:
        return (rounds + 1) // 2
    return 1 if level == Level.GENTLE else 0


def decide_dose(
    diary: Diary | None,
    client: Client,
    rounds: int,
    today: date,
    *,
    strength: bool,
    table: RuleTable = DEFAULT_RULES,
) -> Dose:
    """Today's amount with its reasons. Without a check-in the coach's prescription stands (level 1).

    Args:
        rounds: rounds of the main block as written.
        strength: whether today's session holds strength work, so that days since the last one count.
    """
    if diary is None:
        reasons: tuple[Reason, ...] = (Reason(RuleId.NO_CHECK_IN, int(MISSING)),)
    else:
        reasons = votes(diary, client, today, strength=strength, table=table)
    level = max((r.level for r in reasons), default=0)
    carried = max((r.level for r in reasons if r.rule in CARRIED and not r.missing), default=0)
    amount = AMOUNTS.get(level, LevelAmount(0, 0, 0))
    return Dose(level, rounds_at(level, rounds), amount.work, amount.rest, amount.load, reasons, table.version, carried)
