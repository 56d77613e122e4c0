"""Words of the stop questions and of what follows from the answers. Knows no Flet.

Own wording; nothing here is a diagnosis. A pair holds a line for the person themselves and one for whoever leads them.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.dosing.screening import Outcome
from app.domain.model.thresholds import PRESSURE_ASKS, PRESSURE_STOPS, PRESSURE_STOPS_HEART
from app.words.client.today import RECORD_YES, Pair

STOPS_HEAD: Pair = ("The safety questions", "The safety questions about {name}")
STOPS_HINT = (
    "Tick everything that applies. “Recent” means that nobody treating it has yet said you can train again."
)
NEW_HEAD: Pair = ("A few new questions", "A few new questions about {name}")
NEW_HINT = (
    "We didn’t ask these before. Your other answers stay as they are. “Recent” means that nobody treating it has yet "
    "said you can train again."
)
NEW_NOTE = "There are a few new questions about your health. They take a minute, and we ask them only once."
NEW_ACT = "Answer the new questions"

#: In groups, in the order of the page.
STOP_GROUPS: tuple[tuple[str, Mapping[str, str]], ...] = (
    ("Heart, breath and blood pressure", {
        "unstable_chest_pain": "Chest pain or pressure at rest, or more often or sooner than before",
        "stable_chest_pain": "Chest pain or pressure on effort that has stayed the same for a long time",
        "uncontrolled_rhythm": "An irregular heartbeat that isn’t under control",
        "new_palpitations": "A heart that has started to race, pound or skip",
        "heart_failure":
            "Heart failure, and lately more breathless lying flat, more swelling in the legs, or weight up "
                         "within days",
        "heart_signs": "Out of breath from something as light as getting dressed, both ankles swelling, or unusual "
                       "tiredness",
        "narrow_valve": "A narrowed heart valve, with faintness, breathlessness or chest pain",
        "aneurysm": "A bulge in a large blood vessel (aneurysm)",
        "recent_heart_attack": "A recent heart attack",
        "pressure_too_high":
            f"Blood pressure at rest with an upper figure of {PRESSURE_STOPS[0]} or more, or a lower figure "
                             f"of {PRESSURE_STOPS[1]} or more (of {PRESSURE_STOPS_HEART} or more with a heart "
                             "condition)",
        "pressure_raised":
            f"Blood pressure at rest with an upper figure of {PRESSURE_ASKS[0]} to {PRESSURE_STOPS[0] - 1}, "
                           f"or a lower figure of {PRESSURE_ASKS[1]} to {PRESSURE_STOPS[1] - 1}",
        "calf_pain_walking": "A calf that hurts when walking and stops hurting when you stand still",
    }),
    ("Lately", {
        "recent_operation": "A recent operation",
        "recent_eye_operation": "A recent operation or injection in an eye",
        "recent_fracture": "A recent broken bone",
        "recent_clot": "A recent blood clot in a leg or a lung",
        "recent_stroke": "A recent stroke, or a mini-stroke that passed within a day",
        "systemic_illness": "Fever now, or feeling ill all over",
        "new_night_pain": "New pain that disturbs sleep at night",
        "new_numbness": "New numbness or tingling with no known cause",
        "medicine_changed":
            "A medicine for the heart, blood pressure or sugar started or changed in the last four weeks",
    }),
    ("Dizziness, fainting and falls", {
        "fainted": "Fainted or blacked out in the last year",
        "new_dizziness": "New dizziness with no known cause",
        "dizzy_standing": "Dizzy when standing up, and no doctor has looked into it",
        "repeated_falls": "Two or more falls in the last year, or one with an injury",
        "recent_seizure": "A seizure in the last month",
        "seizure_this_year": "A seizure in the last year, but not in the last month",
    }),
    ("Bones, eyes, feet and illnesses", {
        "bone_metastases": "A cancer that has reached a bone",
        "spine_fracture": "A broken bone in the spine, or clearly shorter than before",
        "foot_sore": "A sore or a wound on a foot",
        "eye_damage": "Advanced glaucoma, or a treated retina (the back of the eye)",
        "uncontrolled_diabetes": "Diabetes that isn’t under control: sugar often far too high or too low",
        "advised_against": "A doctor, nurse or physio has advised against training, or set limits that aren’t clear",
        "supervised_only": "A doctor, nurse or physio has said to train only with someone qualified beside you",
    }),
    ("No need to wait: we fit your sessions to these", {
        "blood_thinner": "Medicine that thins the blood",
        "sugar_lowering": "Insulin, or tablets that can make blood sugar too low",
        "beta_blocker": "Tablets that slow the heart (beta-blocker)",
        "fall_or_fear": "One fall in the last year, feeling unsteady, or worried about falling",
        "known_dizziness": "Dizzy when standing up, and a doctor knows about it",
        "numb_feet": "Numb feet, without a sore",
        "thin_bones": "Thin bones (osteoporosis)",
        "glaucoma": "Glaucoma",
        "memory": "Trouble with memory",
    }),
)
#: What is no longer asked, and may still wait for a go-ahead.
ASKED_BEFORE: Mapping[str, str] = {
    "very_high_pressure": "Blood pressure at rest of 180 or more, or with a lower figure of 100 or more",
    "high_pressure": "Blood pressure at rest of 160 to 179",
}
STOPS: Mapping[str, str] = {
    **{key: words for _, group in STOP_GROUPS for key, words in group.items()}, **ASKED_BEFORE}
NONE_OF_THESE = "None of these"
STOPS_MISSING = "Please tick what applies, or “None of these”."
OUTCOMES: Mapping[Outcome, tuple[str, str, str]] = {
    Outcome.GO: (
        "You can start",
        "Begin gently, and stop if anything new or worrying happens.",
        "We’ll ask again after four weeks without a session, or after training has been on hold.",
    ),
    Outcome.GO_WITH_SETTINGS: (
        "You can start, and we’ll fit your sessions to this",
        "Begin gently, and stop if anything new or worrying happens. It’s worth telling your doctor that you train.",
        "You can look at this under Settings. We’ll ask again after four weeks without a session, or after training "
        "has been on hold.",
    ),
    Outcome.ASK_FIRST: (
        "Ask first, then start",
        "Tell a doctor, nurse or physiotherapist what you ticked, and that you’d like to do short strength sessions at "
        "home.",
        "You can set everything up now, and start once you have recorded their go-ahead: their name and profession.",
    ),
    Outcome.DO_NOT_START: (
        "Do not start yet",
        "You ticked something to ask your doctor about before you train. It’s best to ask the one who treats you for "
        "it.",
        "You can set everything up now, and start once you have recorded their go-ahead: their name and profession.",
    ),
}
SETS_HEAD = "Your sessions allow for this"
OUTCOME_NEXT = "What comes next"
OUTCOME_ON = "Press “Next”: one more question, then you open your programme."
OUTCOME_TODAY = "Press “Back to today”: your session is there."
OUTCOME_ASK = f"Ask first. Once they agree, press “{RECORD_YES}”; you’ll find it on today’s page too."
OUTCOME_EMERGENCY = "If it is happening now"


def call_line(number: str) -> str:
    """What to do where it is happening now."""
    return f"For chest pain, faintness, a drooping face or sudden weakness now, call {number}."
