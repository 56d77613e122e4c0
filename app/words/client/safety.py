"""What to see to before a session, for this body, this kit and these circumstances. Knows no Flet."""
from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date

from app.domain.dosing.conditions import is_acute, is_cleared, rules_of
from app.domain.model.client import Client, Condition
from app.domain.model.limbs import rests_arm, rests_leg
from app.words.client.today import Pair, said

PULSE = frozenset({Condition.BETA_BLOCKER, Condition.PACEMAKER})

SAFETY_HEAD = "Before you start"
SAFETY_ALONE: Pair = (
    "You train alone: keep your phone within reach, have a worktop or heavy chair to hold, and leave the door "
    "unbolted.",
    "{name} sometimes trains alone: keep the phone within reach, have a worktop or heavy chair to hold, and leave the "
    "door unbolted.",
)
SAFETY_NO_RISING: Pair = ("Nothing on the floor today, as nobody is there to help you up.",
                          "Nothing on the floor today, as {name} may be alone and needs help to get up.")
SAFETY_INSULIN: Pair = (
    "Insulin: check your sugar, keep something sweet near, and keep to the limits your doctor or nurse gave you.",
    "Insulin: check {name}’s sugar, keep something sweet near, and keep to the limits from {name}’s "
    "doctor or nurse.",
)
SAFETY_PULSE: Pair = (
    "Go by your breathing and whether you can talk, never by your pulse.",
    "Go by {name}’s breathing and whether {name} can talk, never by the pulse.",
)
SAFETY_ARM = "Never push or lean on the arm that was operated on, not even to get up from a chair or the bed."
SAFETY_LEADS: Pair = (
    "New pacemaker: keep that elbow below the shoulder, and never push, pull or lift with that arm.",
    "New pacemaker: {name}’s elbow on that side stays below the shoulder; that arm never pushes, pulls or lifts.",
)
SAFETY_HIP = "New hip: sit on a high, firm seat, never cross the legs, and never twist on that leg."
SAFETY_BRAKES = "Put the brakes on, and sit well back. Swing the footplates away when the feet work on the floor."
SAFETY_INHALER: Pair = ("Keep your inhaler within reach.", "Keep {name}’s inhaler within reach.")
SAFETY_TABLETS: Pair = ("Train while your Parkinson’s tablets are working.",
                        "Train while {name}’s Parkinson’s tablets are working.")
SAFETY_SOLES: Pair = (
    "Keep your shoes on, and look at your soles afterwards. Stay seated while there is an open sore.",
    "Shoes on, and look at {name}’s soles afterwards. Sitting only while there is an open sore.")
SAFETY_KNOCK = "Blood thinner: after a knock on the head get help at once, even if all seems well."
SAFETY_THIN_BONES = (
    "Thin bones: keep the back long, never round or twist it with force, and stop for a sudden pain in the back.")
SAFETY_BROKEN_SPINE = (
    "Broken bone in the spine: keep the back long, lift nothing, and stop for any new or stronger pain in the back.")
SAFETY_SPINE = "Back operation: turn with the feet and not the back, and lift nothing. Stop for pain into a leg."
SAFETY_HEART: Pair = (
    "Heart: have the spray or tablets you were given for it within reach.",
    "Heart: have the spray or tablets {name} was given for it within reach.")
SAFETY_SEIZURE: Pair = (
    "Epilepsy: keep away from sharp edges, and tell someone when you start.",
    "Epilepsy: keep {name} away from sharp edges, and never leave the room.")
SAFETY_TOGETHER: Pair = ("Train together with the person who helps you.", "Stay beside {name} from start to finish.")
SAFETY_FALLS = "Hold on to something that can’t tip for every balance exercise."
SAFETY_LEAD = (
    "Before you begin, set up the chair and know the warning signs; in the session they are one press away, under "
    "“Stop signs”."
)
SAFETY_ALWAYS = "Stop at once for chest pressure, faintness, sharp pain, or breathlessness that a rest doesn’t settle."

CHAIR = "The chair is against the wall and can’t slide."
SHOES = "Shoes that grip, with the laces tied. No socks on a smooth floor."
CLEAR = "The floor is clear of rugs, cables and pets."
WATER = "A glass of water is near."
PHONE = "The phone is within reach, even from the floor."
SUPPORT: Pair = ("A worktop or a heavy chair is beside you to hold on to.",
                 "A worktop or a heavy chair is beside {name} to hold on to.")
BREATHE: Pair = ("Breathe out on the effort. Never hold your breath.",
                 "Remind {name} to breathe out on the effort, and never to hold the breath.")


#: What the tick of a condition promises to say before each session.
BESIDE_THE_TICK: Mapping[Condition, str | Pair] = {
    Condition.WHEELCHAIR: SAFETY_BRAKES, Condition.COPD: SAFETY_INHALER, Condition.PARKINSONS: SAFETY_TABLETS,
    Condition.OSTEOPOROSIS: SAFETY_THIN_BONES, Condition.HEART_CONDITION: SAFETY_HEART,
    Condition.EPILEPSY: SAFETY_SEIZURE,
    Condition.NEUROPATHY: SAFETY_SOLES, Condition.BLOOD_THINNER: SAFETY_KNOCK,
    Condition.MEMORY_LOSS: SAFETY_TOGETHER,
}


def rest_arm(side: str) -> Pair:
    """Of an arm that rests: what it would be used for without thinking."""
    return (f"Your {side} arm rests: never push, lean or pull with it, not even to get up.",
            f"{{name}}’s {side} arm rests: it must not push, lean or pull, not even to get up.")


def rest_leg(side: str) -> Pair:
    """Of a leg that rests, the same."""
    return (f"Your {side} leg rests: never stand or push on it, not even to get up.",
            f"{{name}}’s {side} leg rests: it must not stand or push, not even to get up.")


def safety_lines(body: Client, *, led: bool, asked: str = "", holds_on: bool = False, today: date | None = None
                 ) -> list[str]:
    """What may do harm, for this body and these circumstances; the last line is for everybody.

    `holds_on`: whether today, for whatever reason, balance is held. `today` None: first weeks are taken to count still.
    """
    lines: list[tuple[bool, str | Pair]] = [
        (led, SAFETY_LEAD),
        (body.alone and Condition.MEMORY_LOSS not in body.conditions, SAFETY_ALONE),
        (body.alone and not body.rises_unaided, SAFETY_NO_RISING),
        (Condition.INSULIN in body.conditions, SAFETY_INSULIN), (bool(PULSE & body.conditions), SAFETY_PULSE),
        (_waits(body, Condition.SHOULDER_REPLACEMENT), SAFETY_ARM),
        (_has_new_leads(body, today), SAFETY_LEADS),
        (rests_arm(body), rest_arm(body.rest_side)), (rests_leg(body), rest_leg(body.rest_side)),
        (_waits(body, Condition.HIP_REPLACEMENT), SAFETY_HIP),
        (_waits(body, Condition.SPINAL_SURGERY), SAFETY_SPINE),
        (_waits(body, Condition.SPINE_FRACTURE), SAFETY_BROKEN_SPINE),
        *((condition in body.conditions, line) for condition, line in BESIDE_THE_TICK.items()),
        (holds_on or _holds_on(body), SAFETY_FALLS), (True, SAFETY_ALWAYS)]
    return [_to(line, asked) for applies, line in lines if applies]


def look_lines(body: Client, kit: Collection[str], asked: str = "", *, holds_on: bool = False) -> list[str]:
    """What to look at in the room before the first move."""
    lines: list[tuple[bool, str | Pair]] = [
        ("chair" in kit, CHAIR), (True, SHOES), (True, CLEAR), (True, WATER), (not body.alone, PHONE),
        (holds_on or _holds_on(body), SUPPORT), (True, BREATHE)]
    return [_to(line, asked) for applies, line in lines if applies]


def _waits(body: Client, condition: Condition) -> bool:
    return condition in body.conditions and not is_cleared(body, condition)


def _has_new_leads(body: Client, today: date | None) -> bool:
    return _waits(body, Condition.PACEMAKER) and (today is None or is_acute(body, Condition.PACEMAKER, today))


def _holds_on(body: Client) -> bool:
    return rests_arm(body) or any(rule.is_held for rule in rules_of(body))


def _to(line: str | Pair, asked: str) -> str:
    return line if isinstance(line, str) else said(line, asked)
