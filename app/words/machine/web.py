"""What is said where the app runs inside a browser: its store, being kept, working without the internet."""
from __future__ import annotations

from datetime import date, datetime

BUSY_TITLE = "Open in another tab"
LOST_TITLE = "Your records cannot be opened"
NO_PLACE_TITLE = "Please open this in another window"
TRY_AGAIN = "Try again"
DAMAGED_FOR_GOOD = (
    "Something in them is not what was written, and there is no good copy to go back to. They were put aside and not "
    "deleted. Close the app and open it again: it begins anew, and a copy of everything that you saved elsewhere can "
    "be put back under Settings."
)


def damaged(day: date) -> str:
    """What happened, and what the button does."""
    return ("Something in them is not what was written: the device has lost or changed part of them. They were put "
            f"aside and not deleted. There is a good copy of {day.day} {day:%B %Y}; what was written after it is not "
            "in it.")


def go_back_to(day: date) -> str:
    """The button."""
    return f"Go back to the copy of {day.day} {day:%B}"


def went_back_to(day: date) -> str:
    """After it."""
    return f"The records are as they were on {day.day} {day:%B %Y}. Close the app and open it again."


def busy(name: str) -> str:
    """A second tab, while the first one holds the store. It goes on by itself once the other is closed."""
    return (f"{name} is already open in another tab or window of this browser. Go on there, or close it: this page "
            "carries on by itself as soon as the other one is gone.")


NEWER_TITLE = "Your records need the newer version"


def newer(name: str) -> str:
    """An older version met records that a newer one wrote. The page goes on by itself once it has that one."""
    return (f"A newer version of {name} wrote them, and this older one cannot read them. They are all there: nothing "
            "was changed. Leave this page open while the device is on the internet: it fetches the newer version and "
            "goes on by itself. If nothing happens within a few minutes, close every window of the app and open it "
            "again.")


def version_line(version: str) -> str:
    """Which version runs here."""
    return f"Version {version}"


NEWER_WAITS = (
    "A newer version is here and waits. It comes with the next start: close the app, and open it again when it suits "
    "you. Your records stay."
)
HERE = "What you enter stays on this device until you send it."
KEPT_HEAD = "Kept in this browser"
NOT_TRIED = (
    "Not yet tried without the internet on this device. Try it before you rely on it: close the app, switch the "
    "network off, and open it again."
)
IS_KEPT = "This browser has agreed not to delete your records by itself."
NOT_KEPT = (
    "This browser may delete your records by itself when the device runs short of room. Put the app on the home "
    "screen, and save a copy of everything now and then."
)
LOSES = (
    "Safari on an iPhone, iPad or Mac deletes what a page kept if it was not opened for seven days, unless the app is "
    "on the home screen. Any browser loses it when its history and site data are cleared, and a private window when "
    "it is closed."
)
KEEP_HEAD = "One question from your browser"
KEEP_WHY = (
    "Your records are kept in this browser. It can promise not to delete them by itself, and asks you first whether "
    "this page may store data for good. Press the button, then choose “Allow”."
)
KEEP_ASK, KEEP_LATER = "Ask me now", "Not now"
KEEP_LATER_WHY = "You can come back to this in the settings, under “Kept in this browser”."
HOME = "It is opened from the home screen, as an app of its own."
SAVE_ALL, PUT_BACK = "Save a copy of everything", "Put a copy back"
SAVE_ALL_WHY = (
    "One file with all records, programmes and keys of this device. It is not sealed: keep it where only you can "
    "reach it."
)
PUT_BACK_SURE = "What is here now makes way for what is in the file. It is put aside, not deleted."
PUT_BACK_NOW = "Put it back now"
SAVED_ALL, NOT_SAVED, BACK_AGAIN = "The copy is saved.", "It could not be saved here.", "The copy is put back."


def offline_since(tried: datetime) -> str:
    """After a start without a network was seen to succeed on this device."""
    return f"Works without the internet: it started so on {tried.day} {tried:%B %Y}."


def uses(size: int) -> str:
    """How much of the device's room it takes, from bytes."""
    return (f"It takes up about {max(1, round(size / 1e6))} MB of this device: your records, the app itself so that it "
            "opens without the internet, and what lets it open quickly.")
