"""What each answer votes for: a level with its reason, or nothing. Unanswered never gives more than the best answer.

Source of every threshold: `app/domain/model/rules.py` and `thresholds.py`.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from app.domain.dosing.look import NEVER, looked_at_from
from app.domain.dosing.sore_places import is_usual
from app.domain.model.body import Spot
from app.domain.model.client import Client
from app.domain.model.diary import AnsweredBy, Diary, Last, Symptom
from app.domain.model.level import Level
from app.domain.model.plan import Reason
from app.domain.model.rules import DEFAULT_RULES, Rule, RuleId, RuleTable, VoteBand
from app.domain.model.thresholds import CLEAN_NEEDED, FALL_HOLDS_DAYS

SYMPTOM_LEVELS: Mapping[Symptom, Level] = {
    Symptom.EMERGENCY: Level.EMERGENCY,
    Symptom.STOP_AND_ASK: Level.ASK_FIRST,
    Symptom.FEVER: Level.ASK_FIRST,
    Symptom.HEAD_COLD: Level.LIGHT,
}
MISSING_SYMPTOMS = Level.REST
"""Answer first: without that answer there is no session."""
MISSING_PAIN = Level.LIGHT
MISSING = Level.HOLD
"""What any other question that was left out votes for."""
RESTART = Level.LIGHT
"""Where somebody starts again after a stop and its yes."""
FLARE = Level.LIGHT
"""What getting clearly worse a day or two later votes for; and not saying whether one did, of those it matters to."""
BEST = 5
"""The best answer to how they slept and feel."""


def _vote(rule: RuleId, level: int, **data: str | int) -> Iterator[Reason]:
    if level > Level.PROGRESS:
        yield Reason(rule, int(level), tuple(sorted(data.items())))


def _missing(rule: RuleId, question: str, level: int = MISSING) -> Iterator[Reason]:
    yield from _vote(rule, level, missing=question)


def _worst(rule: Rule, spots: Mapping[Spot, int]) -> Iterator[Reason]:
    """One vote for each spot, so that each is told."""
    for spot, value in sorted(spots.items()):
        yield from _vote(rule.id, rule.level(value), spot=str(spot), value=value)


def symptom_votes(diary: Diary, table: RuleTable) -> Iterator[Reason]:
    """Unanswered: no session until answered."""
    if diary.symptoms is None:
        yield from _missing(RuleId.SYMPTOMS, "symptoms", MISSING_SYMPTOMS)
    for symptom in sorted(diary.symptoms or ()):
        yield from _vote(RuleId.SYMPTOMS, SYMPTOM_LEVELS[symptom], symptom=symptom.value)


def compared(diary: Diary, *, strength: bool) -> tuple[Last, ...]:
    """What today is read against: the last session of its own kind, and one of the other kind that came after it.

    So a light day between hides nothing of the strength work before it, and a light day that went badly still counts.
    """
    last, light = diary.last, diary.last_light
    if light is None:
        return (last,)
    own, other = (last, light) if strength else (light, last)
    unknown = own.days_ago is None or other.days_ago is None
    return (own, other) if unknown or (other.days_ago or 0) <= (own.days_ago or 0) else (own,)


def pain_votes(diary: Diary, client: Client, table: RuleTable, today: date, *, strength: bool = True
               ) -> Iterator[Reason]:
    """Worst pain now or in the last session; a usual pain at or under its level votes nothing."""
    last = _last_pain(diary, client, today, strength=strength)
    if diary.pain is None:
        level = max([MISSING_PAIN, *(table.pain.level(value) for value in last.values())])
        yield from _missing(RuleId.PAIN, "pain", level)
        return
    told = {s: v for s, v in diary.pain.items() if not is_usual(client, diary, s, v, today)}
    looked_at = looked_at_from(client, diary, today)
    for spot, value in sorted(told.items()):
        level, look = table.pain.level(value), value >= looked_at.get(spot, NEVER)
        if look and level < Level.ASK_FIRST:
            yield from _vote(RuleId.PAIN, Level.ASK_FIRST, spot=str(spot), value=value, look=1)
        else:
            yield from _vote(RuleId.PAIN, level, spot=str(spot), value=value)
    for words, value in sorted(last.items()):
        yield from _vote(RuleId.PAIN, table.pain.level(value), last=value, spot=words)


def _last_pain(diary: Diary, client: Client, today: date, *, strength: bool) -> dict[str, int]:
    """Pain in the last session by spot, without what was usual; under the empty word where the spot is unknown."""
    found: dict[str, int] = {}
    for last in compared(diary, strength=strength):
        told = {str(s): v for s, v in last.pain_at.items() if not is_usual(client, diary, s, v, today)}
        if not last.pain_at and last.pain is not None:
            told = {"": last.pain}
        found |= {spot: max(value, found.get(spot, 0)) for spot, value in told.items()}
    return found


def rise_votes(diary: Diary, table: RuleTable) -> Iterator[Reason]:
    """The morning after minus before, and a rise that did not settle."""
    if diary.pain_rise is None:
        if not diary.first_session:
            yield from _missing(RuleId.PAIN_RISE, "pain_rise")
    else:
        yield from _worst(table.pain_rise, diary.pain_rise)
    for spot, hours in sorted(diary.pain_hours.items()):
        settled = (diary.pain_rise or {}).get(spot, 1) <= 0
        if hours >= table.rise_hours and not settled:
            yield from _vote(RuleId.PAIN_RISE, Level.ASK_FIRST, spot=str(spot), hours=hours)


def soreness_votes(diary: Diary, table: RuleTable) -> Iterator[Reason]:
    """Muscle soreness, and soreness that lasts too long."""
    if diary.soreness is None:
        yield from _missing(RuleId.SORENESS, "soreness")
        return
    yield from _worst(table.soreness, diary.soreness)
    for spot, value in sorted(diary.soreness.items()):
        hours = max((h for other, h in diary.soreness_hours.items() if spot.meets(other)), default=0)
        if value >= table.soreness_long and hours > table.soreness_hours:
            yield from _vote(RuleId.SORENESS, Level.ASK_FIRST, spot=str(spot), value=value, hours=hours)


def _of(last: Last, diary: Diary) -> dict[str, int]:
    """What a reason says of a session without strength work, so that it is told which one was meant."""
    return {"light": 1} if last is diary.last_light else {}


def effort_votes(diary: Diary, table: RuleTable, *, strength: bool = True) -> Iterator[Reason]:
    """How hard the last session was against how hard it was meant to be."""
    for last in () if diary.first_session else compared(diary, strength=strength):
        yield from _effort_of(last, table, _of(last, diary))


def _effort_of(last: Last, table: RuleTable, which: Mapping[str, int]) -> Iterator[Reason]:
    rpe, target = last.rpe, last.target_rpe
    top = table.effort_top_level if rpe is not None and rpe >= table.effort_top else Level.PROGRESS
    if rpe is None or (target is None and not top):
        yield from _missing(RuleId.EFFORT, "rpe")
    else:
        target = rpe if target is None else target
        yield from _vote(RuleId.EFFORT, max(top, table.effort.level(rpe - target)), rpe=rpe, target=target, **which)


def completion_votes(diary: Diary, table: RuleTable, *, strength: bool = True) -> Iterator[Reason]:
    """Share of the planned work that was done; a stop for the doorbell, named as such, does not count."""
    for last in () if diary.first_session else compared(diary, strength=strength):
        if last.interrupted:
            continue
        if last.completed is None:
            yield from _missing(RuleId.COMPLETION, "completed")
        else:
            level = table.completion.level(100 - last.completed)
            yield from _vote(RuleId.COMPLETION, level, done=last.completed, **_of(last, diary))


def readiness_votes(diary: Diary, table: RuleTable) -> Iterator[Reason]:
    """Slept, energy and settled, 1–5 each with 5 best; a missing one counts as its best, and votes 1 itself."""
    items = (diary.slept, diary.energy, diary.calm)
    told = [v for v in items if v is not None]
    gap = sum(BEST - v for v in told)
    level = table.readiness.level(gap)
    lowest = min(told, default=BEST)
    if lowest == 1:
        level = max(level, _level_of_one(table.readiness.bands))
    yield from _vote(RuleId.READINESS, level, gap=gap, slept=diary.slept or 0, energy=diary.energy or 0,
                     calm=diary.calm or 0)
    if len(told) < len(items):
        yield from _missing(RuleId.READINESS, "readiness")


def _level_of_one(bands: tuple[VoteBand, ...]) -> Level:
    """Any item at 1 votes at least as the second band does (2 in the default table)."""
    return bands[1].level


def days_votes(diary: Diary, table: RuleTable, *, strength: bool) -> Iterator[Reason]:
    """Days since the last session with strength work; votes on such sessions only."""
    if diary.first_session or not strength:
        return
    days = diary.last.days_ago
    if days is None:
        yield from _missing(RuleId.DAYS, "days_ago")
    elif days <= 0:
        yield from _vote(RuleId.DAYS, table.days_same, days=0)
    elif days == 1:
        yield from _vote(RuleId.DAYS, table.days_next, days=1)
    else:
        yield from _vote(RuleId.DAYS, table.days.level(days), days=days)


def return_votes(diary: Diary, table: RuleTable) -> Iterator[Reason]:
    """At most one level better per session after one that pain, soreness, illness or effort caused."""
    previous = diary.previous_level
    if previous >= Level.ASK_FIRST and not diary.cleared:
        yield from _vote(RuleId.CLEARANCE, Level.ASK_FIRST, previous=previous)
    elif previous >= Level.ASK_FIRST:
        yield from _vote(RuleId.RETURN, RESTART, previous=previous)
    elif previous >= Level.EASIER:
        yield from _vote(RuleId.RETURN, previous - 1, previous=previous)


def caution_votes(diary: Diary) -> Iterator[Reason]:
    """What holds a step back without taking anything away."""
    if diary.clean_sessions < CLEAN_NEEDED:
        yield from _vote(RuleId.CLEAN_SESSIONS, MISSING, clean=diary.clean_sessions)
    if diary.answered_by is AnsweredBy.LEADER:
        yield from _vote(RuleId.ANSWERED_BY, MISSING)


def fall_votes(diary: Diary) -> Iterator[Reason]:
    """A fall that hurt stops until somebody has looked at it; one that did not holds things as they are. [P]"""
    fall = diary.fall
    if fall is not None and fall.hurt and not diary.cleared:
        yield from _vote(RuleId.FALL, Level.ASK_FIRST, days=fall.days_ago, hurt=1)
    elif fall is not None and fall.days_ago <= FALL_HOLDS_DAYS:
        yield from _vote(RuleId.FALL, MISSING, days=fall.days_ago)


def flare_votes(diary: Diary) -> Iterator[Reason]:
    """Clearly worse a day or two after the last session: what comes late counts as much as what comes at once. [P]"""
    if diary.flare_days is not None:
        yield from _vote(RuleId.FLARE, FLARE, days=diary.flare_days)
    elif diary.flare_unsaid:
        yield from _missing(RuleId.FLARE, "flare", FLARE)


def votes(
    diary: Diary, client: Client, today: date, *, strength: bool, table: RuleTable = DEFAULT_RULES
) -> tuple[Reason, ...]:
    """Every vote above 0, the highest first; the order of the answers makes no difference."""
    found = (
        *symptom_votes(diary, table),
        *pain_votes(diary, client, table, today, strength=strength),
        *rise_votes(diary, table),
        *soreness_votes(diary, table),
        *effort_votes(diary, table, strength=strength),
        *completion_votes(diary, table, strength=strength),
        *readiness_votes(diary, table),
        *days_votes(diary, table, strength=strength),
        *return_votes(diary, table),
        *fall_votes(diary),
        *flare_votes(diary),
        *caution_votes(diary),
    )
    return tuple(sorted(found, key=lambda r: -r.level))
