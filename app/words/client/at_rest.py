"""Words about what lies on this device: copies under a passphrase, and what protects what. Knows no Flet."""
from __future__ import annotations

SAVE_SEALED = "Save a sealed copy"
SAVE_ALL_WHY = (
    "A copy is one file with all records, programmes and keys of everybody on this device. A sealed one opens with "
    "your passphrase alone. One without a passphrase can be read by whoever gets hold of it: keep it where only you "
    "can reach it."
)
SEALED_WHY = (
    "Choose at least 15 characters; five or six words that do not belong together are easy to keep. Write them on "
    "paper. Without them nobody can open the copy, and nobody can find them out for you."
)
PASSPHRASE, ITS_PASSPHRASE = "Passphrase", "The passphrase of this copy"
SUGGEST, WRITE_DOWN = "Suggest one", "Write these words down before you save; they are shown only now."
SEAL_NOW = "Seal and save it"

COPY_HEAD, PROTECTS_HEAD = "A copy of everything", "What protects them here"


def protects(in_browser: bool) -> tuple[str, ...]:
    """What keeps others from the records, and what does not; nothing is promised that is not so."""
    who = ("Whoever can open this browser as you can read them" if in_browser else
           "Their files are yours alone, but whoever signs in as you on this device can read them")
    return (
        f"The records are not locked by themselves. {who}: choose a screen lock, and share neither your sign-in nor "
        "its code.",
        "An encrypted disk keeps them from whoever finds or steals the device while it is switched off. Most phones "
        "have one as soon as they have a code; on a computer look in its settings. It does not help while you are "
        "signed in.",
    )
