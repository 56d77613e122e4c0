"""A tablet that two people train on: the PIN of one keeps the other out of her pages, and nobody out of a session."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.domain.errors import WrongPin
from app.words.client import player, settings, welcome
from app.words.client import today as client
from app.words.errors import error_text
from app.words.machine import pins
from tests.stories import steps
from tests.stories.person import Person, PersonAt

PIN, HER, OTHER = "4719", "Greta Olsen", "Anton Brekke"


@pytest.fixture
def data(following: Path, tmp_path: Path) -> Path:
    """Somebody who follows a programme."""
    return Path(shutil.copytree(following, tmp_path / "data"))


def give(walker: Person, pin: str) -> None:
    """Types it and presses Open."""
    walker.sees_heading(pins.title(HER)).write(pins.PIN, pin).press(pins.OPEN)


def choose_pin(walker: Person) -> None:
    """Twice the same, after twice different ones."""
    walker.go("/settings").press(re.compile(f"^{pins.PIN}")).sees(pins.NO_LOCK)
    walker.write(pins.NEW_PIN, PIN).write(pins.ONCE_MORE, "4718").press(pins.CHOOSE).sees(pins.NOT_THE_SAME)
    walker.write(pins.NEW_PIN, "1234").write(pins.ONCE_MORE, "1234").press(pins.CHOOSE)
    walker.sees(re.compile("^A PIN has 4 to 8 digits"))
    walker.write(pins.NEW_PIN, PIN).write(pins.ONCE_MORE, PIN).press(pins.CHOOSE).sees(pins.CHOSEN)


def test_one_persons_pages_ask_for_a_pin_and_the_others_do_not(person_at: PersonAt, data: Path) -> None:
    """At each start and after somebody else; every address of hers, none of his; a wrong one opens nothing."""
    with person_at(data, "/today") as walker:
        choose_pin(walker)
        walker.go("/today").sees_heading(re.compile(".")).sees_no_button(pins.OPEN)
        walker.go("/welcome")
        steps.be_welcomed(walker, OTHER)
        walker.go("/settings").sees(settings.about(OTHER)).sees_no_button(pins.OPEN)
        walker.go("/who").press(HER)
        give(walker, "4718")
        walker.sees(error_text(WrongPin()))
        for address in ("/today", "/diary", "/settings", "/settings/erase", "/send", "/welcome/questions", "/play"):
            walker.go(address).sees_heading(pins.title(HER)).sees_no_button(client.START)
        give(walker, PIN)
        walker.go("/diary").sees_no_button(pins.OPEN)
        walker.go("/who").sees_heading(welcome.WHO_TITLE).go("/diary").sees_button(pins.OPEN)
        walker.press(pins.OTHERS).press(OTHER).sees_no_button(pins.OPEN)
    with person_at(data, "/who") as walker:
        walker.press(HER)
        give(walker, PIN)
        walker.go("/settings").press(re.compile(f"^{pins.PIN}")).write(pins.PIN_NOW, "4718").press(pins.REMOVE)
        walker.sees(error_text(WrongPin())).write(pins.PIN_NOW, PIN).press(pins.REMOVE).sees(pins.REMOVED)
    with person_at(data, "/diary") as walker:
        walker.sees_no_button(pins.OPEN)


def test_a_session_goes_on_without_it_and_a_forgotten_one_takes_a_day(person_at: PersonAt, data: Path) -> None:
    """Whoever is in a session is led on and can stop; whoever has forgotten the PIN is told from when it can go."""
    with person_at(data, "/today") as walker:
        choose_pin(walker)
        walker.go("/check-in")
        steps.check_in_with(walker, "Left knee", 1)
        walker.press(client.START).sees(re.compile("left$")).press(player.PAUSE)
    with person_at(data, "/today") as walker:
        walker.sees_heading(pins.title(HER)).press(pins.GO_ON).sees_no_button(pins.OPEN)
        walker.go("/today").press(pins.ASK_WITHOUT).sees(re.compile("^Someone asked to remove it"))
        walker.sees_no_button(pins.GO_WITHOUT)
        give(walker, PIN)
        walker.sees(pins.CALLED_OFF)
