"""From the records of a person to the evidence for today's dose: what the diary says, with what came before it."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from app.domain.dosing.events import asks_flare
from app.domain.dosing.sore_places import usual_for
from app.domain.dosing.way_back import check_ins_of, sessions_of, way_back
from app.domain.model.body import Spot
from app.domain.model.client import Client
from app.domain.model.diary import AnsweredBy, Diary, Fall, Last
from app.domain.model.record import CheckIn, Clearance, Ending, Event, EventKind, Record, SessionDone
from app.domain.model.rules import DEFAULT_RULES, RuleTable
from app.domain.model.thresholds import (
    EFFORT_OVER,
    FORTNIGHT_DAYS,
    PAIN_HOLDS,
    STRENGTH_GAP_DAYS,
    WHOLE_FROM,
)

CLOCK_SET_BACK = timedelta(days=FORTNIGHT_DAYS)
"""What bears a day up to so much later than a check-in was made before it, and by another clock. [P]"""
LOOK_BACK = 12
"""So many sessions are looked back for the last of the same kind."""
#: Nothing with strength work was done yet: neither too soon nor too long ago.
NO_STRENGTH_YET = STRENGTH_GAP_DAYS


def is_as_meant(done: SessionDone, before: Sequence[SessionDone]) -> bool:
    """No harder than meant; or by one point, while the last three of its kind were on average less than that over.

    A single rating scatters by almost a point (intraclass correlation 0.7–0.8), so that one point now and then says
    nothing; two points do, in this one or the one before. [P]
    """
    over = (done.rpe or 0) - done.plan.target_rpe
    if over < 1:
        return True
    kind = [s.rpe - s.plan.target_rpe for s in before if s.plan.strength == done.plan.strength and s.rpe is not None]
    last = [*kind[-2:], over]
    return len(last) > 1 and sum(last) < len(last) and max(last[-2:]) < EFFORT_OVER


def is_clean(done: SessionDone, client: Client, before: Sequence[SessionDone] = ()) -> bool:
    """Finished, nearly all of it done, no harder than meant, and nothing hurt beyond what is usual.

    Told by the person: nobody moves on by another's guess. `before` are the sessions before it, oldest first.
    """
    if done.answered_by is not AnsweredBy.SELF:
        return False
    if done.ending is not Ending.FINISHED or done.completed < WHOLE_FROM or done.hurts:
        return False
    if done.rpe is None or done.pain is None or not is_as_meant(done, before):
        return False
    return is_as_usual(done, client)


def is_as_usual(done: SessionDone, client: Client) -> bool:
    """Whether nothing hurt in or after a session beyond what was agreed on as usual."""
    told = done.hurt_at.items()
    return all(level < PAIN_HOLDS or _usual(client, spot, level, done.stamp.local) for spot, level in told)


def _usual(client: Client, spot: Spot, level: int, on: date) -> bool:
    usual = usual_for(client, spot)
    return usual is not None and level <= usual.level and on <= usual.until


def clean_running(records: Sequence[Record], client: Client) -> int:
    """Clean sessions in a row, up to the latest."""
    past = sessions_of(records)
    for count, at in enumerate(reversed(range(len(past)))):
        if not is_clean(past[at], client, past[max(0, at - LOOK_BACK):at]):
            return count
    return len(past)


# ------------------------------------------------------------------ today's diary

def _rises(check_in: CheckIn, before: Mapping[Spot, int]) -> Mapping[Spot, int] | None:
    if check_in.morning_after is None:
        return None
    return {spot: level - before.get(spot, 0) for spot, level in sorted(check_in.morning_after.items())}


def _pain_hours(check_in: CheckIn, before: Mapping[Spot, int], rises: Mapping[Spot, int], since: datetime
                ) -> dict[Spot, int]:
    hours = int((check_in.stamp.utc - since).total_seconds() // 3600)
    now = check_in.pain or {}
    return {s: hours for s, rise in rises.items() if rise > 0 and now.get(s, 0) > before.get(s, 0)}


def _soreness_hours(check_in: CheckIn, earlier: Sequence[CheckIn], long: int) -> dict[Spot, int]:
    """For each spot at `long` or more: hours since the first of the check-ins in a row that said so."""
    found = {}
    for spot, level in (check_in.soreness or {}).items():
        if level < long:
            continue
        first = check_in.stamp.utc
        for older in reversed(earlier):
            if (older.soreness or {}).get(spot, 0) < long:
                break
            first = older.stamp.utc
        found[spot] = int((check_in.stamp.utc - first).total_seconds() // 3600)
    return found


def _lasts(sessions: Sequence[SessionDone], today: date) -> tuple[Last, Last | None]:
    """The last session with strength work, and the last one without beside it; before there was any, the latest.

    The days count from strength work that was really done.
    """
    strength, light = [s for s in sessions if s.plan.strength], [s for s in sessions if not s.plan.strength]
    trained = [s for s in strength if s.completed > 0]
    days = _days_ago(trained[-1], today) if trained else NO_STRENGTH_YET
    if not strength:
        return _last(sessions[-1], days), None
    return _last(strength[-1], days), _last(light[-1], _days_ago(light[-1], today)) if light else None


def _days_ago(done: SessionDone, today: date) -> int | None:
    """None where it bears a day to come, so that the clock was set back: nobody knows."""
    days = (today - done.stamp.local).days
    return days if days >= 0 else None


def _last(latest: SessionDone, days: int | None) -> Last:
    at: dict[Spot, int] = dict(latest.pain or {})
    for hurt in latest.hurts:
        at[hurt.spot] = max(hurt.level, at.get(hurt.spot, 0))
    return Last(days, latest.rpe, latest.plan.target_rpe, latest.completed, latest.worst_pain, at,
                latest.ending is Ending.INTERRUPTED)


def _last_fall(records: Sequence[Record], today: date) -> Fall | None:
    """The last fall that was written down."""
    falls = [r for r in records if isinstance(r, Event) and r.kind is EventKind.FALL and not r.stamp.deleted]
    last = max(falls, key=lambda r: (r.since or r.stamp.local, r.stamp.id), default=None)
    return Fall(max(0, (today - (last.since or last.stamp.local)).days), bool(last.stopped_by)) if last else None


def _flare(check_in: CheckIn, earlier: Sequence[CheckIn], since: datetime) -> int | None:
    """The last answer of those since the last session, 0 for "no"; None where nothing was said."""
    told = [c.flare_days for c in (*earlier, check_in) if c.stamp.utc > since and c.flare_days is not None]
    return told[-1] if told else None


def diary_today(check_in: CheckIn, records: Sequence[Record], client: Client, *, table: RuleTable = DEFAULT_RULES
                ) -> Diary:
    """The evidence for today's dose: this check-in, read against everything before it.

    What bears a day up to a fortnight later was made before it all the same, by a clock that has been set back since,
    and counts; how long ago that was is then not known. What bears a later day is a stray entry: it counts for nothing.
    `table` is the one that decides the dose: it says from which soreness on the hours are counted.
    """
    until = check_in.stamp.utc + CLOCK_SET_BACK
    past = [r for r in records if r.stamp.id != check_in.stamp.id and r.stamp.utc <= until]
    # a fall or an illness told since this morning's answers counts all the same
    so_far = [*past, *(r for r in records if isinstance(r, Event) and r.stamp.utc > check_in.stamp.utc)]
    sessions, earlier, way = sessions_of(past), check_ins_of(past), way_back(so_far)
    later = [r for r in records if isinstance(r, Clearance)]
    way = way if way.stop is None else way_back([*so_far, *later])
    common = Diary(
        check_in.symptoms, check_in.pain, soreness=check_in.soreness,
        soreness_hours=_soreness_hours(check_in, earlier, table.soreness_long), slept=check_in.slept,
        energy=check_in.energy, calm=check_in.calm, first_session=not sessions, previous_level=way.previous_level,
        cleared=way.stop is None, clean_sessions=clean_running(past, client), answered_by=check_in.answered_by,
        fall=_last_fall(so_far, check_in.stamp.local),
    )
    if not sessions:
        return common
    latest = sessions[-1]
    told = [c for c in earlier if c.stamp.utc <= latest.stamp.utc and c.pain is not None]
    before = (told[-1].pain or {}) if told else {}
    rises = _rises(check_in, before)
    last, light = _lasts(sessions, check_in.stamp.local)
    flare = _flare(check_in, earlier, latest.stamp.utc)
    asked = latest.stamp.local < check_in.stamp.local and asks_flare(client, past, check_in.stamp.local)
    return replace(
        common, pain_rise=rises, last=last, last_light=light,
        pain_hours=_pain_hours(check_in, before, rises or {}, latest.stamp.utc),
        flare_days=flare or None, flare_unsaid=flare is None and asked,
    )
