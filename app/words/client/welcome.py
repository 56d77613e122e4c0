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
LEAD_NOTE = "You set up, read along and ask how it was; they train."
COACH_NOTE = "You write sessions, hand them out and see who needs you."
#: What each says of itself at the welcome.
ROLES: Mapping[Role, tuple[str, str]] = {
    Role.CLIENT: (TRAIN, TRAIN_NOTE), Role.HELPER: (LEAD, LEAD_NOTE), Role.COACH: (COACH, COACH_NOTE),
}
WORKS_ALONE = "It works without a network. What you enter stays on this device until you send it."

NAMES_HEAD: Pair = ("Who are you?", "Who trains, and who are you?")
NAME: Pair = ("Your name", "Their name")
LEADER = "Your own name"
BORN: Pair = ("Year of birth, if you like", "Their year of birth, if you like")
NAME_MISSING, LEADER_MISSING = "Write a name.", "Write your own name too."
THEY = "They"


def born_wrong(first: int, last: int) -> str:
    """A year that cannot be."""
    return f"The year, with four figures, from {first} to {last}; or leave it empty."


# ------------------------------------------------------------------ the body

CONDITIONS_HEAD: Pair = ("Does any of this apply to you?", "Does any of this apply to {name}?")
CONDITIONS_HINT = "Tick what a doctor or another clinician has told you. Each leaves out what does not go well with it."
CONDITIONS_LED = "Tick what a doctor or another clinician has said. Each leaves out what does not go well with it."
CONDITIONS = CLIENT_WORDS
GROUP_EMPTY = "Nothing ticked. Press to look."
TOLD_BY: Pair = ("Who told you, and when?", "Who said so, and when?")
TOLD_BY_HINT = "For example: Dr Moss, last spring"
WHICH_SIDE = "Which side rests?"
SIDE_OPTIONS = (("left", "Left"), ("right", "Right"))
WHICH_LIMB = "What of it rests?"
LIMB_OPTIONS = (("arm", "The arm"), ("leg", "The leg"), ("", "Both"))
LIMB_HINT = "Whatever uses it in any way is left out; everything else goes on."
SIDE_BECAUSE = "Why?"
SIDE_MISSING = "Choose the side that rests."
NOTHING_APPLIES = "Nothing ticked is fine: go on."

SPARE_HEAD: Pair = ("What do you want to go easy on?", "What should {name} go easy on?")
SPARE_HINT = "An old shoulder, a knee that complains. Press a part of the body, then say how much it may do."
SPARE_OPTIONS = ((1, "A little is fine"), (0, "Not at all"))
SPARE_WORDS: Mapping[int, str] = dict(SPARE_OPTIONS)
SPARE_SHORT: Mapping[int, str] = {1: "a little", 0: "not at all"}
SPARE_NO_NEED = "No need"


def spare_question(spot: Spot) -> str:
    """`Left knee: how much may it do?`"""
    return f"{spot_name(spot)}: how much may it do?"


def spare_name(spot: Spot, words: str) -> str:
    """The spoken name of an answer: `Left knee: not at all`."""
    return f"{spot_name(spot)}: {words.lower()}"


# ------------------------------------------------------------------ kit and circumstances

KIT_HEAD = "What is at hand?"
KIT_HINT = (
    "Tick what can be used at home; what is not ticked is not used. Other places, such as a hotel room, have their own "
    "list in the settings."
)
KIT: Mapping[str, str] = {kit: words.ticked for kit, words in KIT_WORDS.items()}


def kit_words(kit: frozenset[str] | None) -> str:
    """`a firm chair and dumbbells`; for unknown kit, whatever a session asks for."""
    if kit is None:
        return "whatever the session asks for"
    return listed([KIT[k].lower() if k in KIT else k for k in sorted(kit)]) or "nothing but the room"


WEIGHTS = "Which weights?"
WEIGHTS_HINT = "For example: 2, 4 or 2.5"
UNITS = ((False, "kg"), (True, "lb"))
WEIGHTS_WRONG = "Write numbers with commas between, for example: 2, 2.5, 4"
WEIGHTS_NOTE = "The weight of one dumbbell each. A session takes one of these, never above what your coach wrote."

AROUND_HEAD: Pair = ("When you train", "When {name} trains")
ALONE: Pair = ("Are you ever alone in the house when you train?", "Is {name} ever alone while training?")
ALONE_SHORT = "Alone"
RISES: Pair = ("Can you get up from the floor without help?", "Can {name} get up from the floor without help?")
RISES_SHORT = "Up from the floor without help"
BOTH_MISSING = "Answer both, please: they decide whether there is anything on the floor."
ALONE_NOTE = (
    "Alone and unable to get up: nothing on the floor, ever. Alone: an exercise that nobody has shown you never takes "
    "another’s place."
)

# ------------------------------------------------------------------ the emergency number

EMERGENCY_HEAD = "If it comes to the worst"
EMERGENCY_HINT = (
    "The number to call for an ambulance where you train. Please make sure: it is shown large when it counts."
)
COUNTRY = "Country, if you like"
WHERE = "Where do you train?"
WHERE_NOTE = "Your coach entered these numbers. Choose your country, or write another one below."
NUMBER = "Emergency number"
NUMBER_WRONG = "Write the number in figures."
NUMBER_RIGHT = "This is the number to call here"
NUMBER_MISSING = "Check the number, then tick that it is right."
CONTACT: Pair = ("Somebody close to call", "Somebody else to call")
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

SENDS_HEAD = "What may go to the coach?"
SENDS_HINT = (
    "Nothing is sent by itself. When you press “Send my diary”, what is ticked here goes along, with your name and "
    "what you have said of yourself until now: year of birth, health, what to spare, kit. Without that nobody could "
    "write a safe session. All of it is locked so that only your coach can read it."
)
SENDS: Mapping[str, tuple[str, str]] = {
    "sessions": ("Sessions done", "What was planned, what was done, how hard it was; checks, and moving about."),
    "pain": ("What hurts", "Where and how much, before, in and after a session."),
    "check_ins": ("Check-ins", "Sleep, energy, being settled, achy muscles, signs that were ticked; falls, illness, "
                  "medicine."),
    "notes": ("Notes", "What you write in your own words."),
}
ALL_OF_IT = "All of it"
NOTHING_SENT = (
    "Nothing ticked: of your training the coach sees nothing. Your name and what you said of yourself go along if you "
    "press “Send my diary”."
)
FINISH = "Finish"


WHO_TITLE = "Who is here?"
WHO_COACH = "The coach’s desk"
WHO_NEW = "Somebody new"


def who_line(person: Person) -> str:
    """One line about a person: who leads them, or that they train alone."""
    if person.led_by:
        return f"led by {person.led_by}"
    return "trains alone" if person.body.alone else "trains here"
