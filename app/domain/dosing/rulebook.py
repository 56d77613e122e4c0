"""The rule table laid out to be read: which stretch of answers votes for which level, and what each level gives.

Everything here is worked out from the tables that decide, so that what is read is what is done.
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.domain.dosing.dose import AMOUNTS, rounds_at
from app.domain.dosing.votes import BEST
from app.domain.model.level import Level
from app.domain.model.rules import Rule, RuleId, RuleTable

ITEMS = 3
"""Slept, energy and settled."""
WHOLE = 100


@dataclass(frozen=True)
class Stretch:
    """Answers from `first` to `last`, both included, vote for a level. None: without end on that side."""

    first: int | None
    last: int | None
    level: int


def _stretches(rule: Rule, least: int | None, most: int | None) -> tuple[Stretch, ...]:
    """Over whole numbers; neighbouring stretches of one level are one."""
    start = least if least is not None else min(b.least for b in rule.bands) - 1
    marks = sorted({start, *(b.least for b in rule.bands if b.least > start and (most is None or b.least <= most))})
    found: list[Stretch] = []
    for at, first in enumerate(marks):
        last = marks[at + 1] - 1 if at + 1 < len(marks) else most
        level = rule.level(first)
        if found and found[-1].level == level:
            found[-1] = Stretch(found[-1].first, last, level)
        else:
            found.append(Stretch(None if at == 0 and least is None else first, last, level))
    return tuple(found)


def _mirrored(stretches: tuple[Stretch, ...], top: int) -> tuple[Stretch, ...]:
    """The same counted down from `top`."""
    def other(value: int | None) -> int | None:
        return None if value is None else top - value
    return tuple(Stretch(other(s.last), other(s.first), s.level) for s in stretches)


def answers(table: RuleTable) -> dict[RuleId, tuple[Stretch, ...]]:
    """Of every rule with a scale: the stretches of what is asked.

    Pain and soreness 0–10; the rise in points; effort as told minus meant; completion in percent done; readiness as the
    sum of three items of 1–5; days since strength work.
    """
    worst = ITEMS * (BEST - 1)
    return {
        RuleId.PAIN: _stretches(table.pain, 0, 10),
        RuleId.PAIN_RISE: _stretches(table.pain_rise, None, None),
        RuleId.SORENESS: _stretches(table.soreness, 0, 10),
        RuleId.EFFORT: _stretches(table.effort, None, None),
        RuleId.COMPLETION: _mirrored(_stretches(table.completion, 0, WHOLE), WHOLE),
        RuleId.READINESS: _mirrored(_stretches(table.readiness, 0, worst), ITEMS * BEST),
        RuleId.DAYS: (Stretch(0, 0, table.days_same), Stretch(1, 1, table.days_next), *_stretches(table.days, 2, None)),
    }


def level_of_one(table: RuleTable) -> int:
    """What any of the three items at 1 votes for at least, whatever their sum."""
    return table.readiness.bands[1].level


@dataclass(frozen=True)
class Given:
    """What a level gives of a session: rounds left of 2, 3 and 4, and percents of what was written; 0: no session."""

    level: int
    rounds: tuple[int, int, int]
    work: int
    rest: int
    load: int


def given() -> Iterator[Given]:
    """Of every level."""
    for level in Level:
        amount = AMOUNTS.get(level)
        rounds = (rounds_at(level, 2), rounds_at(level, 3), rounds_at(level, 4))
        yield Given(level, rounds, *((amount.work, amount.rest, amount.load) if amount else (0, 0, 0)))
