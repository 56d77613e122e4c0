"""From how much pain on somebody should look at a place before any training, or before going on. [P]

Soon after a fall, in thin bones, in what was operated on, or in a calf it may be a break, a loosening or a clot, which
no answer here can tell.
"""
from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.domain.dosing.conditions import OPERATED, THIN_BONED, is_acute, uncleared
from app.domain.model.body import BODY_REGIONS, SPOTS, Region, Spot
from app.domain.model.client import Client, Condition
from app.domain.model.diary import Diary
from app.domain.model.limbs import rests_leg
from app.domain.model.thresholds import FALL_HOLDS_DAYS, PAIN_CAPS, PAIN_RESTS, PAIN_RISE

#: What breaks in a fall of somebody old without being noticed at once.
BREAKS_UNNOTICED = (Region.HIP, Region.THIGH, Region.BACK, Region.NECK)
#: What breaks by little where bones are thin, without any fall.
BREAKS_BY_LITTLE = (Region.HIP, Region.THIGH, Region.BACK, Region.RIBS)
NEVER = 11
"""More than there is."""


def looked_at_from(client: Client, diary: Diary | None, today: date, *, in_session: bool = False
                   ) -> Mapping[Spot, int]:
    """Levels of pain, 0–10, by spot; a spot that is not named is never looked at first.

    Much pain (`PAIN_RESTS`) within a fortnight of a fall, in the back, a hip, a thigh or the ribs with thin bones, in
    what was operated on and has no go-ahead yet, in a shoulder in the first weeks of a pacemaker, and in a calf. Clear
    pain (`PAIN_CAPS`) after a fall in what breaks unnoticed, and anywhere where bones are thin; with thin bones where
    it is new, or in a back where a break has no go-ahead; and in a calf after an operation without a go-ahead, during
    treatment for cancer, or of somebody whose leg rests, in plaster or weak.

    Args:
        in_session: whether it is asked in the middle of one, so that what hurt this morning is not new.
    """
    told, waits = diary or Diary(), uncleared(client)
    may_clot = rests_leg(client) or bool(waits & {*OPERATED, Condition.CANCER_TREATMENT})
    reasons: list[Mapping[Region, int]] = [
        {Region.CALF: PAIN_CAPS if may_clot else PAIN_RESTS},
        {OPERATED[condition]: PAIN_RESTS for condition in waits & OPERATED.keys()}]
    if Condition.PACEMAKER in waits and is_acute(client, Condition.PACEMAKER, today):
        reasons.append({Region.SHOULDER: PAIN_RESTS})
    is_thin = bool(THIN_BONED & client.conditions)
    if told.fall is not None and told.fall.days_ago <= FALL_HOLDS_DAYS:
        unnoticed = BODY_REGIONS if is_thin else BREAKS_UNNOTICED
        reasons.append(dict.fromkeys(BODY_REGIONS, PAIN_RESTS) | dict.fromkeys(unnoticed, PAIN_CAPS))
    if Condition.SPINE_FRACTURE in waits:
        reasons.append({Region.BACK: PAIN_CAPS})
    # the strictest counts: no reason to look takes another away
    found = {region: min(one[region] for one in reasons if region in one) for region in set[Region]().union(*reasons)}
    new = {spot: _new_pain(spot, told, in_session=in_session) for spot in SPOTS
           if is_thin and spot.region in BREAKS_BY_LITTLE}
    return {spot: min(found.get(spot.region, NEVER), new.get(spot, NEVER)) for spot in SPOTS
            if spot.region in found or spot in new}


def _new_pain(spot: Spot, diary: Diary, *, in_session: bool) -> int:
    """What is clearly more than it was in the last session, and this morning; where neither is known, only much."""
    was = [] if diary.last.pain is None else [_at(spot, diary.last.pain_at) if diary.last.pain_at else diary.last.pain]
    if in_session and diary.pain is not None:
        was.append(_at(spot, diary.pain))
    return min(PAIN_RESTS, max(PAIN_CAPS, max(was) + PAIN_RISE)) if was else PAIN_RESTS


def _at(spot: Spot, told: Mapping[Spot, int]) -> int:
    """The most that was told of it; a side that was not named may be either."""
    return max((level for other, level in told.items() if other.meets(spot)), default=0)
