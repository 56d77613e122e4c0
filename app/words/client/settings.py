"""Words of the settings. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.model.exercise import Space
from app.domain.model.figure_body import FigureBody
from app.domain.model.thresholds import USUAL_PAIN_MOST

TITLE = "Settings"
NOTHING = "Nothing ticked"
PAGES: Mapping[str, str] = {
    "names": "Name", "conditions": "Health", "spare": "Go easy on", "kit": "Kit and weights",
    "around": "Alone, and up from the floor", "emergency": "Emergency number", "sends": "What you share with the coach",
}
STOPS = "The safety questions"
BODIES_HEAD = "Who shows the moves"
BODIES: Mapping[FigureBody | None, str] = {
    None: "As the coach chose", FigureBody.SILVER: "Short silver hair", FigureBody.BEARD: "Bald, with a beard",
    FigureBody.BROAD: "Broad, with dark hair",
}
PLACES = "Places"
PROGRAMME = "Programme"


def about(name: str) -> str:
    """`About Ines`."""
    return f"About {name}"


def stops_said(answered: str) -> str:
    """When the safety questions were answered."""
    return f"Answered {answered}" if answered else "Not answered, or waiting for a go-ahead"


def around_said(alone: bool, rises: bool) -> str:
    """`Alone; up from the floor without help`."""
    return f"{'Alone' if alone else 'Not alone'}; up from the floor {'without' if rises else 'only with'} help"


# ------------------------------------------------------------------ a pain that is always there

USUAL = "A pain that is always there"
USUAL_HINT = (
    f"If a joint has hurt for years, you can agree a usual level with a doctor or physiotherapist, {USUAL_PAIN_MOST} "
    "at most. Up to that level, and if it is back to it by the next morning, it won’t change your session. Above it, "
    "the usual rules apply."
)
USUAL_WHERE, USUAL_LEVEL = "Where?", "Which level is usual?"
USUAL_WITH, USUAL_WITH_HINT = "Agreed with", "For example: Ana, physiotherapist"
USUAL_UNTIL = "Until when?"
USUAL_MONTHS: Mapping[int, str] = {3: "3 months", 6: "6 months", 12: "A year"}
USUAL_ADD = "Keep this agreement"
USUAL_LACKS = "Please choose where and which level, and write who you agreed it with."
USUAL_NONE = "No agreement"
REMOVE = "Remove"


def usual_line(spot: str, level: int) -> str:
    """`Left knee, up to 4`."""
    return f"{spot}, up to {level}"


def usual_terms(agreed_with: str, until: str) -> str:
    """With whom, and until when."""
    return f"Agreed with {agreed_with}, until {until}"


def usual_removed(spot: str) -> str:
    """An agreement that was taken away."""
    return f"{spot}: the agreement is removed."


def remove_name(spot: str) -> str:
    """The spoken name of taking one away: `Remove left knee`."""
    return f"{REMOVE} {spot.lower()}"


# ------------------------------------------------------------------ shown, and the same as always

STEADY = "Exercises you have been shown"
STEADY_HINT = (
    "Tick what a coach or physiotherapist has shown in person. Without company, only these, and very simple exercises, "
    "are swapped in for another one."
)
SAME, SAME_SHORT = "Should it stay the same as always?", "The same as always"
SAME_HINT = (
    "The exercises and their order stay the same; on a poor day there is less of them, and nothing new. For anyone who "
    "finds change confusing."
)
NO_LIBRARY = "The list comes with a programme file."


def shown_said(count: int, same: bool) -> str:
    """`4 ticked; the same as always`."""
    return f"{count} ticked{'; the same as always' if same else ''}"


# ------------------------------------------------------------------ places

PLACES_HINT = "What each room has and allows. On Today you choose where you are."
PLACE_KIT = "What kit is there?"
OWN_KIT, OTHER_KIT = "What I have at home", "Its own list"
FLOOR, FLOOR_SHORT = "Is there floor to lie on?", "Floor to lie on"
BED, BED_SHORT = "Is there a bed to lie on?", "Bed"
NOISE, NOISE_SHORT = "Is noise all right here, such as jogging or hops?", "Noise is all right"
SPACE = "How much room is there?"
SPACES: Mapping[Space, str] = {Space.SMALL: "A mat’s length", Space.LARGE: "A few steps each way"}
NEW_PLACE, ADD_PLACE = "Name of a new place", "Add this place"
NEW_PLACE_MISSING, PLACE_THERE = "Please write a name for the place.", "You already have a place of that name."
REMOVE_PLACE = "Remove this place"
LAST_PLACE = "You need at least one place, so that sessions know what kit is there."


def removed(name: str) -> str:
    """A place that was taken away."""
    return f"“{name}” is removed."


# ------------------------------------------------------------------ this device

DEVICE = "This device"
LOOK = "Light or dark"
LOOKS: Mapping[str, str] = {"system": "Same as the device", "light": "Light", "dark": "Dark"}
ENGLISH = "Words and spelling"
ENGLISHES: Mapping[str, str] = {"": "As in your country", "british": "British", "american": "American"}
READER = "Screen reader"
READER_NOTE = "Choose Yes if a screen reader reads these pages to you. It then gets every word from the start."
SENSES: Mapping[str, tuple[str, str]] = {
    "sound": ("Sound", "Tones for work, rest, change of side and the last seconds."),
    "haptics": ("Vibration", "If the device can: two beats for work, a long one for rest."),
    "speech": ("Voice", "What comes next, which side, how to set up: in your coach’s recording, or read aloud if the "
                        "device has a voice."),
}
NO_VOICE = "This browser has no voice of its own here, so only what your coach recorded is heard."
ROLES = "Who uses this device"
SOMEBODY_ELSE, ADD_SOMEBODY = "Someone else’s turn", "Add someone who trains"
COACH_SIDE, CLIENT_SIDE = "Go to the coach’s side", "Go to the client’s side"
BACK_TO_DESK = "Back to the desk"

# ------------------------------------------------------------------ where it is kept, and erasing

RECORDS = "Where your records are"


def kept_in(place: str) -> str:
    """Where the store is, in plain words."""
    where = f" The file is {place}." if place else ""
    return (
        "On this device, and nowhere else. Nothing is sent unless you send it. A copy is made each day, beside the "
        f"records.{where}"
    )


COPIES = "You can save a copy to read, keep or print under “Send”."
ERASE = "Erase"


def erase_person_words(name: str) -> str:
    """The act."""
    return f"Erase everything about {name}"


ERASE_DEVICE = "Erase everything on this device"
ERASE_HEAD = "Erase for good?"
ERASE_PERSON_SAYS = (
    "This deletes everything about the body, the diary, messages and keys, with the daily copies. What was sent to the "
    "coach stays with the coach; ask them to erase it too. You can’t undo this."
)
ERASE_DEVICE_SAYS = (
    "This deletes everyone who trains here, the coach’s side with its keys, sources and apps, and every programme, "
    "with the daily copies. You can’t undo this."
)
BUNDLED_STAYS = "The programme that came with this app stays."
ERASE_NOW = "Erase it now"
ERASING = "It is being erased. This may take a moment."
ERASED = "It is erased."
