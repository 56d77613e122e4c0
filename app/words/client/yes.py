"""Words of a stop and of recording a yes to it. Knows no Flet."""
from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import datetime

from app.domain.model.thresholds import FEVER_FREE_HOURS
from app.words.client.today import STOP_CAUSES, Pair, moment_words
from app.words.signs import SIGN_WORDS

YES_TITLE = "Record the go-ahead"
YES_NOTHING = "Training isn’t on hold."
YES_WHO: Pair = ("Who gave you the go-ahead?", "Who gave {name} the go-ahead?")
YES_KIND = "Their profession"
YES_NAME = "Their name"
YES_NAME_MISSING = "Please write their name."
YES_KIND_MISSING = "Please choose their profession."
YES_ASK_MISSING = "Please tick that they were asked about training after this."
YES_SELF = f"I have had no fever for {FEVER_FREE_HOURS} hours"
YES_SELF_LED = f"{{name}} has had no fever for {FEVER_FREE_HOURS} hours"
KINDS: Mapping[str, str] = {
    "doctor": "A doctor", "physiotherapist": "A physiotherapist", "nurse": "A nurse",
    "other clinician": "Another health professional", "coach": "The coach",
}
YES_MEANS = (
    "It means they know what happened, they know it is about home training, and they said it can start again. "
    "It goes into the diary with today’s date and, if you agreed to that, to your coach."
)
YES_ASKED: Pair = ("I asked them about training after this", "{name} or I asked them about training after this")
YES_ACT = "Record this go-ahead"
YES_DONE = "The go-ahead is recorded."


def stop_because(because: str, moment: datetime, told: Collection[str] = ()) -> str:
    """What stopped them, and when; only when, where `told` says what already."""
    cause = STOP_CAUSES.get(because, SIGN_WORDS.get(because, "Something"))
    return f"On {moment_words(moment)}." if cause in told else f"{cause}, on {moment_words(moment)}."


def fever_until(moment: datetime) -> str:
    """From when no one else has to be asked after a fever."""
    return f"No one else needs to agree from {moment_words(moment)}, if the fever hasn’t come back."
