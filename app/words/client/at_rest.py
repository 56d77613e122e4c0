"""Words about what lies on this device: copies under a passphrase, and what protects what. Knows no Flet."""
from __future__ import annotations

SAVE_SEALED = "Save a sealed copy"
SAVE_ALL_WHY = (
    "A copy is one file with all the records, programmes and keys of everyone on this device. A sealed one opens only "
    "with your passphrase. Anyone can read one without a passphrase: keep it where only you can get at it."
)
SEALED_WHY = (
    "Choose at least 15 characters; five or six words that don’t belong together are easy to keep. Write them on "
    "paper. Without them no one can open the copy, and no one can find them out for you."
)
PASSPHRASE, ITS_PASSPHRASE = "Passphrase", "The passphrase of this copy"
SUGGEST, WRITE_DOWN = "Suggest one", "Write these words down before you save; they are shown only now."
SEAL_NOW = "Seal and save it"

COPY_HEAD, PROTECTS_HEAD = "A copy of everything", "What protects them here"


def protects(in_browser: bool) -> tuple[str, ...]:
    """What keeps others from the records, and what does not; nothing is promised that is not so."""
    read = ("Anyone who can open this browser as you can read them" if in_browser else
            "Their files are yours alone, but anyone who signs in as you on this device can read them")
    return (
        f"The records are not locked. {read}: choose a screen lock, and share neither your sign-in nor its code.",
        "An encrypted disk protects them if the device is lost or stolen while it is switched off. Most phones have "
        "one as soon as they have a code; on a computer look in its settings. It doesn’t help while you are signed in.",
    )
