"""The program's own sentences in the English of the United States, word for word where a reader there would stumble.

Everything else is written once, in British English. What a coach wrote goes the same way, kit and all: a worktop is a
counter to whoever looks for one. Knows no Flet.
"""
from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

#: British words and phrases with what is said in their place; each also begun with a capital, and whole words alone.
#: A longer phrase comes before the words that it holds.
AMERICAN: Mapping[str, str] = {
    "in plaster": "in a cast",
    "phone the practice": "call the office",
    "swing the footplates": "swing the footrests",
    "parkinson’s tablets": "Parkinson’s pills",
    "when the tablets": "when the pills",
    "your tablets": "your pills",
    "tablets that": "pills that",
    "spray or tablets": "spray or pills",
    "tablets, drops": "pills, drops",
    "pain and tablets": "pain and medicines",
    "such as a holiday": "such as a vacation",
    "stick or frame": "cane or walker",
    "a stick, a frame": "a cane, a walker",
    "with a stick or a frame": "with a cane or a walker",
    "that are not neighbours": "that are not next to each other",
    "i am or was ill": "I am or was sick",
    "is or was ill": "is or was sick",
    "is ill": "is sick",
    "feeling ill": "feeling sick",
    "physiotherapists": "physical therapists", "physiotherapist": "physical therapist",
    "physios": "physical therapists", "physio": "physical therapist",
    "worktops": "counters", "worktop": "counter",
    "programmes": "programs", "programme": "program",
    "centimetres": "centimeters", "centimetre": "centimeter", "metres": "meters", "metre": "meter",
    "colours": "colors", "colour": "color", "grey": "gray",
    "judgement": "judgment", "travelling": "traveling",
    "a fortnight": "two weeks", "fortnight": "two weeks",
    "tummy": "belly", "towards": "toward",
    "afterwards": "afterward", "backwards": "backward", "inwards": "inward",
}
#: What people write for the country.
_STATES = re.compile(r"\s*(the\s+)?(united states( of america)?|u\.?\s?s\.?(\s?a\.?)?|america)\s*", re.IGNORECASE)
_WORD = re.compile(r"(?<![\w-])(" + "|".join(map(re.escape, AMERICAN)) + r")(?![\w-])", re.IGNORECASE)


def is_american(country: str) -> bool:
    """Whether that country, as somebody wrote it, is the United States."""
    return bool(_STATES.fullmatch(country))


@lru_cache(maxsize=4096)
def american(words: str) -> str:
    """The same sentence as it is said there. Twice gives what once gives."""
    return _WORD.sub(_in_its_case, words)


def _in_its_case(found: re.Match[str]) -> str:
    said, meant = found[0], AMERICAN[found[0].lower()]
    if said.isupper() and len(said) > 1:
        return meant.upper()
    return meant[0].upper() + meant[1:] if said[0].isupper() else meant
