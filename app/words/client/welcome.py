"""Words of the welcome and of the pages in the settings that ask the same again. Knows no Flet.

Own wording; nothing here is a diagnosis. A pair holds a line for the person themselves and one for whoever leads them.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.branding.brand import EmergencyNumber, Role
from app.domain.model.body import Spot
from app.domain.model.person import Person
from app.words.client.today import Pair
from app.words.conditions import CLIENT_WORDS
from app.words.kit import KIT_WORDS
from app.words.parts import spot as spot_name
from app.words.text import listed

# ------------------------------------------------------------------ who

TITLE = "Welcome"
PURPOSE = "What brings you here?"
TRAIN, LEAD, COACH = "I train", "I help someone train", "I coach"
TRAIN_NOTE = "Short sessions at home, from your coach."
LEAD_NOTE = "You set up, read along and ask how it was. They train."
COACH_NOTE = "You write sessions, send them to clients and see who needs you."
#: What each says of itself at the welcome.
ROLES: Mapping[Role, tuple[str, str]] = {
    Role.CLIENT: (TRAIN, TRAIN_NOTE), Role.HELPER: (LEAD, LEAD_NOTE), Role.COACH: (COACH, COACH_NOTE),
}
WORKS_ALONE = "It works without the internet. What you enter stays on this device until you send it."

NAMES_HEAD: Pair = ("Who are you?", "Who trains, and who are you?")
NAME: Pair = ("Your name", "Their name")
LEADER = "Your own name"
BORN: Pair = ("Year of birth, if you like", "Their year of birth, if you like")
NAME_MISSING, LEADER_MISSING = "Please write a name.", "Please write your own name too."
THEY = "They"


def born_wrong(first: int, last: int) -> str:
    """A year that cannot be."""
    return f"Please write the year with four figures, from {first} to {last}, or leave it empty."


# ------------------------------------------------------------------ the body

CONDITIONS_HEAD: Pair = ("Does any of this apply to you?", "Does any of this apply to {name}?")
CONDITIONS_HINT = "Tick what a doctor, nurse or physio has told you. We leave out what doesn’t suit it."
CONDITIONS_LED = "Tick what a doctor, nurse or physio has said. We leave out what doesn’t suit it."
CONDITIONS = CLIENT_WORDS
GROUP_EMPTY = "Nothing ticked. Press to open."
TOLD_BY: Pair = ("Who told you, and when?", "Who said so, and when?")
TOLD_BY_HINT = "For example: Dr Moss, last spring"
WHICH_SIDE = "Which side rests?"
SIDE_OPTIONS = (("left", "Left"), ("right", "Right"))
WHICH_LIMB = "What of it rests?"
LIMB_OPTIONS = (("arm", "The arm"), ("leg", "The leg"), ("", "Both"))
LIMB_HINT = "Anything that uses it is left out. Everything else stays."
SIDE_BECAUSE = "Why?"
SIDE_MISSING = "Please choose the side that rests."
NOTHING_APPLIES = "If none apply, press Next."

SPARE_HEAD: Pair = ("What do you want to go easy on?", "What should {name} go easy on?")
SPARE_HINT = "A stiff shoulder, a knee that complains. Press a part of the body, then say how much it can do."
SPARE_OPTIONS = ((1, "A little is fine"), (0, "Not at all"))
SPARE_WORDS: Mapping[int, str] = dict(SPARE_OPTIONS)
SPARE_SHORT: Mapping[int, str] = {1: "only a little", 0: "no load at all"}
SPARE_NO_NEED = "No need"


def spare_question(spot: Spot) -> str:
    """`Left knee: how much can it do?`"""
    return f"{spot_name(spot)}: how much can it do?"


def spare_name(spot: Spot, words: str) -> str:
    """The spoken name of an answer: `Left knee: not at all`."""
    return f"{spot_name(spot)}: {words.lower()}"


# ------------------------------------------------------------------ kit and circumstances

KIT_HEAD = "What is there at home?"
KIT_HINT = (
    "Tick what can be used; sessions leave out the rest. Other places, such as a hotel room, have their own list in "
    "the settings."
)
KIT: Mapping[str, str] = {kit: words.ticked for kit, words in KIT_WORDS.items()}


def kit_words(kit: frozenset[str] | None) -> str:
    """`a firm chair and dumbbells`; for unknown kit, whatever a session needs."""
    if kit is None:
        return "whatever the session needs"
    return listed([KIT[k].lower() if k in KIT else k for k in sorted(kit)]) or "none"


WEIGHTS = "Which weights?"
WEIGHTS_HINT = "For example: 2, 4 or 2.5"
UNITS = ((False, "kg"), (True, "lb"))
WEIGHTS_WRONG = "Please write numbers with commas between, for example: 2, 2.5, 4"
WEIGHTS_NOTE = "Write the weight of each dumbbell. Sessions use these, and never more than your coach wrote."

AROUND_HEAD: Pair = ("When you train", "When {name} trains")
ALONE: Pair = ("Do you ever train with nobody else in the house?",
               "Does {name} ever train with nobody else in the house?")
ALONE_SHORT = "Alone"
RISES: Pair = ("Can you get up from the floor without help?", "Can {name} get up from the floor without help?")
RISES_SHORT = "Up from the floor without help"
BOTH_MISSING = "Please answer both: they decide whether there are exercises on the floor."
ALONE_NOTE = (
    "If you are alone and can’t get up from the floor, we keep all exercises off the floor. If you are alone, we don’t "
    "swap in an exercise that nobody has shown you."
)

# ------------------------------------------------------------------ the emergency number

EMERGENCY_HEAD = "In an emergency"
EMERGENCY_HINT = (
    "The number to call for an ambulance where you train. Please check it: we show it large when it’s needed."
)
COUNTRY = "Country, if you like"
WHERE = "Where do you train?"
WHERE_NOTE = "Your coach entered these numbers. Choose your country, or write another number below."
NUMBER = "Emergency number"
NUMBER_WRONG = "Please write the number in figures."
NUMBER_RIGHT = "This is the number to call here"
NUMBER_MISSING = "Please check the number, then tick that it is right."
CONTACT: Pair = ("A friend or relative to call", "Someone else to call")
CONTACT_HINT = "If you like: name and number"
USUAL_NUMBER = "112"
#: For an ambulance. Each is to be confirmed by the person, since numbers change and roaming differs.
NUMBERS: Mapping[str, str] = {
    **dict.fromkeys((
        "austria", "at", "belgium", "be", "bulgaria", "bg", "croatia", "hr", "cyprus", "cy", "czechia", "cz", "denmark",
        "dk", "estonia", "ee", "finland", "fi", "france", "fr", "germany", "de", "greece", "gr", "hungary", "hu",
        "iceland", "is", "ireland", "ie", "italy", "it", "latvia", "lv", "lithuania", "lt", "luxembourg", "lu", "malta",
        "mt", "netherlands", "the netherlands", "nl", "poland", "pl", "portugal", "pt", "romania", "ro", "slovakia",
        "sk", "slovenia", "si", "spain", "es", "sweden", "se", "switzerland", "ch", "india", "in", "turkey", "tr",
    ), "112"),
    **dict.fromkeys(("united kingdom", "uk", "gb", "great britain", "england", "scotland", "wales"), "999"),
    **dict.fromkeys(("united states", "usa", "us", "canada", "ca"), "911"),
    **dict.fromkeys(("australia", "au"), "000"),
    **dict.fromkeys(("new zealand", "nz"), "111"),
    **dict.fromkeys(("norway", "no"), "113"),
    **dict.fromkeys(("japan", "jp"), "119"),
}


def number_for(country: str, known: Sequence[EmergencyNumber] = ()) -> str:
    """The number of a country, to be confirmed: as the coach entered it, else the usual one, else 112."""
    plain = " ".join(country.casefold().split())
    entered = (one.number for one in known if " ".join(one.country.casefold().split()) == plain)
    return next(entered, NUMBERS.get(plain, USUAL_NUMBER))


# ------------------------------------------------------------------ what is sent

SENDS_HEAD = "What should the coach see?"
SENDS_HINT = (
    "Nothing is sent automatically. When you press “Send my diary”, it takes what you tick here, with your name and "
    "what you told us about yourself, so that your coach can write safe sessions. Only your coach can open it."
)
SENDS: Mapping[str, tuple[str, str]] = {
    "sessions": ("Sessions done", "What was planned, what was done, how hard it was; checks, and other activity."),
    "pain": ("What hurts", "Where and how much, before, during and after a session."),
    "check_ins": ("Check-ins",
                  "Sleep, energy, feeling settled, achy muscles, warning signs; falls, illness, medicine."),
    "notes": ("Notes", "What you write in your own words."),
}
ALL_OF_IT = "All of it"
NOTHING_SENT = (
    "Nothing ticked: your coach sees none of your training, only your name and what you told us about yourself, and "
    "only if you press “Send my diary”."
)
FINISH = "Finish"


WHO_TITLE = "Who is here?"
WHO_COACH = "The coach’s desk"
WHO_NEW = "Someone new"


def who_line(person: Person) -> str:
    """One line about a person: who leads them, or that they train alone."""
    if person.led_by:
        return f"helped by {person.led_by}"
    return "trains alone" if person.body.alone else "trains here"
