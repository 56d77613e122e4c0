"""Words about a PIN: what it is good for, choosing one, giving it, and having forgotten it. Knows no Flet."""
from __future__ import annotations

PIN = "PIN"
NEW_PIN, ONCE_MORE, PIN_NOW = "New PIN", "The new PIN once more", "The PIN now"
CHOOSE, CHANGE, REMOVE = "Ask for this PIN", "Change the PIN", "Remove the PIN"
CHOSEN, REMOVED = "The PIN is asked for from the next start on.", "No PIN is asked for any more."
NOT_THE_SAME = "The two aren’t the same. Type the new PIN twice."
OPEN, OTHERS, GO_ON = "Open", "Someone else’s turn", "Go on with the session"
FORGOTTEN, ASK_WITHOUT, GO_WITHOUT = "Forgotten it?", "Ask to do without it", "Remove the forgotten PIN"
FORGOTTEN_SAYS = (
    "No one can look it up. Ask to do without it now, and after 24 hours it can be removed here. Nothing is erased. "
    "Whoever knows the PIN is told, and their next right PIN calls it off."
)
CALLED_OFF = "Someone asked to do without your PIN. That is called off now."
WHY = (
    "On a shared device a PIN keeps others out of these pages. It is asked for at each start, and after someone else "
    "was here. A session under way never asks for it."
)
NO_LOCK = (
    "It doesn’t lock the records themselves: a copy of everything, saved in the settings, holds everyone’s, and "
    "someone who can copy this device’s files can read them. A screen lock and an encrypted disk protect those."
)


def state(is_set: bool) -> str:
    """In the list of settings."""
    return "Asked for at each start" if is_set else "None"


def title(name: str) -> str:
    """Whose it is; the desk's where nobody is named."""
    return f"PIN for {name}" if name else "PIN for the coach’s desk"


def from_when(moment_said: str) -> str:
    """When a forgotten one can be removed, by this device's clock."""
    return f"Someone asked to do without it. It can be removed from {moment_said}."
