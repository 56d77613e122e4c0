"""What is said of the coach's keys under a passphrase. Knows no Flet."""
from __future__ import annotations

LOCK_OPEN = "Lock your keys with a passphrase"
LOCK_HEAD = "Lock your keys"
LOCK_WHY = (
    "Anyone who copies your records off this computer gets your keys with them, and can sign programmes in your name "
    "and read the diaries people send you. Under a passphrase they get nothing. You type it once each time you start "
    "the app. If you forget it, your recovery sheet is the only way back."
)
PASSPHRASE, AGAIN = "Passphrase", "Passphrase once more"
LOCK, NOT_NOW = "Lock my keys", "Not now"
NOT_THE_SAME = "The two aren’t the same. Nothing was changed."
LOCKED_HEAD = "Your keys are locked"
LOCKED = (
    "They are open until you close the app. What is already on this computer, people’s names and diaries among it, is "
    "not sealed by this: for that, use the disk encryption of your computer."
)
SHUT_NOW, REMOVE_OPEN = "Close them now", "Do without the passphrase"
REMOVE_HEAD, REMOVE = "Do without the passphrase", "Put my keys back"
REMOVE_WHY = "Your keys go back into your records on this computer, where anyone who copies those gets them."
SHUT_HEAD = "Your keys are locked"
SHUT = (
    "Until you open them, you can’t publish, answer, or read diaries that arrive. Everything already here can be read."
)
UNLOCK = "Open my keys"


def suggested(passphrase: str) -> str:
    """Words by chance, as a suggestion."""
    return f"One made up by chance just now: {passphrase}"
