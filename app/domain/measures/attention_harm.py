"""Stops, falls, illness and pain: what the coach is called by first, each with all of its evidence.

A pain that a clinician agreed on as usual is no harm. A change of 2 points is meaningful (SALAFFI_2004).
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from operator import itemgetter

from app.domain.measures.attention_summary import AttentionReason, Course, Flag, PersonSummary, RecordSummary
from app.domain.model import thresholds as at
from app.domain.model.record import CheckIn, Ending, Event, SessionDone
from app.domain.model.record_kinds import KIND_OF

SESSION, CHECK_IN, EVENT = (KIND_OF[of].kept for of in (SessionDone, CheckIn, Event))
_LEVEL = itemgetter(1)
#: Neither says that anything was wrong.
AS_PLANNED = ("", Ending.FINISHED, Ending.INTERRUPTED)


def by_kind(told: Sequence[RecordSummary]) -> tuple[list[RecordSummary], list[RecordSummary]]:
    """Strength sessions, then the light ones: each is compared with its own kind; no easy day hides a hard one."""
    strength, light = list[RecordSummary](), list[RecordSummary]()
    for t in told:
        if t.kind == SESSION:
            (light if t.strength is False else strength).append(t)
    return strength, light


def signs(line: PersonSummary, told: Sequence[RecordSummary]) -> Iterator[Flag]:
    """The last stop, also one from before that nobody answered."""
    signed = [t for t in (line.open_stop, *told) if t is not None and t.sign]
    if signed:
        t = signed[-1]
        yield Flag(line.person, line.name, AttentionReason.SIGN, t.local, (t.record,), words=(t.sign,), weight=100)


def happened(line: PersonSummary, told: Sequence[RecordSummary], what: AttentionReason) -> Iterator[Flag]:
    """The last fall or illness, unless a stop on the list tells of it already."""
    found = [t for t in told if t.kind == EVENT and t.what == what]
    if not found:
        return
    signed = [t for t in told if t.sign]
    if found[-1].record != (signed[-1].record if signed else ""):
        yield Flag(line.person, line.name, what, found[-1].local, (found[-1].record,), (len(found),), weight=len(found))


# ------------------------------------------------------------------ pain

def _is_agreed(line: PersonSummary, spot: str, level: int, told: RecordSummary) -> bool:
    return any(a.spot in (spot, spot.removeprefix("left ").removeprefix("right ")) and level <= a.level
               and told.local <= a.until for a in line.usual)


def harmful(line: PersonSummary, told: RecordSummary) -> tuple[str, int]:
    """(where, how much) of the worst pain that is no agreed usual one; the place is empty where it is not known."""
    if not told.spots:
        return "", told.pain or 0
    if not line.usual:
        return max(told.spots, key=_LEVEL) if len(told.spots) > 1 else told.spots[0]
    found = [(level, spot) for spot, level in told.spots if not _is_agreed(line, spot, level, told)]
    level, spot = max(found, default=(0, ""), key=lambda one: one[0])
    return spot, level


def _level_at(line: PersonSummary, told: RecordSummary, spot: str) -> int:
    """How much one spot hurt then; the worst of all where places are not known."""
    return dict(told.spots).get(spot, 0) if spot and (told.spots or not told.pain) else harmful(line, told)[1]


def _course(line: PersonSummary, told: Sequence[RecordSummary], last: RecordSummary) -> Course:
    """The lowest level of that spot before, how the last session ended, and how hard the last ones were."""
    spot, level = harmful(line, last)
    before = [t for t in told if t.pain is not None and t.local < last.local]
    low = min((_level_at(line, t, spot) for t in before), default=level)
    low_on = next((t.local for t in reversed(before) if _level_at(line, t, spot) == low), None)
    sessions = [t for t in told if t.kind == SESSION]
    ended = sessions[-1] if sessions and sessions[-1].ending not in AS_PLANNED else None
    hard = _hard_running(by_kind(told)[0])
    lower = low < level
    return Course(spot, low if lower else None, low_on if lower else None, ended.ending if ended else "",
                  ended.completed if ended else None, tuple(t.rpe or 0 for t in hard),
                  (hard[-1].target_rpe or 0) if hard else 0)


def _hard_running(sessions: Sequence[RecordSummary]) -> list[RecordSummary]:
    """The last strength sessions in a row that were harder than meant."""
    found: list[RecordSummary] = []
    for t in reversed([s for s in sessions if s.over is not None]):
        if (t.over or 0) <= 0:
            break
        found.insert(0, t)
    return found


def pain(line: PersonSummary, told: Sequence[RecordSummary]) -> Iterator[Flag]:
    """How much it hurts, and that it rises: both, where both are so."""
    pains = [t for t in told if t.pain is not None]
    if not pains:
        return
    hurts = [harmful(line, t) for t in pains]
    # a morning of 5 counts also where the session after it went with 2
    worst, (spot, level) = max(((t, hurt) for t, hurt in zip(pains, hurts, strict=True) if t.local == pains[-1].local),
                               key=lambda one: one[1][1])
    if level >= at.PAIN_CAPS:
        yield Flag(line.person, line.name, AttentionReason.PAIN, worst.local, (worst.record,), (level,),
                   (spot,) if spot else (), level, _course(line, told, worst))
    levels = [how_much for _, how_much in hurts]
    if _is_rising(levels):
        spot, low = hurts[-1][0], min(levels[:-1])
        yield Flag(line.person, line.name, AttentionReason.RISING, pains[-1].local, tuple(p.record for p in pains),
                   tuple(levels), (spot,) if spot else (), levels[-1] - low, _course(line, told, pains[-1]))


def _is_rising(levels: Sequence[int]) -> bool:
    """Two in a row above the lowest before, the last of them by a change that means something."""
    if len(levels) < 3 or levels[-1] < at.PAIN_HOLDS:
        return False
    low = min(levels[:-1])
    return levels[-1] - low >= at.PAIN_RISE and levels[-2] > low


def misdated(line: PersonSummary, aside: Sequence[RecordSummary], *, pain_is_listed: bool) -> Iterator[Flag]:
    """Pain that was told with a date that cannot be, unless pain is on the list; and that there are such dates."""
    pains = [t for t in aside if harmful(line, t)[1] >= at.PAIN_CAPS]
    if pains and not pain_is_listed:
        worst = max(pains, key=lambda t: harmful(line, t)[1])
        spot, level = harmful(line, worst)
        yield Flag(line.person, line.name, AttentionReason.PAIN, worst.local, (worst.record,), (level,),
                   (spot,) if spot else (), level)
    if aside:
        yield Flag(line.person, line.name, AttentionReason.DATES, aside[-1].local, (aside[-1].record,), (len(aside),),
                   weight=len(aside))
