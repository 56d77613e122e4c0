"""What somebody changes about themselves and their device, and the rules on a wide page."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.words import conditions, parts
from app.words.client import settings, welcome
from app.words.client import today as client
from tests.stories.person import DESKTOP, PersonAt

SAVE = "Save"


@pytest.fixture
def data(following: Path, tmp_path: Path) -> Path:
    """Somebody who follows a programme and has answered nothing today."""
    return Path(shutil.copytree(following, tmp_path / "data"))


def test_a_usual_pain_is_agreed_removed_and_put_back(person_at: PersonAt, data: Path) -> None:
    """With a name, a level and a day until which it holds."""
    with person_at(data, "/settings/usual") as walker:
        walker.press(settings.USUAL_ADD).sees(settings.USUAL_LACKS)
        walker.choose("Left knee", parts.of(settings.USUAL_LEVEL, 3, 5)).write(settings.USUAL_WITH, "Dr Moss")
        walker.press(settings.USUAL_ADD).sees(settings.usual_line("Left knee", 3))
        walker.press(settings.remove_name("Left knee")).sees(settings.usual_removed("Left knee"))
        walker.press(client.UNDO).sees(settings.usual_line("Left knee", 3))


def test_exercises_that_were_shown_are_ticked(person_at: PersonAt, data: Path) -> None:
    """And everything can be kept the same as always."""
    with person_at(data, "/settings/shown") as walker:
        walker.choose(parts.answer(settings.SAME_SHORT, parts.YES)).tick("Stand up from a chair")
        walker.press(client.DONE).sees_heading(settings.TITLE)


def test_a_side_that_is_not_trained_is_named(person_at: PersonAt, data: Path) -> None:
    """Without the side there is no way on."""
    with person_at(data, "/settings/conditions") as walker:
        walker.press(re.compile("^Bones")).tick(re.compile("^One side")).press(SAVE).sees(welcome.SIDE_MISSING)


def test_conditions_are_asked_in_groups_and_a_new_hip_waits_for_a_yes(person_at: PersonAt, data: Path) -> None:
    """A closed group names what is ticked in it; the first limits end with a clinician's name and no other way."""
    with person_at(data, "/settings/conditions") as walker:
        walker.press(re.compile("^Bones")).tick(re.compile("^A new hip")).press(SAVE)
        walker.press(re.compile(f"^{conditions.DATES}")).sees(conditions.UNDATED_HOLD).press("12 weeks or more")
        walker.press(f"{conditions.YES_RECORD}: A new hip").sees(conditions.YES_LACKS)
        walker.write(f"{conditions.YES_WHO}: A new hip", "Ms Field, physiotherapist")
        walker.press(f"{conditions.YES_RECORD}: A new hip").sees(re.compile("^Ms Field, physiotherapist said on"))


def test_erasing_asks_twice(person_at: PersonAt, data: Path) -> None:
    """Then the device begins anew."""
    with person_at(data, "/settings/erase") as walker:
        walker.press(settings.ERASE_DEVICE).sees_heading(settings.ERASE_HEAD).press(client.CANCEL)
        walker.press(settings.ERASE_DEVICE, settings.ERASE_NOW).sees_heading(welcome.TITLE)


def test_the_rules_stand_in_columns_on_a_wide_page(person_at: PersonAt, data: Path) -> None:
    """Each row under its heads."""
    with person_at(data, "/why", size=DESKTOP) as walker:
        walker.press("What each answer does").sees(re.compile("4–5: a little less"))
