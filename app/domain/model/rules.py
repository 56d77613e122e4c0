"""The rule table as data: which answer votes for which level, and what each level gives.

Source: the project's rule table, version 1, DEVELOPERS.md "Rule table". Marked [P] where it is a
coaching convention. A coach may make any rule stricter and soften only sleep, days and completion.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from app.domain.errors import UnknownName, WrongValue


class RuleId(StrEnum):
    """What can vote. The ids stand in plans and returns and never change."""

    SYMPTOMS = "symptoms"
    PAIN = "pain"
    PAIN_RISE = "pain_rise"
    SORENESS = "soreness"
    EFFORT = "effort"
    COMPLETION = "completion"
    READINESS = "readiness"
    DAYS = "days"
    RETURN = "return"
    CLEARANCE = "clearance"
    CLEAN_SESSIONS = "clean_sessions"
    ANSWERED_BY = "answered_by"
    NO_CHECK_IN = "no_check_in"
    LIGHTER_WEEK = "lighter_week"
    MINUTES = "minutes"


#: Levels that one of these caused are eased off one by one; the others are not carried over.
CARRIED = frozenset({RuleId.SYMPTOMS, RuleId.PAIN, RuleId.PAIN_RISE, RuleId.SORENESS, RuleId.EFFORT, RuleId.RETURN,
                     RuleId.CLEARANCE})
#: Votes that a coach may soften.
SOFTENABLE = frozenset({RuleId.READINESS, RuleId.DAYS, RuleId.COMPLETION})


@dataclass(frozen=True)
class VoteBand:
    """From `least` upwards the vote is `level`."""

    least: int
    level: int


@dataclass(frozen=True)
class Rule:
    """Bands in rising order of `least`; the last one reached counts."""

    id: RuleId
    bands: tuple[VoteBand, ...]
    source: str

    def level(self, value: int) -> int:
        """The level that `value` votes for; 0 below the first band."""
        return max((b.level for b in self.bands if value >= b.least), default=0)


@dataclass(frozen=True)
class RuleTable:
    """All votes. `readiness` bands run over 15 minus the sum of the three items, so that high is worse throughout."""

    version: int
    preset: str
    pain: Rule
    pain_rise: Rule
    soreness: Rule
    effort: Rule
    effort_top: int
    """A session RPE from here on votes `effort_top_level`, whatever the target."""
    effort_top_level: int
    completion: Rule
    """Over percent of the work not done."""
    readiness: Rule
    days: Rule
    """From the second day on; `days_same` and `days_next` hold the other arm."""
    days_same: int
    days_next: int
    rise_hours: int
    """A rise still there after so many hours votes 7."""
    soreness_hours: int
    """Soreness of `soreness_long` or more for longer than this votes 7."""
    soreness_long: int


DEFAULT_RULES = RuleTable(
    version=1,
    preset="usual",
    pain=Rule(RuleId.PAIN, (VoteBand(3, 1), VoteBand(4, 2), VoteBand(6, 4), VoteBand(8, 7)),
              "pain monitoring as in Silbernagel 2007, the stricter edge"),
    pain_rise=Rule(RuleId.PAIN_RISE, (VoteBand(1, 1), VoteBand(2, 3)), "2 points is a meaningful change: Salaffi 2004"),
    soreness=Rule(RuleId.SORENESS, (VoteBand(4, 1), VoteBand(6, 2), VoteBand(8, 4)),
                  "muscle soreness peaks at 24–72 h and clears in 5–7 days"),
    effort=Rule(RuleId.EFFORT, (VoteBand(1, 1), VoteBand(2, 2), VoteBand(3, 3), VoteBand(4, 4)), "coaching convention"),
    effort_top=9,
    effort_top_level=4,
    completion=Rule(RuleId.COMPLETION, (VoteBand(6, 1), VoteBand(21, 2), VoteBand(41, 3)), "coaching convention"),
    readiness=Rule(RuleId.READINESS, (VoteBand(4, 1), VoteBand(7, 2), VoteBand(9, 3), VoteBand(11, 4)),
                   "coaching convention"),
    days=Rule(RuleId.DAYS, (VoteBand(8, 2), VoteBand(15, 3), VoteBand(29, 4)), "non-consecutive days: ACSM/AHA 2007"),
    days_same=6,
    days_next=5,
    rise_hours=48,
    soreness_hours=72,
    soreness_long=6,
)

#: Levels added by a preset. `careful` eases one level sooner, `steady` leaves ordinary tiredness alone.
PRESETS: Mapping[str, Mapping[RuleId, int]] = {
    "careful": {RuleId.PAIN: 1, RuleId.PAIN_RISE: 1, RuleId.SORENESS: 1, RuleId.EFFORT: 1, RuleId.READINESS: 1},
    "usual": {},
    "steady": {RuleId.READINESS: -1, RuleId.COMPLETION: -1},
}
#: Votes and changes that no table of bands makes.
PRACTICE = "coaching convention [P]"
OTHER_SOURCES: Mapping[RuleId, str] = {
    RuleId.SYMPTOMS: "the project's list of stop signs",
    RuleId.LIGHTER_WEEK: "your programme",
    RuleId.MINUTES: "the minutes that there were",
}
MOST_SHIFT = 2
"""Levels at most, preset and hand together."""
MOVABLE = frozenset(rule for rule in RuleId if isinstance(getattr(DEFAULT_RULES, rule.value, None), Rule))


def _moved(band: VoteBand, by: int) -> VoteBand:
    """A vote for a session stays one for a session, and one against it is never weakened."""
    return band if band.level >= 6 else VoteBand(band.least, max(0, min(5, band.level + by)))


def rule_table(preset: str = "usual", shift: Mapping[RuleId, int] | None = None) -> RuleTable:
    """The default table, moved by a preset and by hand. `shift` adds levels to each vote above 0.

    Raises:
        UnknownName: no such preset, or a rule without votes of its own to move.
        WrongValue: a shift that softens what may not be softened, or moves more than 2 levels.
    """
    if preset not in PRESETS:
        raise UnknownName(kind="rule preset", name=preset, known=tuple(PRESETS))
    moves = dict(PRESETS[preset])
    for rule, by in (shift or {}).items():
        if abs(by) > MOST_SHIFT or (by < 0 and rule not in SOFTENABLE):
            expected = f"-{MOST_SHIFT} to {MOST_SHIFT}" if rule in SOFTENABLE else f"0 to {MOST_SHIFT}"
            raise WrongValue(where=f"rules.shift.{rule}", value=by, expected=expected)
        if rule not in MOVABLE:
            raise UnknownName(kind="rule to shift", name=rule.value, known=tuple(sorted(MOVABLE)))
        moves[rule] = max(-MOST_SHIFT, min(MOST_SHIFT, moves.get(rule, 0) + by))
    table = replace(DEFAULT_RULES, preset=preset)
    moved: dict[str, Any] = {}
    for rule, by in moves.items():
        old: Rule = getattr(table, rule.value)
        moved[rule.value] = replace(old, bands=tuple(_moved(b, by) for b in old.bands))
    table = replace(table, **moved)
    if RuleId.DAYS in moves:
        table = replace(table, days_next=max(0, min(5, table.days_next + moves[RuleId.DAYS])))
    return table


def vote_source(rule: RuleId) -> str:
    """Where a vote or a change comes from: a paper, a convention of the trade, or the day itself."""
    own = getattr(DEFAULT_RULES, rule.value, None)
    return own.source if isinstance(own, Rule) else OTHER_SOURCES.get(rule, PRACTICE)
