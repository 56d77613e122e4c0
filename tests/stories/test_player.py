"""The player as it is pressed: stop signs, the large view, what it waits for, and coming back to it."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.words import positions, signs
from app.words.client import diary, lead, pauses
from app.words.client import player as says
from app.words.client import today as client
from tests.stories.kept import kept_sessions
from tests.stories.person import DESKTOP, Person, PersonAt

LEFT = re.compile("left$")
ON_THE_FLOOR = "dumbbell-circuit"
"""A session of the demo programme with work on the floor."""


@pytest.fixture
def data(ready: Path, tmp_path: Path) -> Path:
    """Somebody whose answers of this morning are in."""
    return Path(shutil.copytree(ready, tmp_path / "data"))


def skip_to(walker: Person, name: str | re.Pattern[str], most: int = 40) -> Person:
    """Skips until there is such a button."""
    for _ in range(most):
        if walker.shows_button(name):
            return walker
        walker.press(says.PAUSE, says.SKIP, says.GO_ON).settle()
    raise AssertionError(f"never there: {name}; the page says {walker.spoken()}")


@pytest.mark.in_chromium
def test_a_stop_sign_ends_it_and_says_what_to_do(person_at: PersonAt, data: Path) -> None:
    """Two taps from the count; the number is there, the way to the coach can be pressed, and Start is gone."""
    with person_at(data, "/play") as walker:
        walker.press(says.START).sees(LEFT).press(says.STOP_SIGNS).sees(says.SIGNS_LEAD)
        walker.press(signs.sign_words(signs.EMERGENCIES[0])).sees(says.call("999"))
        walker.sees_button(re.compile("^Send my diary to ")).go("/today").sees_no_button(client.START)
    assert kept_sessions(data)[-1].sign == signs.EMERGENCIES[0]


def test_a_sign_that_was_pressed_by_mistake_is_taken_back(person_at: PersonAt, data: Path) -> None:
    """What was pressed stays in the note."""
    with person_at(data, "/play") as walker:
        walker.press(says.START).sees(LEFT).press(says.STOP_SIGNS, says.NONE_FIT).press(says.GO_ON)
        walker.press(says.STOP_SIGNS, signs.sign_words(signs.ASK_TODAY[0])).sees(diary.MISTAKE_NOTE)
        walker.press(diary.MISTAKE).sees_no_button(diary.MISTAKE)


@pytest.mark.parametrize("size", [(412, 915), (915, 412), DESKTOP], ids=["phone", "lying", "desktop"])
def test_the_large_view_leads_there_and_back(person_at: PersonAt, data: Path, size: tuple[int, int]) -> None:
    """With the two presses that must never be looked for."""
    with person_at(data, "/play", size=size) as walker:
        walker.press(says.START).sees(LEFT).press(pauses.DISTANCE_NAME)
        walker.sees(LEFT).sees_button(says.STOP_SIGNS).press(pauses.CARD).sees_button(says.PAUSE)


def test_it_waits_for_somebody_alone(person_at: PersonAt, alone: Path, tmp_path: Path) -> None:
    """At the end of a round it asks, goes no further by itself, and goes on by one tap."""
    data = Path(shutil.copytree(alone, tmp_path / "data"))
    with person_at(data, "/play") as walker:
        walker.press(says.START).sees(LEFT)
        skip_to(walker, pauses.ALL_RIGHT)
        walker.sees(pauses.ALL_RIGHT_ASKED).press(pauses.ALL_RIGHT)
        walker.sees_no_button(pauses.ALL_RIGHT)


def test_down_to_the_floor_by_a_tap(person_at: PersonAt, data: Path) -> None:
    """What to take along is said before; it stands until the tap; and nobody has to get up to be asked what hurts."""
    with person_at(data, f"/play/{ON_THE_FLOOR}", rate=8) as walker:
        walker.press(says.START).sees(LEFT)
        skip_to(walker, says.I_AM_DOWN)
        walker.sees(positions.DOWN_HOW).sees(says.WHEN_DOWN).press(says.I_AM_DOWN).sees_no_button(says.I_AM_DOWN)
        walker.press(says.HURTS).sees_heading(says.REST_THERE).press(says.I_REST).sees(says.WHERE)


def test_whoever_leads_is_told_how_to_help_down(person_at: PersonAt, led: Path, tmp_path: Path) -> None:
    """Line by line."""
    data = Path(shutil.copytree(led, tmp_path / "data"))
    with person_at(data, f"/play/{ON_THE_FLOOR}") as walker:
        walker.press(lead.whose_yes("Anton Brekke"), lead.AS_USUAL).press(says.START).sees(LEFT)
        skip_to(walker, says.I_AM_DOWN)
        walker.press(says.PAUSE).sees(*lead.DOWN.values())


def test_a_session_that_was_left_is_asked_about(person_at: PersonAt, data: Path) -> None:
    """Today says that it is under way; it asks before it goes on, and can be ended there."""
    with person_at(data, "/play") as walker:
        walker.press(says.START).sees(LEFT)
    with person_at(data, "/today") as walker:
        walker.sees(client.GOING_ON).press(client.GO_ON).sees(says.CAME_BACK, pauses.NOT_COUNTED)
        walker.press(says.END_HERE, re.compile(f"^{says.END_REASONS[0][1]}")).sees(diary.HOW_HARD)
