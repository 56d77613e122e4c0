"""Every address of the app, for the people of the demo."""
from __future__ import annotations

from tests.sampling import is_whole
from tests.stories.turns import COACH, KASIMIR, MAUD, Demo

SETTINGS = ("", "/names", "/conditions", "/spare", "/kit", "/around", "/emergency", "/sends", "/places", "/pin",
            "/erase")
CLIENT = ("/today", "/today/hotel-room", "/check-in", "/diary", "/plan", "/send", "/programme", "/yes",
          "/welcome/questions", "/welcome", "/who", *(f"/settings{page}" for page in SETTINGS))
#: Where the words are others for whoever leads somebody.
LED = ("/today", "/check-in", "/yes", "/welcome/questions", "/settings/names")
DESK = ("/desk", "/people", "/publish", "/settings", "/settings/erase")
#: Of the people of the demo: one who trains alone, one who is led and had to stop, and the coach.
EVERYBODY = (MAUD, KASIMIR, COACH)


def addresses(demo: Demo, name: str) -> list[str]:
    """Every address that somebody can go to; of who is led only those whose words are others, in a sampled suite."""
    if name == COACH:
        return [*DESK, *(f"/person/{person}" for person in demo.ids.values())]
    own = CLIENT if name == MAUD or is_whole() else LED
    session, check_in = demo.last_session(name), demo.last_check_in(name)
    return [*own, f"/afterwards/{session}", f"/diary/{session}", f"/diary/{check_in}"]
