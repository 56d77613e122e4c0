"""Where it hurts, what of it is the agreed usual pain, and what a sore region keeps from being asked."""
from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.domain.dosing.conditions import stays_up
from app.domain.model.body import GETS_UP_WITH, LAIN_ON, Region, Spot
from app.domain.model.client import Client, UsualPain
from app.domain.model.diary import Diary
from app.domain.model.thresholds import PAIN_CAPS, PAIN_RESTS

ALL = 3
"""The highest rating: nothing is kept from being asked."""
USUAL_CAP = 2


def felt(diary: Diary | None) -> Mapping[Spot, int]:
    """Where it hurts as far as is known: today's answer; unanswered, what hurt in the last sessions, each at its worst.

    So not answering frees no joint that hurt before.
    """
    if diary is None or diary.pain is not None:
        return diary.pain or {} if diary else {}
    found: dict[Spot, int] = {}
    for last in filter(None, (diary.last, diary.last_light)):
        found |= {spot: max(level, found.get(spot, 0)) for spot, level in last.pain_at.items()}
    return found


def usual_pain_holds(usual: UsualPain | None, level: int, rise: int | None, today: date) -> bool:
    """Whether this pain is the agreed usual one: at or under it, settled by the morning, agreement not run out."""
    return usual is not None and level <= usual.level and today <= usual.until and rise is not None and rise <= 0


def usual_for(client: Client, spot: Spot) -> UsualPain | None:
    """The agreement for a spot; one for a region without a side holds for both."""
    return client.usual_pain.get(spot) or client.usual_pain.get(Spot(spot.region))


def is_usual(client: Client, diary: Diary, spot: Spot, level: int, today: date) -> bool:
    """Whether the pain at `spot` is covered by an agreement today."""
    unasked = 0 if diary.first_session else None
    rise = unasked if diary.pain_rise is None else _at(diary.pain_rise, spot)
    hours = _at(diary.pain_hours, spot)
    return usual_pain_holds(usual_for(client, spot), level, rise if hours == 0 else max(hours, 1), today)


def _at(told: Mapping[Spot, int], spot: Spot) -> int:
    """The worst that was told of a spot, with a side or without; 0 where nothing was."""
    return max((value for other, value in told.items() if spot.meets(other)), default=0)


def pain_cap(level: int) -> int:
    """The highest demand on the axes of a region that hurts so much, on both sides."""
    return 0 if level >= PAIN_RESTS else 1 if level >= PAIN_CAPS else ALL


def cap_where_it_hurts(client: Client, diary: Diary, spot: Spot, level: int, today: date) -> int:
    """The same for a body: an agreed usual pain asks for less."""
    if is_usual(client, diary, spot, level, today):
        return USUAL_CAP
    return pain_cap(level)


def getting_up_cap(region: Region, cap: int) -> int:
    """How low somebody may get whose region is capped so: not to the floor where getting up would take what is not to
    work, and with a hip or the back that hurts clearly."""
    if region not in GETS_UP_WITH:
        return ALL
    return 1 if cap == 0 or (cap == 1 and region in (Region.HIP, Region.BACK)) else ALL


def is_off_side(client: Client, diary: Diary | None, today: date) -> bool:
    """Whether nothing is to be done lying on one side: a hip, a shoulder or the ribs are sore."""
    return _spares(LAIN_ON, client, diary, today)


def is_hip_front_spared(client: Client, diary: Diary | None, today: date) -> bool:
    """Whether no thigh is taken behind the body: a hip is sore, or new.

    After an operation from the front that is the movement to avoid, and from where it was made nobody asks here. [P]
    """
    return _spares(frozenset({Region.HIP}), client, diary, today) or stays_up(client)


def _spares(regions: frozenset[Region], client: Client, diary: Diary | None, today: date) -> bool:
    """Whether one of them is to be spared, or hurts, so much that little is asked of it."""
    capped = any(spot.region in regions and cap <= 1 for spot, cap in client.spare.items())
    told = diary or Diary()
    return capped or any(spot.region in regions and cap_where_it_hurts(client, told, spot, level, today) <= 1
                         for spot, level in felt(diary).items())
