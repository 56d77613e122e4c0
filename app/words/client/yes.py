"""Words of a stop and of recording a yes to it. Knows no Flet."""
from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import datetime

from app.domain.model.thresholds import FEVER_FREE_HOURS
from app.words.client.today import STOP_CAUSES, Pair, moment_words
from app.words.signs import SIGN_WORDS

YES_TITLE = "Record a yes"
YES_NOTHING = "No stop waits for a yes."
YES_WHO: Pair = ("Who said yes?", "Who said yes to {name}?")
YES_KIND = "They are"
YES_NAME = "Their name"
YES_NAME_MISSING = "Write who said yes."
YES_KIND_MISSING = "Choose what they are."
YES_ASK_MISSING = "Tick that they were asked about training after this."
YES_SELF = f"I have had no fever for {FEVER_FREE_HOURS} hours"
YES_SELF_LED = f"{{name}} has had no fever for {FEVER_FREE_HOURS} hours"
KINDS: Mapping[str, str] = {
    "doctor": "A doctor", "physiotherapist": "A physiotherapist", "nurse": "A nurse",
    "other clinician": "Another clinician", "coach": "The coach",
}
YES_MEANS = (
    "Recording it says: they know what happened, they know that training is meant, and they said that it may go on. "
    "It goes into the diary with today’s date and, if you agreed to that, to your coach."
)
YES_ASKED: Pair = ("I asked them about training after this", "{name} or I asked them about training after this")
YES_ACT = "Record this yes"
YES_DONE = "The yes is recorded."


def stop_because(because: str, moment: datetime, told: Collection[str] = ()) -> str:
    """What stopped them, and when; only when, where `told` says what already."""
    cause = STOP_CAUSES.get(because, SIGN_WORDS.get(because, "Something"))
    return f"On {moment_words(moment)}." if cause in told else f"{cause}, on {moment_words(moment)}."


def fever_until(moment: datetime) -> str:
    """When one's own word begins to count after a fever."""
    return f"One’s own word counts from {moment_words(moment)}, if the fever has not come back."
