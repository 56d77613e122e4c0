"""The rule table as data: which answer votes for which level, and what each level gives.

Source: the project's rule table, version 1, DEVELOPERS.md "Rule table". Marked [P] where it is a
coaching convention. A coach may make any rule stricter and soften only sleep, days and completion.
"""
from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


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
class Band:
    """From `least` upwards the vote is `level`."""

    least: int
    level: int


@dataclass(frozen=True)
class Rule:
    """Bands in rising order of `least`; the last one reached counts."""

    id: RuleId
    bands: tuple[Band, ...]
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
