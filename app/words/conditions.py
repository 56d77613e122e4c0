"""What is said of conditions: to the client, to the coach, and as the reason of a change. Knows no Flet.

Own wording; nothing here is a diagnosis.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.model.client import Condition

#: Ticked at welcome, in groups: each with its plain name and what follows from it.
GROUPS: tuple[tuple[str, Mapping[Condition, tuple[str, str]]], ...] = (
    ("Walking and balance", {
        Condition.FALLS: ("A fall in the last year, or unsteady on the feet",
                          "Balance exercises only while holding on, also when they get harder."),
        Condition.WALKING_AID: ("A stick, a frame or another walking aid",
                                "Standing and getting up only while holding on. Walking with the aid, more sitting."),
        Condition.WHEELCHAIR: ("A wheelchair",
                               "Everything sitting down, well back in the seat. Brakes on, feet supported."),
        Condition.POSTURAL_DIZZINESS: ("Dizzy when standing up", "Getting up slowly, and holding on once you stand."),
        Condition.VERTIGO: ("Spinning when the head moves (vertigo)",
                            "No lying flat, head turns or turning round. Getting up slowly; balance while holding on."),
        Condition.NEUROPATHY: ("Numb feet",
                               "Shoes on, nothing jarring, balance while holding on. Check your soles afterwards."),
        Condition.PARKINSONS: ("Parkinson’s",
                               "Small steps to turn, balance while holding on. Train when your tablets are working."),
    }),
    ("Bones, joints and operations", {
        Condition.OSTEOPOROSIS: ("Thin bones (osteoporosis)",
                                 "No rounding the back, no twisting, nothing jarring."),
        Condition.SPINE_FRACTURE: ("A broken bone in the spine",
                                   "At first no bending, twisting or lifting, and nothing on the floor. Your doctor’s "
                                   "or physio’s limits come first."),
        Condition.HIP_REPLACEMENT: ("A new hip",
                                    "No crossing the legs, no deep bends; at first no low chairs. The surgeon’s limits "
                                    "come first."),
        Condition.KNEE_REPLACEMENT: ("A new knee",
                                     "Little kneeling, nothing jarring; the surgeon’s limits come first."),
        Condition.SHOULDER_REPLACEMENT: ("A new shoulder",
                                         "Arms low and light, no leaning on them, at first not on the floor. While it "
                                         "is in a sling, tick that side as resting too. The surgeon’s limits come "
                                         "first."),
        Condition.SPINAL_SURGERY: ("An operation on the back",
                                   "No rounding or twisting; in the first weeks only walking and loosening. The "
                                   "surgeon’s limits come first."),
        Condition.ONE_SIDE: ("One side that should rest", "Such as in plaster, or after a stroke. That side rests."),
    }),
    ("Heart, breath and blood", {
        Condition.HIGH_BLOOD_PRESSURE: ("High blood pressure", "Hard holds kept short; keep breathing."),
        Condition.HEART_CONDITION: ("A heart condition", "Hard holds kept short, longer rests, moderate effort."),
        Condition.BETA_BLOCKER: ("Tablets that slow the heart (beta-blocker)",
                                                               "Go by breathing, never by the pulse."),
        Condition.PACEMAKER: ("A pacemaker or implanted defibrillator",
                              "Go by breathing, never by the pulse. If it is new, that arm stays low."),
        Condition.COPD: ("Short of breath with a lung disease (such as COPD)",
                         "Longer rests, moderate effort; the inhaler stays near."),
        Condition.BLOOD_THINNER: ("Medicine that thins the blood",
                                  "Balance while holding on. After a knock on the head get help, even if you feel "
                                  "well."),
    }),
    ("Other", {
        Condition.PELVIC_FLOOR: ("Leaking, or a heavy feeling in the pelvis",
                                 "No hops, heavy lifts or hard bracing. Walking is fine."),
        Condition.HERNIA: ("A hernia, or one that was repaired",
                           "No straining or heavy lifts; breathe out on the effort."),
        Condition.INSULIN: ("Insulin, or tablets that can make blood sugar too low",
                            "A reminder before each session to check the sugar and have something sweet near."),
        Condition.CANCER_TREATMENT: ("Cancer treatment at the moment",
                                     "Longer rests, moderate effort; no session with a fever."),
        Condition.GLAUCOMA: ("Glaucoma, or an operation or treatment at the back of the eye",
                             "The head never goes low, no straining, hard holds kept short."),
        Condition.EPILEPSY: ("Epilepsy, with a seizure in the last year",
                             "Balance while holding on; no weight above the face when lying down."),
        Condition.MEMORY_LOSS: ("Trouble with memory", "The same session each time, with a helper."),
    }),
)
CLIENT_WORDS: Mapping[Condition, tuple[str, str]] = {
    condition: said for _, group in GROUPS for condition, said in group.items()
}
COACH_WORDS: Mapping[Condition, str] = {
    Condition.OSTEOPOROSIS: "osteoporosis", Condition.VERTIGO: "vertigo",
    Condition.PELVIC_FLOOR: "pelvic floor symptoms", Condition.HIP_REPLACEMENT: "a hip replacement",
    Condition.KNEE_REPLACEMENT: "a knee replacement", Condition.FALLS: "a fall in the last year, or unsteady",
    Condition.CANNOT_RISE: "cannot get up from the floor alone",
    Condition.HIGH_BLOOD_PRESSURE: "high blood pressure", Condition.HEART_CONDITION: "a heart condition",
    Condition.BETA_BLOCKER: "takes a beta-blocker", Condition.PACEMAKER: "has a pacemaker",
    Condition.INSULIN: "takes insulin", Condition.ONE_SIDE: "one side resting",
    Condition.COPD: "COPD or another lung disease", Condition.PARKINSONS: "Parkinson’s",
    Condition.NEUROPATHY: "numb feet", Condition.CANCER_TREATMENT: "in treatment for cancer",
    Condition.HERNIA: "a hernia", Condition.MEMORY_LOSS: "memory loss", Condition.WALKING_AID: "uses a walking aid",
    Condition.WHEELCHAIR: "uses a wheelchair", Condition.POSTURAL_DIZZINESS: "dizzy on standing",
    Condition.BLOOD_THINNER: "takes a blood thinner", Condition.SHOULDER_REPLACEMENT: "a shoulder replacement",
    Condition.SPINAL_SURGERY: "spinal surgery", Condition.GLAUCOMA: "glaucoma, or an eye that was treated",
    Condition.EPILEPSY: "epilepsy, with a seizure in the last year",
    Condition.SPINE_FRACTURE: "a fracture of the spine",
}
#: What a coach is told beside the caps.
COACH_SAID: Mapping[Condition, tuple[str, ...]] = {
    Condition.FALLS: ("balance may get harder, always holding on",),
    Condition.BETA_BLOCKER: ("effort judged by talking, never by pulse",),
    Condition.PACEMAKER: ("effort judged by talking, never by pulse",),
    Condition.INSULIN: ("a reminder before each session",),
    Condition.ONE_SIDE: ("one-sided work, with its reason recorded",),
    Condition.OSTEOPOROSIS: ("ask whether a spine fracture is known",),
    Condition.NEUROPATHY: ("shoes on; soles checked afterwards; no standing work with an open sore",),
    Condition.PARKINSONS: ("trains when the tablets are working",),
    Condition.CANCER_TREATMENT: ("blood counts and fever are the clinic’s limits",),
    Condition.BLOOD_THINNER: ("a knock on the head needs emergency care",),
    Condition.WALKING_AID: (
        "stands, and stands up, only while holding on; no step up, and no knee bend with a foot ahead",),
    Condition.COPD: ("effort judged by breathing",),
    Condition.SPINAL_SURGERY: ("walking and loosening only for the first six weeks",),
    Condition.SPINE_FRACTURE: ("new or worse pain in the back is looked at before any training",),
    Condition.HIP_REPLACEMENT: ("the surgeon’s limits come first; some are for life",),
}
BECAUSE: Mapping[Condition, str] = {
    Condition.HIGH_BLOOD_PRESSURE: "your blood pressure", Condition.HEART_CONDITION: "your heart",
    Condition.COPD: "your breathing", Condition.GLAUCOMA: "your eyes", Condition.CANCER_TREATMENT: "your treatment",
}


def condition_change(condition: str, what: str, value: int, asked: str = "") -> str:
    """What a condition changed in a session beside its choice of exercises."""
    why = BECAUSE.get(Condition(condition), "what you ticked") if condition else "a limit of your own"
    if asked:
        why = why.replace("your ", f"{asked}’s ").replace("what you ticked", f"what was ticked for {asked}")
    if what == "hold":
        return f"Hard holds are split into {value} seconds at most because of {why}. Stretches stay as they are."
    if what == "hand":
        return "Hold on to something firm in every balance exercise, even where you are told that you may let go."
    if what == "rest":
        return f"Rests are longer because of {why}: at least {value}% of the plan."
    return f"Aim for an effort of {value} out of 10 at most today, because of {why}."


DATES = "When it began, and the go-ahead for more"
DATES_HINT = (
    "After an operation, and with some conditions, limits are stricter at first. They stay until a doctor, nurse or "
    "physio says they can be lifted. We’ll remind you to ask. After the first weeks the calendar alone changes nothing."
)
DATES_NONE = "Nothing you ticked has limits that can be lifted."
DATES_SHORT = "Stricter at first, until you have a go-ahead"
BEGAN = "How long ago?"
BEGAN_WEEKS: Mapping[int, str] = {0: "This week", 3: "3 weeks", 6: "6 weeks", 9: "9 weeks", 12: "12 weeks or more"}
FIRST_HOLD = "The stricter limits apply now."
UNDATED_HOLD = "Until you answer, the limits of the first weeks apply."
YES_WHO = "Who gave the go-ahead, and their profession"
YES_RECORD, YES_BACK = "Record this go-ahead", "Remove this go-ahead"
YES_LACKS = "Please write who it was and their profession, such as: Ms Field, physiotherapist."


def condition_name(condition: Condition) -> str:
    """As it is ticked."""
    return CLIENT_WORDS[condition][0] if condition in CLIENT_WORDS else COACH_WORDS[condition]


def since_line(day: str) -> str:
    """When it began."""
    return f"Since {day}."


def yes_line(who: str, day: str) -> str:
    """A yes that was recorded."""
    return f"{who} said on {day} that the stricter limits can be lifted."


def ask_again(condition: Condition) -> str:
    """The limits of a condition are due to be asked about."""
    return (f"{condition_name(condition)}: it’s time to ask the person who treats you whether these limits still "
            "apply. Enter the answer under Settings; until then they stay.")
