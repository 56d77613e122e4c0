"""Words of the stop questions and of what follows from the answers. Knows no Flet.

Own wording; nothing here is a diagnosis. A pair holds a line for the person themselves and one for whoever leads them.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.dosing.screening import Outcome
from app.domain.model.thresholds import PRESSURE_ASKS, PRESSURE_STOPS, PRESSURE_STOPS_HEART
from app.words.client.today import Pair

STOPS_HEAD: Pair = ("The stop questions", "The stop questions about {name}")
STOPS_HINT = "Tick whatever is true. “Recent” means: nobody who treats it has said that training is all right again."
NEW_HEAD: Pair = ("A few new questions", "A few new questions about {name}")
NEW_HINT = (
    "These were not asked before. What you answered last time still holds. “Recent” means: nobody who treats it has "
    "said that training is all right again."
)
NEW_NOTE = "There are a few new questions about your health. They take a minute, and are asked once."
NEW_ACT = "Answer the new questions"

#: In groups, in the order of the page.
STOP_GROUPS: tuple[tuple[str, Mapping[str, str]], ...] = (
    ("Heart, breath and blood pressure", {
        "unstable_chest_pain": "Chest pain or pressure at rest, or more often or sooner than before",
        "stable_chest_pain": "Chest pain or pressure on effort that has stayed the same for a long time",
        "uncontrolled_rhythm": "A heart out of rhythm that is not under control",
        "new_palpitations": "A heart that newly races, pounds or skips",
        "heart_failure": "Heart failure that is getting worse: breathless lying flat, legs swelling, weight up within "
                         "days",
        "heart_signs": "Out of breath from something as light as dressing, both ankles swelling, or unusually tired",
        "narrow_valve": "A narrow heart valve with faintness, breathlessness or chest pain",
        "aneurysm": "A bulge in a large blood vessel (aneurysm)",
        "recent_heart_attack": "A recent heart attack",
        "pressure_too_high": f"Blood pressure at rest of {PRESSURE_STOPS[0]} or more, or with a lower figure of "
                             f"{PRESSURE_STOPS[1]} or more; with a heart condition, of {PRESSURE_STOPS_HEART} or more",
        "pressure_raised": f"Blood pressure at rest of {PRESSURE_ASKS[0]} to {PRESSURE_STOPS[0] - 1}, or with a lower "
                           f"figure of {PRESSURE_ASKS[1]} to {PRESSURE_STOPS[1] - 1}",
        "calf_pain_walking": "A calf that hurts on walking and stops when you stand still",
    }),
    ("Lately", {
        "recent_operation": "A recent operation",
        "recent_eye_operation": "A recent operation or injection in an eye",
        "recent_fracture": "A recent broken bone",
        "recent_clot": "A recent blood clot in a leg or a lung",
        "recent_stroke": "A recent stroke, or one that passed within a day",
        "systemic_illness": "Fever now, or feeling ill all over",
        "new_night_pain": "New pain that wakes at night",
        "new_numbness": "New numbness or tingling that nobody has explained",
        "medicine_changed": "A medicine for heart, blood pressure or sugar that was started or changed in the last "
                            "four weeks",
    }),
    ("Dizziness, fainting and falls", {
        "fainted": "Fainted or blacked out in the last year",
        "new_dizziness": "New dizziness that nobody has explained",
        "dizzy_standing": "Dizzy when standing up, and no doctor has looked into it",
        "repeated_falls": "Two or more falls in the last year, or one with an injury",
        "recent_seizure": "A seizure in the last month",
        "seizure_this_year": "A seizure in the last year, but not in the last month",
    }),
    ("Bones, eyes, feet and illnesses", {
        "bone_metastases": "A cancer that has reached a bone",
        "spine_fracture": "A broken bone in the spine, or grown clearly shorter",
        "foot_sore": "A sore or a wound on a foot",
        "eye_damage": "Advanced glaucoma, or a treated retina (the back of the eye)",
        "uncontrolled_diabetes": "Diabetes that is not under control: sugar often far too high or too low",
        "advised_against": "A clinician has advised against training, or set limits that are not clear",
        "supervised_only": "A clinician has said: train only with somebody qualified beside you",
    }),
    ("No reason to wait: these only set your sessions", {
        "blood_thinner": "Tablets or injections that thin the blood",
        "sugar_lowering": "Insulin, or tablets that can bring sugar too low",
        "beta_blocker": "Tablets that slow the heart (beta-blocker)",
        "fall_or_fear": "One fall in the last year, unsteady, or worried about falling",
        "known_dizziness": "Dizzy when standing up, and a doctor knows of it",
        "numb_feet": "Numb feet, without a sore",
        "thin_bones": "Thin bones (osteoporosis)",
        "glaucoma": "Glaucoma",
        "memory": "Trouble with memory",
    }),
)
#: What is no longer asked, and may still wait for a yes.
ASKED_BEFORE: Mapping[str, str] = {
    "very_high_pressure": "Blood pressure at rest of 180 or more, or with a lower figure of 100 or more",
    "high_pressure": "Blood pressure at rest of 160 to 179",
}
STOPS: Mapping[str, str] = {
    **{key: words for _, group in STOP_GROUPS for key, words in group.items()}, **ASKED_BEFORE}
NONE_OF_THESE = "None of these"
STOPS_MISSING = "Tick what is true, or “None of these”."
OUTCOMES: Mapping[Outcome, tuple[str, str, str]] = {
    Outcome.GO: (
        "Nothing speaks against a start",
        "That is not a promise. Begin gently, and stop at any sign that is new.",
        "The questions come again after four weeks without a session, and after a stop.",
    ),
    Outcome.GO_WITH_SETTINGS: (
        "You can start, with these settings",
        "Begin gently, and stop at any sign that is new. It is worth telling your doctor that you train.",
        "The settings are yours to look at under Settings. The questions come again after four weeks without a "
        "session, and after a stop.",
    ),
    Outcome.ASK_FIRST: (
        "Ask first, then start",
        "Tell a doctor, nurse or physiotherapist what you ticked, and that you mean to do short strength sessions at "
        "home.",
        "Set everything up now. Start stays locked until you record their yes: who said it, and what they are.",
    ),
    Outcome.DO_NOT_START: (
        "Do not start yet",
        "With what you ticked, a doctor should be asked before you train. Ask the one who treats it.",
        "Set everything up if you like. Start stays locked until you record their yes: who said it, and what they are.",
    ),
}
SETS_HEAD = "Your sessions take care of this"
OUTCOME_NEXT = "What comes next"
OUTCOME_ON = "Press “Next”: one more question, then you open your programme."
OUTCOME_TODAY = "Press “Back to today”: your session waits there."
OUTCOME_ASK = "Ask first. With their go-ahead, press “Record a yes”; today’s page has it too."
OUTCOME_EMERGENCY = "If it is happening now"


def call_line(number: str) -> str:
    """What to do where it is happening now."""
    return f"Chest pain, faintness, a drooping face or sudden weakness now: call {number}."
