"""What is said of conditions: to the client, to the coach, and as the reason of a change. Knows no Flet.

Own wording; nothing here is a diagnosis.
"""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.model.client import Condition

#: Ticked at welcome, in groups: each with its plain name and what follows from it.
GROUPS: tuple[tuple[str, Mapping[Condition, tuple[str, str]]], ...] = (
    ("On the feet", {
        Condition.FALLS: ("A fall in the last year, or unsteady on the feet",
                          "Balance with a hand on something; it gets harder only that way."),
        Condition.WALKING_AID: ("A stick, a frame or another walking aid",
                                "Standing only with something to hold, and more done sitting."),
        Condition.WHEELCHAIR: ("A wheelchair", "Everything sitting. Brakes on, feet supported."),
        Condition.POSTURAL_DIZZINESS: ("Dizzy when standing up", "Slow rises; a hand on something once you stand."),
        Condition.VERTIGO: ("Spinning when the head moves (vertigo)",
                            "No lying flat, no head turns, no turning round; balance held."),
        Condition.NEUROPATHY: ("Numb feet", "Shoes on, nothing that jars, balance held. Look at your soles after."),
        Condition.PARKINSONS: ("Parkinson’s", "Turns in small steps, balance held; train when your tablets work well."),
    }),
    ("Bones, joints and operations", {
        Condition.OSTEOPOROSIS: ("Thin bones (osteoporosis)",
                                 "No rounding of the back, no twisting, nothing that jars."),
        Condition.HIP_REPLACEMENT: ("A new hip", "No crossed legs, no deep bend; the surgeon’s limits come first."),
        Condition.KNEE_REPLACEMENT: ("A new knee", "Little kneeling, nothing that jars; the surgeon’s limits first."),
        Condition.SHOULDER_REPLACEMENT: ("A new shoulder",
                                         "Arms low and light, no leaning on them; the surgeon’s limits come first."),
        Condition.SPINAL_SURGERY: ("An operation on the back", "No rounding, no twisting; the surgeon’s limits first."),
        Condition.ONE_SIDE: ("One side is not to be trained", "A plaster, after a stroke: that side rests."),
    }),
    ("Heart, breath and blood", {
        Condition.HIGH_BLOOD_PRESSURE: ("High blood pressure", "Hard holds kept short, breathing throughout."),
        Condition.HEART_CONDITION: ("A heart condition", "Hard holds kept short, longer rests, moderate effort."),
        Condition.BETA_BLOCKER: ("Tablets that slow the heart (beta-blocker)", "Go by the breath, never by the pulse."),
        Condition.PACEMAKER: ("A pacemaker or implanted defibrillator",
                              "Go by the breath, never by the pulse. Just fitted: that arm stays low."),
        Condition.COPD: ("Short of breath with a lung disease (such as COPD)",
                         "Longer rests, moderate effort; inhaler at hand."),
        Condition.BLOOD_THINNER: ("Tablets that thin the blood",
                                  "Balance held. After a knock on the head get help, even if you feel well."),
    }),
    ("Other", {
        Condition.PELVIC_FLOOR: ("Leaking, or a heavy feeling in the pelvis",
                                 "No hops, no heavy lifts, no hard bracing. Walking stays."),
        Condition.HERNIA: ("A hernia, or one that was mended", "No straining, no heavy lifts; breathe out on effort."),
        Condition.INSULIN: ("Insulin, or tablets that can bring sugar too low",
                            "A reminder before each session: sugar checked, something sweet near."),
        Condition.CANCER_TREATMENT: ("Treatment for cancer now", "Longer rests, moderate effort; none with a fever."),
        Condition.GLAUCOMA: ("Glaucoma, or an eye that was operated on or treated at the back",
                             "The head is never low, no straining, hard holds kept short."),
        Condition.EPILEPSY: ("Epilepsy, with a seizure in the last year",
                             "Balance held; no weight above the face when lying down."),
        Condition.MEMORY_LOSS: ("Trouble with memory", "The same session each time; somebody who leads."),
    }),
)
CLIENT_WORDS: Mapping[Condition, tuple[str, str]] = {
    condition: said for _, group in GROUPS for condition, said in group.items()
}
COACH_WORDS: Mapping[Condition, str] = {
    Condition.OSTEOPOROSIS: "osteoporosis", Condition.VERTIGO: "vertigo",
    Condition.PELVIC_FLOOR: "pelvic floor signs", Condition.HIP_REPLACEMENT: "a hip replacement",
    Condition.KNEE_REPLACEMENT: "a knee replacement", Condition.FALLS: "a fall in the last year, or unsteady",
    Condition.CANNOT_RISE: "cannot get up from the floor alone",
    Condition.HIGH_BLOOD_PRESSURE: "high blood pressure", Condition.HEART_CONDITION: "a heart condition",
    Condition.BETA_BLOCKER: "takes a beta-blocker", Condition.PACEMAKER: "has a pacemaker",
    Condition.INSULIN: "takes insulin", Condition.ONE_SIDE: "one side is not to be trained",
    Condition.COPD: "COPD or another lung disease", Condition.PARKINSONS: "Parkinson’s",
    Condition.NEUROPATHY: "numb feet", Condition.CANCER_TREATMENT: "in treatment for cancer",
    Condition.HERNIA: "a hernia", Condition.MEMORY_LOSS: "memory loss", Condition.WALKING_AID: "uses a walking aid",
    Condition.WHEELCHAIR: "uses a wheelchair", Condition.POSTURAL_DIZZINESS: "dizzy on standing",
    Condition.BLOOD_THINNER: "takes a blood thinner", Condition.SHOULDER_REPLACEMENT: "a shoulder replacement",
    Condition.SPINAL_SURGERY: "spinal surgery", Condition.GLAUCOMA: "glaucoma, or an eye that was treated",
    Condition.EPILEPSY: "epilepsy, with a seizure in the last year",
}
#: What a coach is told beside the caps.
COACH_SAID: Mapping[Condition, tuple[str, ...]] = {
    Condition.FALLS: ("supported balance may rise; a hand stays on something",),
    Condition.BETA_BLOCKER: ("effort by talk, never by pulse",),
    Condition.PACEMAKER: ("effort by talk, never by pulse",),
    Condition.INSULIN: ("a reminder before each session",),
    Condition.ONE_SIDE: ("one-sided work with its reason recorded",),
    Condition.OSTEOPOROSIS: ("ask whether a spine fracture is known",),
    Condition.NEUROPATHY: ("shoes on; soles looked at afterwards; with an open sore no standing work",),
    Condition.PARKINSONS: ("trained when the tablets work well",),
    Condition.CANCER_TREATMENT: ("blood counts and fever are the clinic’s limits",),
    Condition.BLOOD_THINNER: ("a knock on the head is a reason for emergency care",),
    Condition.WALKING_AID: ("stands only with something to hold",),
    Condition.COPD: ("effort by breath",),
    Condition.EPILEPSY: ("no axis says “a weight over the face”: leave such work out of what you write",),
    Condition.SPINAL_SURGERY: ("in the first six weeks walking only",),
    Condition.HIP_REPLACEMENT: ("limits of the surgeon first; some hold for life",),
}
BECAUSE: Mapping[Condition, str] = {
    Condition.HIGH_BLOOD_PRESSURE: "your blood pressure", Condition.HEART_CONDITION: "your heart",
    Condition.COPD: "your breathing", Condition.GLAUCOMA: "your eyes", Condition.CANCER_TREATMENT: "your treatment",
}


def condition_change(condition: str, what: str, value: int, asked: str = "") -> str:
    """What a condition changed in a session beside its choice of exercises."""
    why = BECAUSE.get(Condition(condition), "what you ticked")
    if asked:
        why = why.replace("your ", f"{asked}’s ").replace("what you ticked", f"what was ticked for {asked}")
    if what == "hold":
        return f"Hard holds come in parts of at most {value} seconds because of {why}. Stretches stay whole."
    if what == "hand":
        return "Keep a hand on something firm in every balance move, also where a cue says that you may let go."
    if what == "rest":
        return f"Rests are longer because of {why}: at least {value} % of what was written."
    return f"Today aims at an effort of {value} of 10 at most because of {why}."


DATES = "When it began, and a clinician’s yes"
DATES_HINT = (
    "After an operation, and with some conditions, the limits are stricter at first. They stay until a doctor or "
    "another clinician has said that they may go. You are reminded to ask; the calendar alone changes nothing."
)
DATES_NONE = "Nothing that you ticked has limits that end."
DATES_SHORT = "Stricter at first, until a clinician’s yes"
BEGAN = "How long ago?"
BEGAN_WEEKS: Mapping[int, str] = {0: "This week", 3: "3 weeks", 6: "6 weeks", 9: "9 weeks", 12: "12 weeks or more"}
FIRST_HOLD = "The stricter limits hold now."
YES_WHO = "Who said that they may go, and what they are"
YES_RECORD, YES_BACK = "Record this yes", "Take this yes back"
YES_LACKS = "Write who said it and what they are, such as: Ms Field, physiotherapist."


def condition_name(condition: Condition) -> str:
    """As it is ticked."""
    return CLIENT_WORDS[condition][0] if condition in CLIENT_WORDS else COACH_WORDS[condition]


def since_line(day: str) -> str:
    """When it began."""
    return f"Since {day}."


def yes_line(who: str, day: str) -> str:
    """A yes that was recorded."""
    return f"{who} said on {day} that the stricter limits may go."


def ask_again(condition: Condition) -> str:
    """The limits of a condition are due to be asked about."""
    return (f"{condition_name(condition)}: it is time to ask whoever treats you whether these limits still hold. "
            "Enter the answer under Settings; until then they stay.")
