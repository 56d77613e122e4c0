"""What is said of the coach's keys under a passphrase. Knows no Flet."""
from __future__ import annotations

LOCK_OPEN = "Lock your keys with a passphrase"
LOCK_HEAD = "Lock your keys"
LOCK_WHY = (
    "Anyone who copies your records off this computer gets your keys with them. With those they can sign programmes "
    "in your name and read the diaries people send you. A passphrase keeps the keys from them. You type it once each "
    "time you start the app. If you forget it, your recovery sheet is the only way back."
)
PASSPHRASE, AGAIN = "Passphrase", "Passphrase once more"
LOCK, NOT_NOW = "Lock my keys", "Not now"
NOT_THE_SAME = "The two aren’t the same. Nothing was changed."
UNLOCKED_HEAD = "Your keys are unlocked"
UNLOCKED = (
    "They stay unlocked until you close the app. This doesn’t seal what is already on this computer, such as names and "
    "diaries: use your computer’s disk encryption for that."
)
LOCK_NOW, REMOVE_OPEN = "Lock them now", "Remove the passphrase"
REMOVE_HEAD, REMOVE = "Remove the passphrase", "Remove it"
REMOVE_WHY = "Your keys go back into your records on this computer, and anyone who copies those gets them too."
LOCKED_HEAD = "Your keys are locked"
LOCKED = "Until you unlock them, you can’t publish, answer, or read new diaries. Everything already here can be read."
UNLOCK = "Unlock my keys"
REMEMBER = "Let this computer remember it"
REMEMBER_WHY = (
    "Your computer’s own password store then keeps the passphrase, and you needn’t type it. Anyone who can use this "
    "computer as you can then unlock your keys. A copy of your records elsewhere stays locked."
)
REMEMBER_REFUSED = "Your computer’s password store didn’t keep it. You’ll need to type the passphrase next time."
UNLOCK_HERE = "Unlock with this computer"
UNLOCK_HERE_REFUSED = "This computer’s password store didn’t give the right passphrase. Please type it."
REMEMBERED = "This computer remembers the passphrase."
FORGET = "Make it forget"


def suggested(passphrase: str) -> str:
    """Words by chance, as a suggestion."""
    return f"A suggestion, made up just now: {passphrase}"
