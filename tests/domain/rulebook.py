"""What a body, a day and a room forbid, copied from the written tables and not from the program.

The second opinion that substitution is held against: plain strings, no table of `app.domain`.
"""
from __future__ import annotations

from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Exercise
from tests.domain.shipped import TODAY

REGION = {
    "knee": "deep_knee_flexion kneeling impact floor_transfer", "hip": "deep_hip_flexion loaded_twist impact",
    "ankle": "ankle_load impact single_leg_balance", "back": "loaded_spinal_flexion loaded_twist impact",
    "neck": "neck_load head_below_heart", "shoulder": "overhead_shoulder shoulder_load wrist_weight_bearing",
    "elbow": "elbow_load grip", "wrist": "wrist_weight_bearing grip", "balance": "single_leg_balance",
    "floor": "floor_transfer head_below_heart",
}
CONDITION = {
    "osteoporosis": {"loaded_spinal_flexion": 1, "loaded_twist": 0, "impact": 1},
    "vertigo": {"head_below_heart": 0, "floor_transfer": 1}, "pelvic_floor": {"impact": 0},
    "hip_replacement": {"deep_hip_flexion": 1, "loaded_twist": 1}, "knee_replacement": {"kneeling": 1, "impact": 1},
    "falls": {"single_leg_balance": 1}, "cannot_rise": {"floor_transfer": 1},
    "high_blood_pressure": {"head_below_heart": 1}, "heart_condition": {"head_below_heart": 1},
}
ON_FLOOR = {"kneeling", "quadruped", "supine", "prone", "side_lying"}
EVERYWHERE = {"none", "wall", "doorway"}


def _pain_cap(client: Client, diary: Diary, spot: object, level: int) -> int:
    """4–5 allows 1, 6–7 and more nothing; an agreed usual pain that had settled allows 2."""
    region, side = spot.region, spot.side  # type: ignore[attr-defined]
    exact_first = sorted(client.usual_pain.items(), key=lambda told: told[0].side != side)
    agreed = [u for s, u in exact_first if s.region == region and s.side in (side, "")]
    same = [s for s in {**(diary.pain_rise or {}), **diary.pain_hours} if s.region == region and (
        s.side == side or not s.side or not side)]
    settled = (diary.first_session or diary.pain_rise is not None) and all(
        (diary.pain_rise or {}).get(s, 0) <= 0 and diary.pain_hours.get(s, 0) <= 0 for s in same)
    if settled and any(level <= u.level and u.until >= TODAY for u in agreed[:1]):
        return 2
    return 0 if level >= 6 else 1 if level >= 4 else 3


def caps(client: Client, diary: Diary | None) -> dict[str, int]:
    """The highest demand allowed by axis."""
    found: dict[str, int] = {}

    def cap(axis: str, most: int) -> None:
        found[axis] = min(found.get(axis, 3), most)

    for axis, most in client.limits.items():
        cap(axis.value, most)
    for spot, most in client.spare.items():
        for axis in REGION[spot.region.value].split():
            cap(axis, most)
    for condition in client.conditions:
        for axis, most in CONDITION.get(condition.value, {}).items():
            cap(axis, most)
    if not client.rises_unaided:
        cap("floor_transfer", 1)
    for spot, level in ((diary.pain if diary else None) or {}).items():
        for axis in REGION[spot.region.value].split():
            cap(axis, _pain_cap(client, diary or Diary(), spot, level))
    return found


def forbids(exercise: Exercise, client: Client, room: Place, diary: Diary | None, session_kit: set[str]) -> list[str]:
    """Everything that speaks against an exercise; empty where it may be done."""
    demand = {axis.value: asked for axis, asked in exercise.demand.items()}
    found = [axis for axis, most in caps(client, diary).items() if demand.get(axis, 0) > most]
    floor = max(demand.get("floor_transfer", 0), 2 if exercise.position.value in ON_FLOOR else 0)
    if floor > caps(client, diary).get("floor_transfer", 3) and "floor_transfer" not in found:
        found.append("floor_transfer")
    own = room.kit if room.kit is not None else client.kit
    if set(exercise.equipment) - EVERYWHERE - (session_kit if own is None else own):
        found.append("kit")
    if not room.floor and floor > 1:
        found.append("floor")
    if not room.noise and demand.get("impact", 0) > 1:
        found.append("noise")
    if room.space.value == "small" and exercise.space.value == "large":
        found.append("space")
    falls = any(c.value == "falls" for c in client.conditions)
    if falls and demand.get("single_leg_balance", 0) and exercise.support.value == "none":
        found.append("support")
    if client.rest_side and exercise.sides.value == "alternating":
        found.append("side")
    return found


def known(exercise: Exercise, client: Client) -> bool:
    """Whether it may be put in for somebody who is alone, if they are."""
    return not client.alone or exercise.self_explanatory or exercise.id in client.shown
