"""What a body, a day and a room forbid, copied from the written tables and not from the program.

The second opinion that substitution is held against: plain strings, no table of `app.domain`.
"""
from __future__ import annotations

from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary
from app.domain.model.exercise import Exercise
from tests.domain.shipped import TODAY

REGION = {
    "knee": "deep_knee_flexion kneeling impact floor_transfer single_leg_balance",
    "hip": "deep_hip_flexion leg_crossing loaded_twist impact single_leg_balance",
    "ankle": "ankle_load impact single_leg_balance",
    "back": "loaded_spinal_flexion spinal_rounding spinal_extension loaded_twist impact",
    "neck": "neck_load head_turning head_below_heart",
    "shoulder": "overhead_shoulder shoulder_load wrist_weight_bearing",
    "elbow": "elbow_load grip", "wrist": "wrist_weight_bearing grip", "hand": "wrist_weight_bearing grip",
    "thigh": "deep_knee_flexion deep_hip_flexion single_leg_balance impact", "calf": "ankle_load impact",
    "foot": "ankle_load impact single_leg_balance",
    "ribs": "loaded_twist spinal_rounding spinal_extension bearing_down shoulder_load",
    "balance": "single_leg_balance unheld_balance", "floor": "floor_transfer head_below_heart",
}
#: For good, written `axis cap`.
LASTING = {
    "osteoporosis": "spinal_rounding 1, loaded_spinal_flexion 2, loaded_twist 1, impact 1",
    "vertigo": "head_below_heart 0, floor_transfer 1, single_leg_balance 2, unheld_balance 0, turning_round 1",
    "pelvic_floor": "impact 1, bearing_down 1",
    "hip_replacement": "deep_hip_flexion 2, leg_crossing 1, loaded_twist 1, impact 1",
    "knee_replacement": "kneeling 1, impact 1", "falls": "single_leg_balance 2, unheld_balance 0",
    "spine_fracture": "spinal_rounding 1, loaded_spinal_flexion 1, loaded_twist 1, impact 1",
    "cannot_rise": "floor_transfer 1, single_leg_balance 2, unheld_balance 0",
    "high_blood_pressure": "head_below_heart 1", "heart_condition": "head_below_heart 1",
    "parkinsons": "single_leg_balance 2, unheld_balance 0, turning_round 1",
    "neuropathy": "single_leg_balance 2, unheld_balance 0, impact 1, ankle_load 2", "cancer_treatment": "impact 1",
    "hernia": "bearing_down 1, loaded_spinal_flexion 1",
    "walking_aid": "single_leg_balance 2, unheld_balance 0, impact 1",
    "wheelchair": "single_leg_balance 0, unheld_balance 0, floor_transfer 0, kneeling 0, impact 0, "
                  "turning_round 0, overhead_shoulder 2, shoulder_load 2, wrist_weight_bearing 1, deep_hip_flexion 1, "
                  "spinal_extension 1",
    "postural_dizziness": "single_leg_balance 2, unheld_balance 0, head_below_heart 1",
    "blood_thinner": "single_leg_balance 2, unheld_balance 0",
    "shoulder_replacement": "shoulder_load 2, overhead_shoulder 2, wrist_weight_bearing 1",
    "glaucoma": "head_below_heart 1, bearing_down 1, overhead_shoulder 2",
    "epilepsy": "single_leg_balance 2, unheld_balance 0",
    "spinal_surgery": "spinal_rounding 1, loaded_twist 1, loaded_spinal_flexion 2, impact 1, spinal_extension 2",
}
#: Until a clinician's yes.
AT_FIRST = {
    "osteoporosis": "loaded_spinal_flexion 1, loaded_twist 0", "vertigo": "head_turning 0, single_leg_balance 1",
    "hip_replacement": "loaded_twist 0, floor_transfer 1, deep_hip_flexion 1, loaded_spinal_flexion 1, "
                       "leg_crossing 0, turning_round 1, bearing_down 1, unheld_balance 0, single_leg_balance 1",
    "knee_replacement": "deep_knee_flexion 1, kneeling 0, floor_transfer 1, bearing_down 1, leg_crossing 1, "
                        "unheld_balance 0, single_leg_balance 1",
    "spine_fracture": "spinal_rounding 0, loaded_spinal_flexion 0, loaded_twist 0, floor_transfer 1, bearing_down 1, "
                      "spinal_extension 1, head_turning 0, neck_load 0, unheld_balance 0, single_leg_balance 1",
    "copd": "overhead_shoulder 1",
    "cancer_treatment": "overhead_shoulder 1, bearing_down 1, loaded_spinal_flexion 1",
    "shoulder_replacement": "shoulder_load 0, overhead_shoulder 1, wrist_weight_bearing 0, floor_transfer 1, grip 1, "
                            "elbow_load 1, unheld_balance 0, single_leg_balance 1",
    "spinal_surgery": "spinal_rounding 0, loaded_twist 0, loaded_spinal_flexion 1, floor_transfer 1, bearing_down 1, "
                      "spinal_extension 1, unheld_balance 0, single_leg_balance 1",
}
#: In the first weeks; without a day until a yes.
FRESH = {"shoulder_replacement": (6, "overhead_shoulder 0, grip 0, elbow_load 0"),
         "pacemaker": (6, "overhead_shoulder 1, shoulder_load 0, wrist_weight_bearing 0, floor_transfer 1, grip 1"),
         "spinal_surgery": (6, "bearing_down 0, loaded_spinal_flexion 0, deep_hip_flexion 1, head_turning 0, "
                               "neck_load 0, ankle_load 1, overhead_shoulder 1")}


def is_fresh(name: str, client: Client) -> bool:
    """Whether its first weeks still count."""
    terms = next((t for c, t in client.terms.items() if c.value == name), None)
    if terms is not None and terms.cleared_by and terms.cleared is not None:
        return False
    return terms is None or terms.since is None or (TODAY - terms.since).days < 7 * FRESH[name][0]


def both_arms(exercise: Exercise) -> bool:
    """Whether both arms take part at the same time."""
    limbs = trained(exercise) | leaned_on(exercise)
    arms = limbs & {"arm", "other_arm"}
    return len(arms) == 2 or (arms == {"arm"} and exercise.sides.value == "both")


def _read(words: str) -> dict[str, int]:
    return {name: int(cap) for name, cap in (pair.rsplit(" ", 1) for pair in words.split(", ") if pair)}


def of_condition(name: str, client: Client) -> dict[str, int]:
    """What one condition allows at the most, axis by axis."""
    terms = next((t for c, t in client.terms.items() if c.value == name), None)
    cleared = terms is not None and bool(terms.cleared_by) and terms.cleared is not None
    tables = [_read(LASTING.get(name, ""))]
    if not cleared:
        tables.append(_read(AT_FIRST.get(name, "")))
        weeks, fresh = FRESH.get(name, (0, ""))
        if terms is None or terms.since is None or (TODAY - terms.since).days < 7 * weeks:
            tables.append(_read(fresh))
    return {axis: min(t[axis] for t in tables if axis in t) for axis in {a for t in tables for a in t}}


#: As it stands for somebody of whom nothing more is known.
CONDITION = {name: of_condition(name, Client()) for name in {*LASTING, *AT_FIRST, *FRESH}}
#: Who rises steadily until the yes.
STEADY = ("hip_replacement", "knee_replacement", "shoulder_replacement", "spine_fracture", "spinal_surgery")
ON_FLOOR = {"kneeling", "quadruped", "supine", "prone", "side_lying"}
EVERYWHERE = {"none", "wall", "doorway"}
ARM_REGIONS, LEG_REGIONS = {"shoulder", "elbow", "wrist", "hand"}, {"hip", "thigh", "knee", "calf", "ankle", "foot"}
ARM_DEMANDS = ["wrist_weight_bearing", "overhead_shoulder", "shoulder_load", "elbow_load", "grip"]
LEG_DEMANDS = ["deep_hip_flexion", "deep_knee_flexion", "kneeling", "ankle_load"]
OF_ONE_LIMB = {*ARM_DEMANDS, *LEG_DEMANDS}
ARM_PATTERNS = {"horizontal_push", "horizontal_pull", "vertical_push", "vertical_pull", "carry"}
LEG_PATTERNS = {"squat", "hinge", "lunge_split", "gait_locomotion", "balance"}
OPPOSITE = {"left": "right", "right": "left"}


# ------------------------------------------------------------------ limbs

def trained(exercise: Exercise) -> set[str]:
    """`arm`, `leg`, `other_arm`, `other_leg` that it works; all that it may work where nothing is said."""
    if exercise.loads is not None:
        return {limb.value for limb in exercise.loads}
    demand = {axis.value: asked for axis, asked in exercise.demand.items()}
    arms = exercise.loaded or exercise.pattern.value in ARM_PATTERNS or any(demand.get(a) for a in ARM_DEMANDS)
    legs = exercise.pattern.value in LEG_PATTERNS or any(demand.get(a) for a in LEG_DEMANDS)
    return ({"arm"} if arms else set()) | ({"leg"} if legs else set())


def leaned_on(exercise: Exercise) -> set[str]:
    """The limbs that carry or hold on; whoever stands uses both legs, whoever gets down to the floor both arms too."""
    position = exercise.position.value
    legs = {"leg", "other_leg"} if position == "standing" or position in ON_FLOOR else set()
    legs |= {"arm", "other_arm"} if position in ON_FLOOR else set()
    if exercise.leans_on is not None:
        return {limb.value for limb in exercise.leans_on} | legs
    wrist = any(axis.value == "wrist_weight_bearing" and asked for axis, asked in exercise.demand.items())
    return legs | ({"arm", "other_arm"} if wrist or position in ("quadruped", "prone") else set())


def on_body(limbs: set[str], side: str) -> set[str]:
    """`left arm` and the like for a bout of that side; of both sides where it is neither left nor right."""
    found = set()
    for limb in limbs:
        kind = limb.removeprefix("other_")
        sides = ("left", "right") if side not in OPPOSITE else (OPPOSITE[side] if limb != kind else side,)
        found |= {f"{one} {kind}" for one in sides}
    return found


def part_of(exercise: Exercise, side: str) -> set[str]:
    """All limbs that take part in a bout in any way."""
    return on_body(trained(exercise) | leaned_on(exercise), side)


def rested(client: Client) -> set[str]:
    """What is to rest."""
    kinds = (client.rest_limb,) if client.rest_limb else ("arm", "leg")
    return {f"{client.rest_side} {kind}" for kind in kinds} if client.rest_side else set()


def uses_rested(exercise: Exercise, side: str, client: Client) -> bool:
    """Whether a bout uses a limb that is to rest, or trains a whole side that is."""
    whole = client.rest_side and not client.rest_limb and side in (client.rest_side, "alternating")
    return bool(whole or part_of(exercise, side) & rested(client))


def bouts_left(exercise: Exercise, client: Client) -> list[str]:
    """Its bouts that use nothing that is to rest, as sides; `` where it has none of its own."""
    if exercise.sides.value != "each":
        return [""]
    return [side for side in OPPOSITE if not uses_rested(exercise, side, client)] if client.rest_side else [""]


def works_within(actual: Exercise, written: Exercise) -> bool:
    """Whether a stand-in works no kind of limb that was to have no work."""
    return {limb.removeprefix("other_") for limb in trained(actual)} <= {
        limb.removeprefix("other_") for limb in trained(written)}


def limb_work(exercise: Exercise, side: str, length: int) -> dict[str, int]:
    """How long each limb works in a bout; half of it where the sides take turns. Doubled, to stay whole."""
    if side != "alternating":
        return dict.fromkeys(on_body(trained(exercise), side), 2 * length)
    turns = [*on_body(trained(exercise), "left"), *on_body(trained(exercise), "right")]
    return {limb: turns.count(limb) * length for limb in turns}


def _spared_across(exercise: Exercise, spot: object, side: str) -> bool:
    """Whether a sore spot lies on the like limb of the other side and the bout leaves that limb in peace."""
    region, sore = spot.region.value, spot.side  # type: ignore[attr-defined]
    kind = "arm" if region in ARM_REGIONS else "leg" if region in LEG_REGIONS else ""
    kinds = {limb.removeprefix("other_") for limb in trained(exercise)}
    return kind in kinds and sore == OPPOSITE.get(side) and f"{sore} {kind}" not in part_of(exercise, side)


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


def no_arm(client: Client) -> bool:
    """Whether an arm is to rest."""
    return bool(client.rest_side) and client.rest_limb in ("", "arm")


def fell_lately(diary: Diary | None) -> bool:
    """Within eight weeks."""
    return diary is not None and diary.fall is not None and diary.fall.days_ago <= 56


def caps(client: Client, diary: Diary | None, exercise: Exercise | None = None, side: str = "") -> dict[str, int]:
    """The highest demand allowed by axis; for one side's bout without what only spares the limb across."""
    found: dict[str, int] = {}

    def cap(axis: str, most: int) -> None:
        found[axis] = min(found.get(axis, 3), most)

    for axis, most in client.limits.items():
        cap(axis.value, most)
    def axes(spot: object) -> list[str]:
        named = REGION[spot.region.value].split()  # type: ignore[attr-defined]
        free = exercise is not None and _spared_across(exercise, spot, side)
        return [axis for axis in named if not (free and axis in OF_ONE_LIMB)]

    for spot, most in client.spare.items():
        for axis in axes(spot):
            cap(axis, most)
        if stays_up(spot, most):
            cap("floor_transfer", 1)
    for condition in client.conditions:
        for axis, most in of_condition(condition.value, client).items():
            cap(axis, most)
    for told in client.told_limits:
        cap(told.axis.value, told.at_most)
    if not client.rises_unaided:
        cap("floor_transfer", 1)
    if fell_lately(diary):
        cap("unheld_balance", 0)
        cap("single_leg_balance", 2)
    if no_arm(client):
        cap("unheld_balance", 0)
        cap("single_leg_balance", 1)
    names = {c.value for c in client.conditions}
    with_one_arm = no_arm(client) or ("shoulder_replacement" in names and is_fresh("shoulder_replacement", client))
    if "walking_aid" in names and with_one_arm:
        cap("single_leg_balance", 0)
    for spot, level in said_of(diary).items():
        most = _pain_cap(client, diary or Diary(), spot, level)
        for axis in axes(spot):
            cap(axis, most)
        if stays_up(spot, most):
            cap("floor_transfer", 1)
    return found


def said_of(diary: Diary | None) -> dict[object, int]:
    """What hurts; not said: whatever hurt in either of the last sessions still does."""
    if diary is None:
        return {}
    if diary.pain is not None:
        return dict(diary.pain)
    both = [*diary.last.pain_at.items(), *(diary.last_light.pain_at.items() if diary.last_light else ())] if (
        diary.last) else [*diary.last_light.pain_at.items()] if diary.last_light else []
    return {spot: max(level for other, level in both if other == spot) for spot, _ in both}


def stays_up(spot: object, most: int) -> bool:
    """Whether getting up from the floor would take what hurts: from 6 all but the neck, from 4 hip and back."""
    region = spot.region.value  # type: ignore[attr-defined]
    return region not in ("neck", "knee", "balance", "floor") and most <= (1 if region in ("hip", "back") else 0)


def no_yes(client: Client, *names: str) -> bool:
    """Whether one of these was ticked and no clinician's yes is recorded for it."""
    return any(c.value in names and not ((t := client.terms.get(c)) and t.cleared_by and t.cleared)
               for c in client.conditions)


def off_side(client: Client, diary: Diary | None) -> bool:
    """Whether nothing is done lying on one side: hip, shoulder or ribs hurt from 4 on or are spared."""
    lain_on = ("hip", "shoulder", "ribs")
    sore = any(s.region.value in lain_on and _pain_cap(client, diary or Diary(), s, level) <= 1  # type: ignore[attr-defined]
               for s, level in said_of(diary).items())
    return sore or any(s.region.value in lain_on and most <= 1 for s, most in client.spare.items())


def hip_front(client: Client, diary: Diary | None) -> bool:
    """Whether no thigh goes behind the body and stays there: a hip hurts from 4 on or is spared, or is new."""
    sore = any(s.region.value == "hip" and _pain_cap(client, diary or Diary(), s, level) <= 1  # type: ignore[attr-defined]
               for s, level in said_of(diary).items())
    return sore or no_yes(client, "hip_replacement") or any(
        s.region.value == "hip" and most <= 1 for s, most in client.spare.items())


def hand_left(exercise: Exercise) -> bool:
    """Whether not both arms work at the same time."""
    arms = trained(exercise) & {"arm", "other_arm"}
    return len(arms) < 2 and not (arms == {"arm"} and exercise.sides.value == "both")


def lies_on_side(exercise: Exercise) -> bool:
    """On the floor as it is called; on a bed where arm and leg across carry."""
    return exercise.position.value == "side_lying" or (
        exercise.position.value == "on_bed" and {"other_arm", "other_leg"} <= leaned_on(exercise))


def forbids(exercise: Exercise, client: Client, room: Place, diary: Diary | None, session_kit: set[str],
            side: str = "") -> list[str]:
    """Everything that speaks against an exercise, or against one side's bout of it; empty where it may be done."""
    names = {c.value for c in client.conditions}
    demand = {axis.value: asked for axis, asked in exercise.demand.items()}
    holds_on = caps(client, diary).get("unheld_balance", 3) < 3
    if holds_on and exercise.support.value == "optional" and hand_left(exercise):
        demand["unheld_balance"] = 0
    one = side if exercise.sides.value == "each" else ""
    found = [axis for axis, most in caps(client, diary, exercise, one).items() if demand.get(axis, 0) > most]
    floor = max(demand.get("floor_transfer", 0), 2 if exercise.position.value in ON_FLOOR else 0)
    if floor > caps(client, diary).get("floor_transfer", 3) and "floor_transfer" not in found:
        found.append("floor_transfer")
    own = room.kit if room.kit is not None else client.kit
    bedless = exercise.position.value == "on_bed" and not room.bed
    if bedless or set(exercise.equipment) - EVERYWHERE - (session_kit if own is None else own) - (
            {"chair"} if "wheelchair" in names else set()):
        found.append("kit")
    if not room.floor and floor > 1:
        found.append("floor")
    if not room.noise and demand.get("impact", 0) > 1:
        found.append("noise")
    if room.space.value == "small" and exercise.space.value == "large":
        found.append("space")
    if "wheelchair" in names and exercise.position.value != "seated":
        found.append("seated")
    on_it = bool({"wall", "worktop"} & set(exercise.equipment)) and not hand_left(exercise) and (
        demand.get("overhead_shoulder", 0) < 2)
    grasped = demand.get("single_leg_balance", 0) < 2 or {"worktop", "chair"} & set(exercise.equipment)
    nothing_firm = not on_it and not (grasped and (
        exercise.support.value == "required" or (exercise.support.value == "optional" and hand_left(exercise))))
    if "walking_aid" in names and exercise.position.value == "standing" and nothing_firm:
        found.append("support")
    rises = exercise.pattern.value == "squat" and (
        exercise.position.value == "seated" or (exercise.position.value == "standing" and demand.get("floor_transfer")))
    late = no_yes(client, *STEADY)
    if (late or names & {"postural_dizziness", "parkinsons", "vertigo"}) and exercise.rises_briskly:
        found.append("brisk")
    if "walking_aid" in names and rises and exercise.support.value != "required" and not (
            {"arm", "other_arm"} & leaned_on(exercise)):
        found.append("hands_free")
    if "wheelchair" in names and exercise.sits_forward:
        found.append("forward")
    if "shoulder_replacement" in names and is_fresh("shoulder_replacement", client) and both_arms(exercise):
        found.append("both_arms")
    if off_side(client, diary) and lies_on_side(exercise):
        found.append("on_side")
    if hip_front(client, diary) and (exercise.stretches_hip_front or exercise.pattern.value == "lunge_split"):
        found.append("hip_front")
    lying = exercise.position.value in ("supine", "prone", "side_lying") or (
        exercise.position.value == "on_bed" and (demand.get("floor_transfer") or demand.get("head_below_heart")))
    level = no_yes(client, *STEADY)
    if "step" in exercise.equipment and (level or "walking_aid" in names):
        found.append("step_up")
    stride = exercise.pattern.value == "lunge_split" or (
        exercise.stretches_hip_front and demand.get("deep_knee_flexion", 0) > 0)
    if stride and exercise.position.value in ("standing", "kneeling") and (level or "walking_aid" in names):
        found.append("split")
    if lying and no_yes(client, "hip_replacement"):
        found.append("lying")
    heavy = exercise.loaded or {"dumbbell", "kettlebell"} & set(exercise.equipment)
    if ("epilepsy" in names and exercise.loaded and lying) or (heavy and no_yes(client, "spine_fracture")) or (
            no_arm(client) and exercise.loaded and exercise.position.value == "standing"):
        found.append("weight")
    bouts = (side,) if side else ("left", "right") if exercise.sides.value == "each" else (exercise.sides.value,)
    if all(uses_rested(exercise, bout, client) for bout in bouts):
        found.append("side")
    return found


def known(exercise: Exercise, client: Client) -> bool:
    """Whether it may be put in for somebody who is alone, if they are."""
    return not client.alone or exercise.self_explanatory or exercise.id in client.shown
