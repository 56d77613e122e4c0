"""The stop questions: three outcomes, own wording in `app/words/text.py`. Nothing here is a diagnosis.

Source: the project's list, `README.md` beside this; each defers to a clinician and to local
emergency advice.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from enum import StrEnum

from app.domain.model.diary import Symptom
from app.domain.model.thresholds import FOUR_WEEKS_DAYS


class Outcome(StrEnum):
    """What follows from the answers."""

    GO = "go"
    ASK_FIRST = "ask_first"
    DO_NOT_START = "do_not_start"


#: Signs asked about before each session and one tap away in it, with the level they stand for.
SIGNS: Mapping[str, Symptom] = {
    "chest_pressure": Symptom.EMERGENCY,
    "fainting": Symptom.EMERGENCY,
    "breathless": Symptom.EMERGENCY,
    "weakness_face_speech": Symptom.EMERGENCY,
    "confusion": Symptom.EMERGENCY,
    "severe_headache": Symptom.EMERGENCY,
    "cold_sweat": Symptom.EMERGENCY,
    "numb_saddle": Symptom.EMERGENCY,
    "defibrillator": Symptom.EMERGENCY,
    "low_sugar": Symptom.EMERGENCY,
    "fall_head": Symptom.EMERGENCY,
    "calf_swelling": Symptom.STOP_AND_ASK,
    "hot_joint": Symptom.STOP_AND_ASK,
    "dark_urine": Symptom.STOP_AND_ASK,
    "dizziness": Symptom.STOP_AND_ASK,
    "palpitations": Symptom.STOP_AND_ASK,
    "numbness": Symptom.STOP_AND_ASK,
    "night_pain": Symptom.STOP_AND_ASK,
    "weight_loss": Symptom.STOP_AND_ASK,
    "other_worry": Symptom.STOP_AND_ASK,
    "fever": Symptom.FEVER,
    "head_cold": Symptom.HEAD_COLD,
}

#: Not without a clinician's yes.
DO_NOT_START: tuple[str, ...] = (
    "unstable_chest_pain", "uncontrolled_rhythm", "heart_failure", "narrow_valve", "aneurysm", "recent_clot",
    "recent_stroke", "recent_heart_attack", "recent_operation", "recent_fracture", "systemic_illness",
    "uncontrolled_diabetes", "very_high_pressure",
)
#: Ask first: the session waits for a word with a clinician.
ASK_FIRST: tuple[str, ...] = ("new_dizziness", "new_palpitations", "new_numbness", "new_night_pain", "high_pressure",
                              "advised_against")
#: Asked again after so many days without a session, and after a stop.
ASK_AGAIN_DAYS = FOUR_WEEKS_DAYS


def outcome(ticked: Iterable[str] | None) -> Outcome:
    """What the ticked questions allow; unanswered is never "go"."""
    if ticked is None:
        return Outcome.ASK_FIRST
    found = set(ticked)
    if found & set(DO_NOT_START):
        return Outcome.DO_NOT_START
    return Outcome.ASK_FIRST if found else Outcome.GO


def symptoms_of(signs: Iterable[str]) -> frozenset[Symptom]:
    """The symptoms that ticked signs stand for."""
    return frozenset(SIGNS[s] for s in signs if s in SIGNS)


def must_ask_again(screened: date | None, last_session: date | None, today: date) -> bool:
    """Whether the stop questions are due: never answered, or four weeks off."""
    if screened is None:
        return True
    latest = max(screened, last_session) if last_session else screened
    return (today - latest).days >= ASK_AGAIN_DAYS
