"""What to see to before a session, for this body and these circumstances. Knows no Flet."""
from __future__ import annotations

from app.words.client.today import Pair

SAFETY_HEAD = "Before you start"
SAFETY_ALONE: Pair = (
    "You train alone: keep your phone within reach, have a worktop or heavy chair to hold, and leave the door "
    "unbolted.",
    "{name} sometimes trains alone: keep the phone within reach, have a worktop or heavy chair to hold, and leave the "
    "door unbolted.",
)
SAFETY_NO_RISING: Pair = ("Nothing on the floor today, as nobody is there to help you up.",
                          "Nothing on the floor today, as {name} may be alone and needs help to get up.")
SAFETY_INSULIN: Pair = (
    "Insulin: check your sugar, keep something sweet near, and keep to the limits your doctor or nurse gave you.",
    "Insulin: check {name}’s sugar, keep something sweet near, and keep to the limits from {name}’s "
    "doctor or nurse.",
)
SAFETY_PULSE: Pair = (
    "Go by your breathing and whether you can talk, never by your pulse.",
    "Go by {name}’s breathing and whether {name} can talk, never by the pulse.",
)
SAFETY_FALLS = "Hold on to something that can’t tip for every balance exercise."
SAFETY_LEAD = "Before you begin, set up the chair and read the warning signs; in the session they are one press away."
SAFETY_ALWAYS = (
    "Stop at once if you feel chest pressure, faintness or sharp pain, or stay short of breath after a rest."
)
