"""Words about what is heard: the sound track, recorded lines, the check of loudness, what a device lacks. No Flet."""
from __future__ import annotations

from collections.abc import Iterable, Mapping

from app.domain.model.exercise import Exercise
from app.domain.model.plan import StepSide
from app.domain.sound.voice_lines import CHANGES, FROM_FLOOR, TO_FLOOR, Said, VoiceLine
from app.words.positions import DOWN_HOW, STAGES, UP_HOW
from app.words.text import count, duration, listed

# ------------------------------------------------------------------ the command

NO_TRACK = "There is no session today, so no sound track was written."


def track_written(name: str, seconds: int, cues: int, lines: int) -> str:
    """What the `cues` command says at the end."""
    spoken = f", {count(lines, 'spoken line')}" if lines else ", no spoken lines (the programme file has no voice)"
    return f"{name} is ready: {duration(seconds)}, {count(cues, 'cue')}{spoken}."


# ------------------------------------------------------------------ lines for a speech engine

CHANGE_WORDS: Mapping[str, str] = {
    TO_FLOOR: DOWN_HOW, FROM_FLOOR: UP_HOW, **{about: STAGES[stage][1] for stage, about in CHANGES.items()},
}
"""What each part of a change of position says, as it stands on the screen."""
_SIDES = {StepSide.LEFT: "Left side.", StepSide.RIGHT: "Right side."}


def line_words(line: VoiceLine, exercise: Exercise | None, language: str) -> str:
    """What a speech engine is to say; empty where we have no words in that language."""
    if line.said is Said.CHANGE:
        return CHANGE_WORDS[line.about] if language == "en" else ""
    if line.said is Said.SIDE or exercise is None:
        return _SIDES[StepSide(line.about)] if language == "en" else ""
    cues = exercise.cues
    if line.said is Said.NAME:
        return f"Next: {exercise.name}." if language == "en" else f"{exercise.name}."
    return (cues.set_up if line.said is Said.SET_UP else cues.safety)[line.number - 1]


SPEAKING = "This computer’s voice is reading the lines that aren’t recorded. It may take a minute."

# ------------------------------------------------------------------ is it loud enough?

CHECK_HEAD = "Is it loud enough?"
CHECK_HINT = "Put the device where it will be, go to where you will train, and listen."
PLAY_IT = "Play the sounds"
ASKED, ASKED_SHORT = "Can you hear it from where you train?", "Heard from where I train"
NOT_HEARD = ("Turn the device up, move it nearer or connect a louder speaker, then play the sounds again. Everything "
             "is shown on the screen too, and many devices also vibrate.")
HEARD = "Good. We won’t ask again; you can play the sounds any time under Settings."
NO_SOUND = "No sound could be played here. Follow the screen instead, and the vibration if the device has it."

# ------------------------------------------------------------------ what a device lacks

LACKS: Mapping[str, str] = {
    "sound": "play tones", "haptics": "vibrate", "awake": "keep its screen on",
}
"""By ability of the device."""


def lacks_words(missing: Iterable[str]) -> str:
    """One quiet sentence; empty where nothing is missing that a session would have used."""
    there = set(missing)
    told = [words for ability, words in LACKS.items() if ability in there]
    return f"This device cannot {listed(told)}. You can still do the session." if told else ""


# ------------------------------------------------------------------ a session that is due

REMIND = "Remind me when a session is due"
REMIND_NOTE = "A notification on this computer, once on the day, while the app is open. It goes nowhere else."
REMIND_AT: Mapping[int, str] = {0: "Never", 8: "From 8:00", 10: "From 10:00", 15: "From 15:00", 18: "From 18:00"}


def due_words(name: str) -> str:
    """A notice: what is due."""
    return f"“{name}” is due today, whenever it suits you. It can wait if today is no good."
