"""The rule table as data: which answer votes for which level, and what each level gives.

Each rule bears its source: a reference of `references.py`, or "coaching convention" [P]. A coach may make any
rule stricter and soften only sleep, days and completion.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from app.domain.errors import UnknownName, WrongValue
from app.domain.model import thresholds as at
from app.domain.model.level import Level
from app.domain.model.references import ACSM_AHA_2007, SALAFFI_2004, SILBERNAGEL_2007


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
    FALL = "fall"
    FLARE = "flare"
    CONDITION = "condition"


#: Levels that one of these caused are eased off one by one; the others are not carried over.
CARRIED = frozenset({RuleId.SYMPTOMS, RuleId.PAIN, RuleId.PAIN_RISE, RuleId.SORENESS, RuleId.EFFORT, RuleId.RETURN,
                     RuleId.CLEARANCE, RuleId.FALL, RuleId.FLARE})
#: Votes that a coach may soften.
SOFTENABLE = frozenset({RuleId.READINESS, RuleId.DAYS, RuleId.COMPLETION})


@dataclass(frozen=True)
class VoteBand:
    """From `least` upwards the vote is `level`."""

    least: int
    level: Level


@dataclass(frozen=True)
class Rule:
    """Bands in rising order of `least`; the last one reached counts."""

    id: RuleId
    bands: tuple[VoteBand, ...]
    source: str

    def level(self, value: int) -> Level:
        """The level that `value` votes for; 0 below the first band."""
        return max((b.level for b in self.bands if value >= b.least), default=Level.PROGRESS)


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
    effort_top_level: Level
    completion: Rule
    """Over percent of the work not done."""
    readiness: Rule
    days: Rule
    """From the second day on; `days_same` and `days_next` hold the other arm."""
    days_same: Level
    days_next: Level
    rise_hours: int
    """A rise still there after so many hours votes "ask first"."""
    soreness_hours: int
    """Soreness of `soreness_long` or more for longer than this votes "ask first"."""
    soreness_long: int
    spare_both_sides: bool = False
    """Whether a sore limb takes the other side's work too; as a rule the healthy side goes on alone. [P]"""


DEFAULT_RULES = RuleTable(
    version=1,
    preset="usual",
    pain=Rule(RuleId.PAIN, (VoteBand(at.PAIN_HOLDS, Level.HOLD), VoteBand(at.PAIN_CAPS, Level.REDUCED),
                             VoteBand(at.PAIN_RESTS, Level.LIGHT), VoteBand(at.PAIN_ENDS, Level.ASK_FIRST)),
              f"pain monitoring as in {SILBERNAGEL_2007.short}, the stricter edge"),
    pain_rise=Rule(RuleId.PAIN_RISE, (VoteBand(1, Level.HOLD), VoteBand(at.PAIN_RISE, Level.EASIER)),
                   f"{at.PAIN_RISE} points is a meaningful change: {SALAFFI_2004.short}"),
    soreness=Rule(RuleId.SORENESS, (VoteBand(at.SORENESS_HOLDS, Level.HOLD), VoteBand(at.SORENESS_EASES, Level.REDUCED),
                                     VoteBand(at.SORENESS_LIGHT, Level.LIGHT)),
                  "muscle soreness peaks at 24–72 h and clears in 5–7 days"),
    effort=Rule(RuleId.EFFORT, (VoteBand(1, Level.HOLD), VoteBand(2, Level.REDUCED), VoteBand(3, Level.EASIER),
                                 VoteBand(4, Level.LIGHT)), "coaching convention"),
    effort_top=at.EFFORT_TOP,
    effort_top_level=Level.LIGHT,
    completion=Rule(RuleId.COMPLETION, (VoteBand(101 - at.WHOLE_FROM, Level.HOLD), VoteBand(21, Level.REDUCED),
                                         VoteBand(101 - at.COUNTS_FROM, Level.EASIER)), "coaching convention"),
    readiness=Rule(RuleId.READINESS, (VoteBand(4, Level.HOLD), VoteBand(7, Level.REDUCED), VoteBand(9, Level.EASIER),
                                       VoteBand(11, Level.LIGHT)),
                   "coaching convention"),
    days=Rule(RuleId.DAYS, (VoteBand(at.GAP_EASES, Level.REDUCED), VoteBand(at.GAP_BACK, Level.EASIER),
                             VoteBand(at.GAP_OUT, Level.LIGHT)), f"non-consecutive days: {ACSM_AHA_2007.short}"),
    days_same=Level.REST,
    days_next=Level.GENTLE,
    rise_hours=48,
    soreness_hours=72,
    soreness_long=at.SORENESS_LONG,
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
    RuleId.CONDITION: "the condition’s own source, under “Conditions”",
}
MOST_SHIFT = 2
"""Levels at most, preset and hand together."""
MOVABLE = frozenset(rule for rule in RuleId if isinstance(getattr(DEFAULT_RULES, rule.value, None), Rule))


def _moved(band: VoteBand, by: int) -> VoteBand:
    """A vote for a session stays one for a session, and one against it is never weakened."""
    return band if band.level > Level.GENTLE else VoteBand(band.least, _shifted(band.level, by))


def _shifted(level: Level, by: int) -> Level:
    """Between nothing taken away and the last level with a session."""
    return Level(max(Level.PROGRESS, min(Level.GENTLE, level + by)))


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
        table = replace(table, days_next=_shifted(table.days_next, moves[RuleId.DAYS]))
    return table


def vote_source(rule: RuleId) -> str:
    """Where a vote or a change comes from: a paper, a convention of the trade, or the day itself."""
    own = getattr(DEFAULT_RULES, rule.value, None)
    return own.source if isinstance(own, Rule) else OTHER_SOURCES.get(rule, PRACTICE)
