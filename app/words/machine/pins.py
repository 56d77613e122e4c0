"""Words about a PIN: what it is good for, choosing one, giving it, and having forgotten it. Knows no Flet."""
from __future__ import annotations

PIN = "PIN"
NEW_PIN, ONCE_MORE, PIN_NOW = "New PIN", "New PIN again", "Current PIN"
CHOOSE, CHANGE, REMOVE = "Set this PIN", "Change the PIN", "Remove the PIN"
CHOSEN, REMOVED = "From the next start, the app asks for this PIN.", "The app no longer asks for a PIN."
NOT_THE_SAME = "The two PINs aren’t the same. Type the new PIN twice."
OPEN, OTHERS, GO_ON = "Open", "Someone else’s turn", "Go on with the session"
FORGOTTEN, ASK_WITHOUT, GO_WITHOUT = "Forgotten it?", "Ask to remove it", "Remove the forgotten PIN"
FORGOTTEN_SAYS = (
    "No one can look it up. If you ask now, you can remove it here after 24 hours; nothing is erased. Anyone who types "
    "the right PIN before then stops this, and is told that someone asked."
)
CALLED_OFF = "Someone asked to remove your PIN. Typing it has stopped that."
WHY = (
    "On a shared device a PIN keeps others out of these pages. The app asks for it at each start, and after someone "
    "else has been here. It never interrupts a session to ask."
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
    return f"Someone asked to remove it. You can remove it from {moment_said}."
