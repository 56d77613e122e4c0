"""From how much pain on somebody should look at a place before any training, or before going on. [P]

Soon after a fall, in thin bones, in what was operated on, or in a calf it may be a break, a loosening or a clot, which
no answer here can tell.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.dosing.conditions import OPERATED, THIN_BONED, uncleared
from app.domain.model.body import BODY_REGIONS, Region
from app.domain.model.client import Client, Condition
from app.domain.model.diary import Diary
from app.domain.model.limbs import rests_leg
from app.domain.model.thresholds import FALL_HOLDS_DAYS, PAIN_CAPS, PAIN_RESTS, PAIN_RISE

#: What breaks in a fall of somebody old without being noticed at once.
BREAKS_UNNOTICED = (Region.HIP, Region.THIGH, Region.BACK, Region.NECK)
NEVER = 11
"""More than there is."""


def looked_at_from(client: Client, diary: Diary | None, *, in_session: bool = False) -> Mapping[Region, int]:
    """Levels of pain, 0–10, by region; a region that is not named is never looked at first.

    Much pain (`PAIN_RESTS`) within a fortnight of a fall, in the back, a hip or a thigh with thin bones, in what was
    operated on and has no go-ahead yet, and in a calf. Clear pain (`PAIN_CAPS`) after a fall in what breaks unnoticed;
    with thin bones in a back, a hip or a thigh where it is new, or in a back where a break has no go-ahead; and in a
    calf after an operation without a go-ahead, during treatment for cancer, or of somebody whose leg rests, in plaster
    or weak.

    Args:
        in_session: whether it is asked in the middle of one, so that what hurt this morning is not new.
    """
    told, waits = diary or Diary(), uncleared(client)
    may_clot = rests_leg(client) or bool(waits & {*OPERATED, Condition.CANCER_TREATMENT})
    reasons: list[Mapping[Region, int]] = [
        {Region.CALF: PAIN_CAPS if may_clot else PAIN_RESTS},
        {OPERATED[condition]: PAIN_RESTS for condition in waits & OPERATED.keys()}]
    if told.fall is not None and told.fall.days_ago <= FALL_HOLDS_DAYS:
        reasons.append(dict.fromkeys(BODY_REGIONS, PAIN_RESTS) | dict.fromkeys(BREAKS_UNNOTICED, PAIN_CAPS))
    if THIN_BONED & client.conditions:
        reasons.append({region: _new_pain(region, told, in_session=in_session)
                        for region in (Region.HIP, Region.THIGH, Region.BACK)})
        if Condition.SPINE_FRACTURE in waits:
            reasons.append({Region.BACK: PAIN_CAPS})
    # the strictest counts: no reason to look takes another away
    return {region: min(one[region] for one in reasons if region in one) for region in set[Region]().union(*reasons)}


def _new_pain(region: Region, diary: Diary, *, in_session: bool) -> int:
    """What is clearly more than it was in the last session, and this morning; where neither is known, only much."""
    was = [] if diary.last.pain is None else [
        diary.last.pain_at.get(spot, 0) for spot in diary.last.pain_at if spot.region is region] or [
        0 if diary.last.pain_at else diary.last.pain]
    if in_session and diary.pain is not None:
        was.append(max((v for spot, v in diary.pain.items() if spot.region is region), default=0))
    return min(PAIN_RESTS, max(PAIN_CAPS, max(was) + PAIN_RISE)) if was else PAIN_RESTS
