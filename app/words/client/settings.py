"""Words of the settings. Knows no Flet."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.model.exercise import Space
from app.domain.model.thresholds import USUAL_PAIN_MOST

TITLE = "Settings"
NOTHING = "Nothing ticked"
PAGES: Mapping[str, str] = {
    "names": "Name", "conditions": "What clinicians have said", "spare": "Go easy on", "kit": "Kit and weights",
    "around": "Alone, and up from the floor", "emergency": "Emergency number", "sends": "What may go to the coach",
}
STOPS = "The stop questions"
PLACES = "Places"
PROGRAMME = "Programme"


def about(name: str) -> str:
    """`About Ines`."""
    return f"About {name}"


def stops_said(answered: str) -> str:
    """When the stop questions were answered."""
    return f"Answered {answered}" if answered else "Not answered, or waiting for a yes"


def around_said(alone: bool, rises: bool) -> str:
    """`Alone; up from the floor without help`."""
    return f"{'Alone' if alone else 'Not alone'}; up from the floor {'without' if rises else 'only with'} help"


# ------------------------------------------------------------------ a pain that is always there

USUAL = "A pain that is always there"
USUAL_HINT = (
    f"A joint that has hurt for years may have a usual level, at most {USUAL_PAIN_MOST}, once you have agreed it with "
    "a doctor or physiotherapist. Up to that level, and gone back to it by the next morning, it eases nothing. "
    "Above it, the usual rules stand."
)
USUAL_WHERE, USUAL_LEVEL = "Where?", "Which level is usual?"
USUAL_WITH, USUAL_WITH_HINT = "Agreed with", "For example: Ana, physiotherapist"
USUAL_UNTIL = "Until when?"
USUAL_MONTHS: Mapping[int, str] = {3: "3 months", 6: "6 months", 12: "A year"}
USUAL_ADD = "Keep this agreement"
USUAL_LACKS = "Choose where and which level, and write with whom it was agreed."
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

STEADY = "Exercises you were shown"
STEADY_HINT = (
    "Tick what a coach or physiotherapist has shown in person. For somebody alone, no other exercise stands in, unless "
    "it explains itself."
)
SAME, SAME_SHORT = "Should it stay the same as always?", "The same as always"
SAME_HINT = "Order and exercises stay; on a poor day there is less of them, and nothing new. For whom change confuses."
NO_LIBRARY = "The list comes with a programme."


def shown_said(count: int, same: bool) -> str:
    """`4 ticked; the same as always`."""
    return f"{count} ticked{'; the same as always' if same else ''}"


# ------------------------------------------------------------------ places

PLACES_HINT = "What a room has and allows. Choose on today’s card where you are."
PLACE_KIT = "What is at hand there?"
OWN_KIT, OTHER_KIT = "What I have at home", "Its own list"
FLOOR, FLOOR_SHORT = "Is there floor to lie on?", "Floor to lie on"
BED, BED_SHORT = "Is there a bed to lie on?", "Bed"
NOISE, NOISE_SHORT = "May it be loud, with steps that jar?", "May be loud"
SPACE = "How much room is there?"
SPACES: Mapping[Space, str] = {Space.SMALL: "A mat’s length", Space.LARGE: "Some steps each way"}
NEW_PLACE, ADD_PLACE = "Name of a new place", "Add this place"
NEW_PLACE_MISSING, PLACE_THERE = "Write a name for the place.", "There is a place of that name."
REMOVE_PLACE = "Remove this place"
LAST_PLACE = "One place stays: without it no session knows what is at hand."


def removed(name: str) -> str:
    """A place that was taken away."""
    return f"“{name}” is removed."


# ------------------------------------------------------------------ this device

DEVICE = "This device"
LOOK = "Light or dark"
LOOKS: Mapping[str, str] = {"system": "As the device", "light": "Light", "dark": "Dark"}
READER = "Screen reader"
READER_NOTE = "Choose Yes if a screen reader reads these pages to you: it is told everything then, from the start on."
SENSES: Mapping[str, tuple[str, str]] = {
    "sound": ("Sound", "Tones for work, rest, change of side and the last seconds."),
    "haptics": ("Vibration", "Where the device can: two beats for work, a long one for rest."),
    "speech": ("Voice", "What comes next, which side, how to set up: as your coach recorded it, or read aloud where "
                        "the device has a voice."),
}
ROLES = "Who uses this device"
SOMEBODY_ELSE, ADD_SOMEBODY = "Somebody else’s turn", "Add somebody who trains"
COACH_SIDE, CLIENT_SIDE = "Go to the coach’s side", "Go to the side of those who train"
BACK_TO_DESK = "Back to the desk"

# ------------------------------------------------------------------ where it is kept, and erasing

RECORDS = "Where your records live"


def kept_in(place: str) -> str:
    """Where the store is, in plain words."""
    where = f" The file is {place}." if place else ""
    return (
        "On this device, and nowhere else. Nothing is sent unless you send it. A copy is put aside each day, beside "
        f"the records.{where}"
    )


COPIES = "A copy to read, to keep or to print is made under “Send”."
ERASE = "Erase"


def erase_person_words(name: str) -> str:
    """The act."""
    return f"Erase everything about {name}"


ERASE_DEVICE = "Erase everything on this device"
ERASE_HEAD = "Erase for good?"
ERASE_PERSON_SAYS = (
    "Body, diary, messages and keys go, and the copies put aside with them. What was sent to the coach stays with the "
    "coach; ask them to erase it too. There is no undo."
)
ERASE_DEVICE_SAYS = (
    "Everybody who trains here, the coach’s side with its keys, sources and apps, and every programme go, and the "
    "copies put aside with them. There is no undo."
)
BUNDLED_STAYS = "The programme that came with this app stays."
ERASE_NOW = "Erase it now"
ERASING = "It is being erased. This may take a moment."
ERASED = "It is erased."
