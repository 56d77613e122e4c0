"""Words for the helper, who leads an older relative through a session. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.compile.helper_guidance import HelperHold, HelperStand, holds_for, stand_for
from app.domain.model.exercise import Exercise
from app.domain.model.plan import ChangeStage, Step

THEY_DO, YOU_SAY, YOU_STAND, YOU_HOLD, WATCH_FOR = "They do", "You say", "You stand", "You hold", "Watch for"
WATCH_ALWAYS = ("Their colour, and slow speech.",
                "A hand reaching for support, or holding their breath.")
OUT_LOUD = "The voice is on: the lines are read out, so your hands stay free."
OUT_LOUD_OFF = "If you switch the voice on in the settings, the lines are read out and your hands stay free."

STANDS: Mapping[HelperStand, str] = {
    HelperStand.OPEN_SIDE: "Beside them, on the side away from what they hold on to.",
    HelperStand.ARMS_LENGTH: "Beside them and half a step behind, within arm’s reach.",
    HelperStand.IN_FRONT: "In front of the chair, a little to the side, where they see you.",
    HelperStand.BESIDE_CHAIR: "Beside the chair: they need room to lean forward.",
    HelperStand.AT_SHOULDER: "On the floor or a low stool, by their shoulder, where they see you.",
    HelperStand.BED_EDGE: "At the open edge of the bed.",
}
HOLDS: Mapping[HelperHold, str] = {
    HelperHold.CHAIR_STILL: "The chair, so that it can’t slide.",
    HelperHold.GIVES_WEIGHT: "The weights: hand them over last, and take them back first.",
    HelperHold.HAND_READY: "One open hand near their waist, not touching. Never pull an arm.",
    HelperHold.NOTHING: "Nothing. Keep your hands free.",
}
DOWN: Mapping[str, str] = {
    YOU_SAY: "“Take your time. Hold on to the chair and get down on one knee first.”",
    YOU_STAND: "Beside them, on the side without the chair.",
    YOU_HOLD: "The chair, so that it can’t slide.",
}
UP: Mapping[str, str] = {
    YOU_SAY: "“On all fours first, hands on the chair, one foot forward, and up. Then one slow breath.”",
    YOU_STAND: "Beside them. Bring the chair to their hands.",
    YOU_HOLD: "The chair. If they can’t get up, don’t pull: let them rest; call for help if they still can’t.",
}

#: The other parts of a change of position.
STAGES: Mapping[ChangeStage, Mapping[str, str]] = {
    ChangeStage.SIT: {
        YOU_SAY: "“Roll onto your better side, knees bent, and push up with a good arm. Stay sitting, move your feet, "
                 "breathe.”",
        YOU_STAND: "In front of them, close by.", YOU_HOLD: "A hand ready at their shoulder.",
    },
    ChangeStage.STAND: {
        YOU_SAY: "“Stand still and hold on. Light-headed? Sit down again.”",
        YOU_STAND: "Beside them, on the open side.", YOU_HOLD: "A hand ready near the waist; the chair behind them.",
    },
    ChangeStage.UP: {
        YOU_SAY: "“Push off with a good arm, and stand.”", YOU_STAND: "Beside them, on the open side.",
        YOU_HOLD: "A hand ready near the waist.",
    },
    ChangeStage.RISE: {
        YOU_SAY: "“Stand up in your own time.”", YOU_STAND: "Beside the chair.",
        YOU_HOLD: "The chair, so that it can’t slide.",
    },
    ChangeStage.TURN: {
        YOU_SAY: "“Up to your knees, in your own time.”", YOU_STAND: "At their shoulder, the chair within reach.",
        YOU_HOLD: "The chair, so that it can’t slide.",
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
    return f"Is {name} training now?"


def whose_yes(name: str) -> str:
    """It is."""
    return f"Yes, {name} is here"


WHOSE_NO = "Someone else"
WHOSE_WHY = "Each person has their own session: someone else’s may be too much."


def how_today(name: str) -> str:
    """The question before a start."""
    return f"How is {name} today?"


AS_USUAL = "As usual"
BACK = "Go back"
AS_USUAL_NOTE = "Answers as always, knows what is planned, stands and walks as usual."


def not_themselves(sex: str) -> str:
    """`Not herself today`; where it is not known, a neutral word."""
    word = {"woman": "herself", "man": "himself"}.get(sex, "themselves")
    return f"Not {word} today"


NOT_THEMSELVES_NOTE = "Then there is no session, and we’ll show what to look for."

# ------------------------------------------------------------------ asked once seated


def seated_first(name: str) -> str:
    """Questions come only then."""
    return f"Ask once {name} is sitting. It’s hard to answer while holding on."


SIT_THEM_DOWN = "Help them sit down first"


REST_THEM_THERE = "Let them rest where they are"


def rested_first(name: str) -> str:
    """The same of somebody who lies or kneels."""
    return f"Ask once {name} is comfortable. There is no need to get up for it."


def they_rest(name: str) -> str:
    """The press that shows the questions then."""
    return f"{name} is resting"


def they_sit(name: str) -> str:
    """The press that shows the questions."""
    return f"{name} is sitting"


SAID_OR_SEEN = "What they say, and what you see"
SEEN: tuple[str, ...] = (
    "Grimacing, or a hand on the spot: it may hurt more than they say. If in doubt, choose the higher number.",
    "Holding their breath: say “breathe out”, and wait until they breathe freely.",
)
SEEN_GREY = "Grey, clammy or cold sweat"
GREY_SIGN = "cold_sweat"
WHO_SAYS = "Whose answer is this?"


def they_say(name: str) -> str:
    """Told by the person."""
    return f"{name}’s"


I_THINK = "My guess"
GUESS_NOTE = "A guess is saved as a guess: it can make the next session easier, never harder."
