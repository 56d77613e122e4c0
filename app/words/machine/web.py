"""What is said where the app runs inside a browser: its store, being kept, working without the internet."""
from __future__ import annotations

from datetime import date, datetime

BUSY_TITLE = "Open in another tab"
LOST_TITLE = "Your records cannot be opened"
NO_PLACE_TITLE = "Please open this in another window"
TRY_AGAIN = "Try again"
DAMAGED_FOR_GOOD = (
    "Part of them has been damaged, and there is no good copy to go back to. They were set aside, not deleted. Close "
    "the app and open it again: it starts afresh, and if you saved a copy of everything elsewhere, you can put it back "
    "under Settings."
)


def damaged(day: date) -> str:
    """What happened, and what the button does."""
    return ("The device has lost or changed part of them. They were set aside, not deleted. There is a good copy from "
            f"{day.day} {day:%B %Y}; it doesn’t have anything you entered after that.")


def go_back_to(day: date) -> str:
    """The button."""
    return f"Go back to the copy of {day.day} {day:%B}"


def went_back_to(day: date) -> str:
    """After it."""
    return f"The records are as they were on {day.day} {day:%B %Y}. Close the app and open it again."


def busy(name: str) -> str:
    """A second tab, while the first one holds the store. It goes on by itself once the other is closed."""
    return (f"{name} is already open in another tab or window of this browser. Carry on there, or close it: this page "
            "continues automatically once the other one is closed.")


NEWER_TITLE = "Your records need the newer version"


def newer(name: str) -> str:
    """An older version met records that a newer one wrote. The page goes on by itself once it has that one."""
    return (f"They were saved by a newer version of {name}, and this older one can’t read them. They are all there, "
            "and nothing was changed. Leave this page open with the device on the internet: it fetches the newer "
            "version and continues automatically. If nothing happens within a few minutes, close every window of the "
            "app and open it again.")


def version_line(version: str) -> str:
    """Which version runs here."""
    return f"Version {version}"


NEWER_WAITS = (
    "A newer version is ready. To use it, close the app and open it again when it suits you. Your records stay."
)
HERE = "What you enter stays on this device until you send it."
KEPT_HEAD = "Kept in this browser"
NOT_TRIED = (
    "We haven’t seen it work without the internet on this device yet. Try it before you rely on it: close the app, "
    "switch off the internet and open it again."
)
IS_KEPT = "This browser has agreed not to delete your records to save space."
NOT_KEPT = (
    "This browser may delete your records when the device runs short of space. Add the app to the home screen, and "
    "save a copy of everything now and then."
)
LOSES = (
    "Safari on an iPhone, iPad or Mac deletes a page’s records if you don’t open it for seven days, unless the app is "
    "on the home screen. Any browser deletes them when you clear its history and site data, or when you close a "
    "private window."
)
KEEP_HEAD = "One question from your browser"
KEEP_WHY = (
    "Your records are kept in this browser. It can promise not to delete them, but asks you first whether this page "
    "may store data for good. Press the button, then choose “Allow”."
)
KEEP_ASK, KEEP_LATER = "Ask me now", "Not now"
KEEP_LATER_WHY = "You can come back to this in the settings, under “Kept in this browser”."
HOME = "You open it from the home screen, as its own app."
SAVE_ALL, PUT_BACK = "Save a copy without a passphrase", "Put a copy back"
PUT_BACK_SURE = "The file replaces what is here now, which is set aside, not deleted."
PUT_BACK_NOW = "Put it back now"
SAVED_ALL, NOT_SAVED, BACK_AGAIN = "The copy is saved.", "It couldn’t be saved here.", "The copy is back."


def offline_since(tried: datetime) -> str:
    """After a start without a network was seen to succeed on this device."""
    return f"Works without the internet: it opened offline on {tried.day} {tried:%B %Y}."


def uses(size: int) -> str:
    """How much of the device's room it takes, from bytes."""
    return (f"It takes up about {max(1, round(size / 1e6))} MB on this device: your records, the app itself so that it "
            "opens without the internet, and files that let it open quickly.")
