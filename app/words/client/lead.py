"""Words for somebody who leads an older relative through a session. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.compile.helper_guidance import HelperHold, HelperStand, holds_for, stand_for
from app.domain.model.exercise import Exercise
from app.domain.model.plan import ChangeStage, Step

THEY_DO, YOU_SAY, YOU_STAND, YOU_HOLD, WATCH_FOR = "They do", "You say", "You stand", "You hold", "Watch for"
WATCH_ALWAYS = ("The colour of their face, and words that come slowly.",
                "A hand that reaches out for support, or held breath.")
OUT_LOUD = "Speech is on: the lines are read out, so your hands stay free."
OUT_LOUD_OFF = "Switch the voice on in the settings, and the lines are read out: your hands stay free."

STANDS: Mapping[HelperStand, str] = {
    HelperStand.OPEN_SIDE: "Beside them, on the side away from what they hold on to.",
    HelperStand.ARMS_LENGTH: "Beside them and half a step behind, within arm’s reach.",
    HelperStand.IN_FRONT: "In front of the chair, a little to the side, where they see you.",
    HelperStand.BESIDE_CHAIR: "At the side of the chair: they need room to lean forward.",
    HelperStand.AT_SHOULDER: "On the floor or a low stool, at their shoulder, where they see you.",
    HelperStand.BED_EDGE: "At the open edge of the bed.",
}
HOLDS: Mapping[HelperHold, str] = {
    HelperHold.CHAIR_STILL: "The chair, so that it cannot slide.",
    HelperHold.GIVES_WEIGHT: "The weights: hand them over last, and take them back first.",
    HelperHold.HAND_READY: "One open hand near their waist, not touching. Never pull an arm.",
    HelperHold.NOTHING: "Nothing. Keep your hands free.",
}
DOWN: Mapping[str, str] = {
    YOU_SAY: "“Take your time. Hold on to the chair and get down on one knee first.”",
    YOU_STAND: "Beside them, on the side without the chair.",
    YOU_HOLD: "The chair, so that it cannot slide.",
}
UP: Mapping[str, str] = {
    YOU_SAY: "“On all fours first, hands on the chair, one foot forward, and up. Then one slow breath.”",
    YOU_STAND: "Beside them. Bring the chair to their hands.",
    YOU_HOLD: "The chair. If they cannot get up, do not pull: let them rest, and call for help if it stays so.",
}

#: The other parts of a change of position.
STAGES: Mapping[ChangeStage, Mapping[str, str]] = {
    ChangeStage.SIT: {
        YOU_SAY: "“Roll on to your side, sit up, and stay sitting. Lift your feet in turn.”",
        YOU_STAND: "In front of them, near.", YOU_HOLD: "A hand ready at their shoulder.",
    },
    ChangeStage.STAND: {
        YOU_SAY: "“Stand still, a hand on something. Light-headed? Sit down again.”",
        YOU_STAND: "Beside them, on the open side.", YOU_HOLD: "A hand ready near the waist; the chair behind them.",
    },
    ChangeStage.UP: {
        YOU_SAY: "“Push off the edge, and stand.”", YOU_STAND: "Beside them, on the open side.",
        YOU_HOLD: "A hand ready near the waist.",
    },
    ChangeStage.RISE: {
        YOU_SAY: "“Stand up in your own time.”", YOU_STAND: "Beside the chair.",
        YOU_HOLD: "The chair, so that it cannot slide.",
    },
    ChangeStage.TURN: {
        YOU_SAY: "“Up to your knees, in your own time.”", YOU_STAND: "At their shoulder, the chair within reach.",
        YOU_HOLD: "The chair, so that it cannot slide.",
    },
    ChangeStage.LIE: {
        YOU_SAY: "“Sit on the edge, then lie down.”", YOU_STAND: "At the edge of the bed.",
        YOU_HOLD: "Nothing; a hand ready at their shoulder.",
    },
}


def lines_for(exercise: Exercise, step: Step) -> tuple[str, ...]:
    """What to say, where to stand, what to hold and what to watch for, a line each."""
    cues = exercise.cues
    spoken = [*cues.action, cues.breath] if step.is_effort else [*cues.set_up, *cues.action[:1]]
    return (*(_line(YOU_SAY, f"“{line}”") for line in spoken if line), _line(YOU_STAND, STANDS[stand_for(exercise)]),
            *(_line(YOU_HOLD, HOLDS[hold]) for hold in holds_for(exercise)),
            *(_line(WATCH_FOR, line) for line in (*cues.safety, *WATCH_ALWAYS)))


def change_lines(step: Step) -> tuple[str, ...]:
    """The same while they get down or up."""
    told = STAGES[step.stage] if step.stage else UP if step.to_floor is False else DOWN
    return (*(_line(head, line) for head, line in told.items()), *(_line(WATCH_FOR, line) for line in WATCH_ALWAYS))


def _line(head: str, words: str) -> str:
    return f"{head}: {words}"


# ------------------------------------------------------------------ before


def whose_question(name: str) -> str:
    """Confirms whose session it is."""
    return f"Is it {name} who trains now?"


def whose_yes(name: str) -> str:
    """It is."""
    return f"Yes, {name} is here"


WHOSE_NO = "Somebody else"
WHOSE_WHY = "Each person has a session of their own: another body may not bear it."


def how_today(name: str) -> str:
    """The question before a start."""
    return f"How is {name} today?"


AS_USUAL = "As usual"
BACK = "Back"
AS_USUAL_NOTE = "Answers as always, knows what is planned, stands and walks as on other days."


def not_themselves(sex: str) -> str:
    """`Not herself today`; where it is not known, a neutral word."""
    word = {"woman": "herself", "man": "himself"}.get(sex, "themselves")
    return f"Not {word} today"


NOT_THEMSELVES_NOTE = "Then there is no session, and it says what to look for."

# ------------------------------------------------------------------ asked once seated


def seated_first(name: str) -> str:
    """Questions come only then."""
    return f"Ask once {name} sits. Nobody answers well while holding on."


SIT_THEM_DOWN = "Help them sit down first"


def they_sit(name: str) -> str:
    """The tap that shows the questions."""
    return f"{name} is sitting"


SAID_OR_SEEN = "What is said, and what you see"
SEEN: tuple[str, ...] = (
    "Grimacing, or a hand on the spot: it may hurt more than is said. If in doubt, the higher number.",
    "Breath held: say “breathe out”, and wait until it flows again.",
)
SEEN_GREY = "Grey, clammy or cold sweat"
GREY_SIGN = "cold_sweat"
WHO_SAYS = "Who says so?"


def they_say(name: str) -> str:
    """Told by the person."""
    return f"{name} says so"


I_THINK = "I think so"
GUESS_NOTE = "A guess is kept as a guess. It may make the next session lighter, and never harder."
