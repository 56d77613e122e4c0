"""What to see to before a session, for this body and these circumstances. Knows no Flet."""
from __future__ import annotations

from app.words.client.today import Pair

SAFETY_HEAD = "Before you start"
SAFETY_ALONE: Pair = (
    "You train alone: phone within reach, a worktop or heavy chair to hold, door not bolted.",
    "{name} sometimes trains alone: phone within reach, a worktop or heavy chair to hold, door not bolted.",
)
SAFETY_NO_RISING: Pair = ("Nothing on the floor today, since nobody is there to help you up.",
                          "Nothing on the floor today, since {name} may be alone and needs help to get up.")
SAFETY_INSULIN: Pair = (
    "Insulin: check your sugar, keep something sweet near, and keep to your own clinician’s limits.",
    "Insulin: check {name}’s sugar, keep something sweet near, and keep to the limits from {name}’s "
    "clinician.",
)
SAFETY_PULSE: Pair = (
    "Go by your breath and by whether you can talk, never by your pulse.",
    "Go by {name}’s breath and whether {name} can talk, never by the pulse.",
)
SAFETY_FALLS = "Balance moves only with a hand on something that cannot tip."
SAFETY_LEAD = "Before you begin, set up the chair and know the stop signs; they are one tap away in the session."
SAFETY_ALWAYS = "Stop at once for chest pressure, faintness, sharp pain or breath that does not settle."
