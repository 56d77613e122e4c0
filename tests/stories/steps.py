"""Stretches of a person's way through the app, by what they read and press."""
from __future__ import annotations

import re
from pathlib import Path

from app.words import parts
from app.words.client import check_in, day_card, player, stop_questions, welcome
from app.words.client import today as client
from tests.stories.person import Person

#: What stands folded on today's card once the questions are answered.
WHY = re.compile(f"^{day_card.WHY_TODAY}")
LOOK_S = 0.2
"""Between two looks at a session that runs."""


def be_welcomed(walker: Person, name: str, onto: str = client.PROGRAMME_TITLE) -> None:
    """Somebody who trains by themselves, with dumbbells, whom nothing keeps from starting; all may be sent.

    `onto`: the heading of the page that follows.
    """
    walker.sees_heading(welcome.TITLE).press(welcome.TRAIN)
    walker.sees(welcome.NAMES_HEAD[0]).write(welcome.NAME[0], name).write(welcome.BORN[0], "1957").press(client.NEXT)
    walker.sees(welcome.EMERGENCY_HEAD).tick(welcome.NUMBER_RIGHT).press(client.NEXT)
    walker.sees(welcome.CONDITIONS_HEAD[0]).press(client.NEXT)
    walker.sees(welcome.SPARE_HEAD[0]).press(client.NEXT)
    walker.sees(welcome.KIT_HEAD).tick(*(welcome.KIT[kit] for kit in ("chair", "worktop", "mat", "dumbbell")))
    walker.write(welcome.WEIGHTS, "2, 4").press(client.NEXT)
    walker.sees(welcome.AROUND_HEAD[0])
    walker.choose(parts.answer(welcome.ALONE_SHORT, parts.NO), parts.answer(welcome.RISES_SHORT, parts.YES))
    walker.press(client.NEXT).sees(stop_questions.STOPS_HEAD[0]).choose(stop_questions.NONE_OF_THESE).press(client.NEXT)
    walker.sees("You can start").press(client.NEXT)
    walker.sees(welcome.SENDS_HEAD).press(welcome.ALL_OF_IT, welcome.FINISH).sees_heading(onto)


def open_programme(walker: Person, pack: Path, words: str) -> None:
    """Chooses the coach's file, reads the five words, finds them the same."""
    walker.choose_file(client.PICK_FILE, pack).sees_heading(client.MATCH_HEAD)
    walker.sees(*(re.compile(f"^{word}$") for word in words.split()))
    walker.press(client.SAME).sees(re.compile("’s programme is now on this device")).press(client.TO_TODAY)


def check_in_with(walker: Person, spot: str, level: int) -> None:
    """A check-in in which one joint hurts and all else is well."""
    walker.choose(parts.answer(check_in.ANYTHING_SHORT, parts.NO)).press(client.NEXT).sees(check_in.JOINTS[0])
    walker.press(spot).choose(parts.of(spot, level, 10)).press(client.NEXT).sees(check_in.MUSCLES[0])
    walker.choose(check_in.NO_ACHES).press(client.NEXT).sees(check_in.FEEL[0])
    walker.choose(*(parts.of(about, 4, 5) for about in (check_in.SLEPT, check_in.ENERGY, check_in.SETTLED)))
    walker.press(client.DONE).sees_button(WHY)


def play_to_the_end(walker: Person, seconds: float = 120) -> None:
    """Starts and lets it run, and answers what it asks: whether they are down or up, and where to go on."""
    walker.press(client.START).sees(re.compile("left$"))
    run_to_the_end(walker, seconds)


def run_to_the_end(walker: Person, seconds: float = 120) -> None:
    """Lets a session run that is under way.

    It may ask where to go on: a fast clock makes half a minute of a tenth of a second in which the machine was busy.
    """
    asked = (player.I_AM_DOWN, player.I_AM_UP, re.compile("^Carry on from minute"))
    looks = 0
    while walker.route.startswith("/play"):
        assert looks * LOOK_S < seconds, walker.spoken()
        looks += 1
        for answer in asked:
            if walker.shows_button(answer):
                walker.press(answer)
        walker.wait(LOOK_S)
    walker.is_well()


def minutes_of_strip(walker: Person) -> int:
    """The length of the session on today's card, as its time strip says it aloud."""
    strip = re.compile(r"^Time strip: (\d+) minutes")
    walker.sees(strip)
    return next(int(found[1]) for line in walker.spoken() if (found := strip.search(line)))
