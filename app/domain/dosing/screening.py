"""The stop questions and what follows: start, start with settings, ask first, do not start. Nothing is a diagnosis.

Source: the project's list, `README.md` beside this; each defers to a clinician and to local
emergency advice.
"""
from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import date
from enum import StrEnum

from app.domain.model.client import Condition
from app.domain.model.diary import Symptom
from app.domain.model.thresholds import FOUR_WEEKS_DAYS


class Outcome(StrEnum):
    """What follows from the answers."""

    GO = "go"
    GO_WITH_SETTINGS = "go_with_settings"
    """Go; what was ticked is taken care of in the sessions."""
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
    "uncontrolled_diabetes", "very_high_pressure", "pressure_too_high", "recent_eye_operation", "recent_seizure",
    "bone_metastases",
)
#: Ask first: the session waits for a word with a clinician. Signs and what is unsettled, seldom a diagnosis: a long
#: list of diagnoses would send more than half of the people over 40 to a doctor first (WHITFIELD_2017).
ASK_FIRST: tuple[str, ...] = (
    "new_dizziness", "new_palpitations", "new_numbness", "new_night_pain", "high_pressure", "advised_against",
    "stable_chest_pain", "heart_signs", "calf_pain_walking", "pressure_raised", "fainted", "dizzy_standing",
    "repeated_falls", "seizure_this_year", "spine_fracture", "foot_sore", "eye_damage", "medicine_changed",
    "supervised_only",
)
#: No reason to wait. Each sets a condition, so that the sessions take care of it.
WITH_SETTINGS: tuple[str, ...] = (
    "blood_thinner", "sugar_lowering", "beta_blocker", "fall_or_fear", "known_dizziness", "numb_feet", "thin_bones",
    "glaucoma", "memory",
)
#: What a tick sets for the person beside its outcome. Nothing that is asked here ever takes a condition away. [P]
SETS: Mapping[str, Condition] = {
    "blood_thinner": Condition.BLOOD_THINNER, "sugar_lowering": Condition.INSULIN,
    "beta_blocker": Condition.BETA_BLOCKER, "fall_or_fear": Condition.FALLS, "repeated_falls": Condition.FALLS,
    "known_dizziness": Condition.POSTURAL_DIZZINESS, "dizzy_standing": Condition.POSTURAL_DIZZINESS,
    "numb_feet": Condition.NEUROPATHY, "foot_sore": Condition.NEUROPATHY, "thin_bones": Condition.OSTEOPOROSIS,
    "spine_fracture": Condition.SPINE_FRACTURE, "glaucoma": Condition.GLAUCOMA, "eye_damage": Condition.GLAUCOMA,
    "recent_eye_operation": Condition.GLAUCOMA, "memory": Condition.MEMORY_LOSS,
    "recent_seizure": Condition.EPILEPSY, "seizure_this_year": Condition.EPILEPSY,
}
#: Still understood where they stand in a store; other figures are asked about now, under names of their own.
NO_LONGER_ASKED = frozenset({"very_high_pressure", "high_pressure"})
#: The lists of stop questions so far. Who answered an older one is asked what it lacked, once.
LIST_NOW = 2
FIRST_LIST = frozenset({*DO_NOT_START[:13], *ASK_FIRST[:6]})
#: Asked again after so many days without a session, and after a stop.
ASK_AGAIN_DAYS = FOUR_WEEKS_DAYS


def outcome(ticked: Iterable[str] | None) -> Outcome:
    """What the ticked questions allow; unanswered is never "go"."""
    if ticked is None:
        return Outcome.ASK_FIRST
    found = set(ticked)
    if found & set(DO_NOT_START):
        return Outcome.DO_NOT_START
    if found - set(WITH_SETTINGS):
        return Outcome.ASK_FIRST
    return Outcome.GO_WITH_SETTINGS if found else Outcome.GO


def may_start(found: Outcome) -> bool:
    """Whether nobody has to be asked first."""
    return found in (Outcome.GO, Outcome.GO_WITH_SETTINGS)


def stopping(ticked: Iterable[str]) -> frozenset[str]:
    """What of it waits for a clinician's yes, also what this version does not know."""
    return frozenset(ticked) - frozenset(WITH_SETTINGS)


def settings_of(ticked: Iterable[str]) -> tuple[Condition, ...]:
    """The conditions that the ticks set, each once, in the order of the alphabet."""
    return tuple(sorted({SETS[t] for t in ticked if t in SETS}))


def questions(held: Collection[Condition] = (), asked: int = 0) -> tuple[str, ...]:
    """What is asked of somebody who holds these conditions and answered that list before; 0: none yet.

    A question that would only set what is set already is left out.
    """
    every = (*DO_NOT_START, *ASK_FIRST, *(w for w in WITH_SETTINGS if SETS[w] not in held))
    answered = FIRST_LIST if asked else frozenset()
    return () if asked >= LIST_NOW else tuple(q for q in every if q not in answered | NO_LONGER_ASKED)


def symptoms_of(signs: Iterable[str]) -> frozenset[Symptom]:
    """The symptoms that ticked signs stand for."""
    return frozenset(SIGNS[s] for s in signs if s in SIGNS)


def must_ask_again(screened: date | None, last_session: date | None, today: date) -> bool:
    """Whether the stop questions are due: never answered, or four weeks off."""
    if screened is None:
        return True
    latest = max(screened, last_session) if last_session else screened
    return (today - latest).days >= ASK_AGAIN_DAYS
