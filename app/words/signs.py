"""The stop signs in plain words, and what to do about each. Knows no Flet.

Own wording. Nothing here is a diagnosis: it defers to local emergency advice and to a clinician.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.dosing.screening import SIGNS
from app.domain.model.diary import Symptom

SIGN_WORDS: Mapping[str, str] = {
    "chest_pressure": "Pressure, tightness or pain in the chest, jaw or arm",
    "fainting": "Fainting, or nearly fainting",
    "breathless": "Too breathless to speak, or still short of breath after a rest",
    "weakness_face_speech": "Sudden weakness, a drooping face or slurred speech",
    "confusion": "Suddenly confused",
    "severe_headache": "A sudden, very bad headache",
    "cold_sweat": "Cold sweat and feeling sick",
    "numb_saddle": "Numb between the legs, or new loss of bladder or bowel control",
    "defibrillator": "A shock from an implanted defibrillator",
    "low_sugar": "Low blood sugar that stays low",
    "fall_head": "A fall with a knock on the head, or unable to get up",
    "calf_swelling": "A swollen, tender calf",
    "hot_joint": "A hot, swollen joint",
    "dark_urine": "Very dark urine",
    "dizziness": "New dizziness or light-headedness",
    "palpitations": "A racing, pounding or skipping heart",
    "numbness": "New numbness or tingling",
    "night_pain": "New pain that disturbs sleep at night",
    "weight_loss": "Losing weight without meaning to",
    "other_worry": "Something else that is new and worries you",
    "fever": "Fever",
    "head_cold": "A head cold",
}

CALL_NOW = "Call for help now"
STOP_TODAY = "Stop for today and ask a doctor"
#: Signs by what they ask for, in the order of the list; a head cold stops nobody.
EMERGENCIES = tuple(sign for sign, symptom in SIGNS.items() if symptom is Symptom.EMERGENCY)
ASK_TODAY = tuple(sign for sign, symptom in SIGNS.items() if symptom in (Symptom.STOP_AND_ASK, Symptom.FEVER))


def sign_words(sign: str) -> str:
    """A sign in words; one that is not known here stays as it came."""
    return SIGN_WORDS.get(sign, sign.replace("_", " "))


def sign_is_emergency(sign: str) -> bool:
    """Whether help is called at once; for a sign that is not known here too."""
    return SIGNS.get(sign, Symptom.EMERGENCY) is Symptom.EMERGENCY


def what_to_do(sign: str, number: str, asked: str = "") -> tuple[str, ...]:
    """What to do about a sign, line by line; `asked` names whom somebody leads, who then reads it."""
    if sign_is_emergency(sign):
        sit = f"Help {asked} sit or lie down, and stay with them." if asked else \
            "Sit or lie down where you are safe. Don’t drive yourself."
        return (
            f"Call {number} now, or ask someone to.", sit,
            "Unlock the door if you can do so safely, and stay on the line.",
            "What they tell you comes before anything written here.",
        )
    if sign == "fever":
        return ("Don’t train with a fever, or for two days after it has gone.",
                f"Ask a doctor if it is high or lasts, or if {asked + ' feels' if asked else 'you feel'} very unwell.")
    if asked:
        return (f"Help {asked} sit down and rest. Ask a doctor or a nurse line today, before {asked} trains again.",
                f"If it gets worse or another sign comes, call {number}.")
    return ("Sit down and rest. Ask your doctor or a nurse line today, before you train again.",
            f"If it gets worse or another sign comes, call {number}.")
