"""What happens around the sessions, the checks and the rules, as somebody meets them."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.domain.dosing import events as e
from app.domain.model.record import FunctionalCheck
from app.words.client import checks, events, settings
from app.words.client import today as client
from tests.stories.person import PersonAt

HELD = checks.NAMES[FunctionalCheck.ONE_LEG_HELD]
#: What keeps whoever fell from training no longer than their head does.
LAST_THREE = ((e.THINNERS, "No"), (e.HURTS, "No"), (e.ROSE, "Yes"))
RATE = 4
"""Half a minute of a check takes so much less."""


@pytest.fixture
def data(ready: Path, tmp_path: Path) -> Path:
    """Somebody whose answers of this morning are in."""
    return Path(shutil.copytree(ready, tmp_path / "data"))


def test_a_fall_closes_start_and_its_undo_opens_it(person_at: PersonAt, data: Path) -> None:
    """The number is there as soon as the head is named; nothing is kept before all is answered."""
    with person_at(data, "/diary") as walker:
        walker.press("Add to the diary", "I fell", "A knock on the head: Yes")
        walker.sees("Call 999 now, or ask someone to.")
        walker.press("Save to the diary").sees("Please answer all four, so that we can say what to do next.")
        walker.press(*(f"{events.FALL_SHORT[one]}: {said}" for one, said in LAST_THREE))
        walker.press("Save to the diary").sees_heading("It’s in the diary.").sees_heading("Your coach doesn’t know "
                                                                                          "yet.")
        walker.press("Yes, hold on").sees(re.compile("From now on balance exercises"))
        walker.press("Undo").sees_heading("A fall").press("Go back", "Today").sees_button("Start")


def test_a_pause_and_a_walk_are_written_down(person_at: PersonAt, data: Path) -> None:
    """Today says so, and the week has its minutes."""
    with person_at(data, "/note") as walker:
        walker.press("I was active", "A walk", "30 minutes", "Save to the diary").sees("Active. A walk, 30 minutes.")
        walker.press("To the diary").sees("30 minutes of other activity.")
        walker.press("Add to the diary", "A break", "2 weeks", "Save to the diary", "Back to today")
        walker.sees(re.compile("You are on a break until")).press("End the break")
        walker.sees_no_button("End the break")


def test_a_session_is_put_on_another_day(person_at: PersonAt, data: Path) -> None:
    """The plan and today's card say which."""
    with person_at(data, "/plan") as walker:
        walker.press(re.compile("^Choose a day")).sees_heading("Which day?").choose("Tomorrow").press("Done")
        walker.sees(re.compile("^Planned for ")).press("Today").sees(re.compile("is planned for .* still be done"))


def test_the_chair_stand_is_tried_timed_and_kept(person_at: PersonAt, data: Path) -> None:
    """A try first; whether the hands pushed has to be said; the result stands in the list and in the diary."""
    name = "Up from the chair, half a minute"
    with person_at(data, "/checks", rate=RATE) as walker:
        walker.press(f"Do this check: {name}").write("Height of the seat, cm", "4").press("Next")
        walker.sees(re.compile("whole centimetres")).write("Height of the seat, cm", "44")
        walker.press("Next").sees_heading("First, a practice that doesn’t count")
        walker.press("I have tried it", "Start", "Count one").sees_heading("How many times were you fully up?")
        walker.press(re.compile("^One more than"), "Keep this result").sees("Please say whether you pushed up with "
                                                                            "your hands.")
        walker.press("Pushed with hands: No", "Keep this result").sees_heading("Kept in your diary.")
        walker.press("Back to the checks").sees("2 stands").press("Diary").sees(re.compile(f"^{name}"))


def test_something_wrong_in_a_check_keeps_nothing_of_it(person_at: PersonAt, data: Path) -> None:
    """One press; it says what to look for, and whom to call."""
    with person_at(data, "/checks/chair_stand", rate=RATE) as walker:
        walker.press("Next", "Something is wrong").sees_heading("Sit down and rest").sees(re.compile("999"))
        walker.press("Back to the checks").sees_button(re.compile("^Do this check"))


def test_balance_is_never_done_alone(person_at: PersonAt, data: Path) -> None:
    """Without somebody beside them there is no way on."""
    with person_at(data, "/checks/one_leg") as walker:
        walker.press("Someone is with me: No", "The left", "Next")
        walker.sees("Then leave it for another day. Please don’t do this one alone.")
        walker.sees_no_button("I have tried it")


def test_who_falls_is_given_the_supported_check_and_told_why(person_at: PersonAt, data: Path) -> None:
    """The one without a hold says what to do instead; the other wants company or a wall."""
    with person_at(data, "/settings/conditions") as walker:
        walker.press(re.compile("^Walking and balance")).tick(re.compile("^A fall in the last year")).press(client.SAVE)
        walker.sees_heading(settings.TITLE).go("/checks").sees(re.compile(f"Do “{HELD}” instead"))
        walker.press(f"Do this check: {HELD}")
        walker.press(f"{checks.WALL_SHORT}: No", "The left", "Next").sees(re.compile("a wall right beside you"))
        walker.sees_no_button("I have tried it").press(f"{checks.WALL_SHORT}: Yes", "Next")
        walker.sees_heading("First, a practice that doesn’t count")


def test_the_rules_can_be_read_from_todays_card(person_at: PersonAt, data: Path) -> None:
    """In plain words, with their sources."""
    with person_at(data, "/today") as walker:
        walker.press("Why? See all the rules").sees_heading("How we decide how much to do today")
        walker.press("What each answer does").sees(re.compile("4–5: a little less"))
        walker.press("All the rules", "Where the numbers come from").sees(re.compile("Silbernagel 2007"))
        walker.press("All the rules", "Back to today").sees_button("Start")
