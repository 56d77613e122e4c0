"""Words of "that hurts": the questions once seated, and what follows. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.model.record import HurtKind
from app.domain.model.thresholds import PAIN_ENDS
from app.words.client.today import Pair
from app.words.text import listed

STILL_OPEN = "Still to answer"
GAVE_WAY_OPEN, WHERE_OPEN, LEVEL_OPEN = "whether a joint gave way", "where it hurts", "how much"
KNOWN = "One of these?"
ELSEWHERE = "Somewhere else"
ANOTHER_SPOT = "Not that spot"
KIND = "What is it like?"
KINDS: Mapping[HurtKind, str] = {
    HurtKind.SHARP: "Sharp or stabbing", HurtKind.DULL: "Dull, an ache", HurtKind.PULLING: "Pulling",
    HurtKind.BURNING: "A muscle burning from the exercise", HurtKind.NUMB: "Numb, or pins and needles",
}
NUMB_STOPS = "New numbness or tingling is a warning sign. Pressing Done ends the session."
LEVEL_STOPS = f"At {PAIN_ENDS} or more, the session ends."
LOOK_STOPS = "That much pain there should be looked at first, so the session ends."
CALL_SOMEBODY = "That is a lot of pain"
CALL_WHY: Pair = (
    "Rest for a few minutes first. Let someone near you know how you are, or phone them. If it doesn’t ease while you "
    "sit, end the session and ask your doctor or a nurse line today.",
    "Let {name} rest for a few minutes first, and stay with {name}. If it doesn’t ease while {name} sits, end the "
    "session and ask a doctor or a nurse line today.",
)


def open_words(missing: Sequence[str]) -> str:
    """What keeps "Done" from being pressed: `Still to answer: where it hurts.`"""
    return f"{STILL_OPEN}: {listed(tuple(missing))}."


def ring_words(contact: str, number: str) -> str:
    """Whom to ring; the emergency number where it gets worse."""
    whom = f"Phone {contact}. " if contact else ""
    return f"{whom}If it gets worse, or you notice a warning sign, call {number}."
