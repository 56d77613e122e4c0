"""What keeps Start locked, what is left out, what is refused, and the settings."""
from __future__ import annotations

import json
import re
import shutil
import sqlite3
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.stories import steps
from tests.stories.person import Person, PersonAt


@pytest.fixture
def data(following: Path, tmp_path: Path) -> Path:
    """Somebody who follows a programme and has answered nothing today."""
    return Path(shutil.copytree(following, tmp_path / "data"))


def to_the_stop_questions(walker: Person) -> Person:
    """A newcomer with a chair and dumbbells, an old shoulder and nothing else."""
    walker.press("I train").write("Your name", "Ines").press("Next")
    walker.write("Country, if you like", "UK").tick("This is the number to call here").press("Next")
    walker.sees_heading("Does any of this apply to you?").press("Next")
    walker.press("Left shoulder", "Left shoulder: a little is fine", "Next")
    walker.tick("A firm chair", "Dumbbells").write("Which weights?", "2, 4").press("Next")
    return walker.press("Alone: No", "Up from the floor without help: Yes", "Next")


def open_pack(walker: Person, pack: Path) -> Person:
    """The first file of a coach, words compared."""
    walker.choose_file("Choose the file", pack).sees_heading("Is it really from them?")
    return walker.press("The same").sees(re.compile("programme is now on this device")).press("Back to today")


def answer_well(walker: Person) -> Person:
    """Nothing hurts and the night was good."""
    walker.press("Anything new or worrying: No", "Next", "Nothing hurts", "Next", "No achy muscles", "Next")
    return walker.press("Slept 4 of 5", "Energy 4 of 5", "Settled 4 of 5", "Done")


def test_start_stays_locked_until_a_yes(person_at: PersonAt, tmp_path: Path, pack: Path) -> None:
    """Somebody who ticked a recent operation is kept, and told whom to ask."""
    with person_at(tmp_path / "data") as walker:
        to_the_stop_questions(walker).tick("A recent operation").press("Next").sees_heading("Do not start yet")
        walker.sees_heading("What comes next").sees_button(re.compile("^Call "))
        walker.press("Next", "Finish")
        open_pack(walker, pack).sees_heading("Waiting for a go-ahead")
        walker.sees_no_button("Start")
        walker.press("Record the go-ahead", "Record this go-ahead").sees("Please choose their profession.")
        walker.press("A doctor", "Record this go-ahead").sees("Please write their name.")
        walker.write("Their name", "Dr Moss").tick("I asked them about training after this")
        walker.press("Record this go-ahead").sees_button("Start")


def test_somebody_on_blood_thinners_may_start_with_settings(person_at: PersonAt, tmp_path: Path, pack: Path) -> None:
    """The outcome names what was set and what follows; Start is open, and the condition stands in the settings."""
    with person_at(tmp_path / "data") as walker:
        to_the_stop_questions(walker).sees_heading("Dizziness, fainting and falls")
        walker.tick("Medicine that thins the blood").press("Next")
        walker.sees_heading("You can start, and we’ll fit your sessions to this").sees("Medicine that thins the blood")
        walker.sees(re.compile("Balance while holding on")).press("Next", "Finish")
        open_pack(walker, pack).sees_button("Start")
        walker.go("/settings/conditions").sees(re.compile("Medicine that thins the blood"))


def test_whoever_was_asked_the_older_questions_is_asked_the_new_ones_once(person_at: PersonAt, data: Path) -> None:
    """Above a session that can be started; afterwards the note is gone."""
    database = next(data.rglob("*.db"))
    with sqlite3.connect(database) as db:
        (payload,) = db.execute("SELECT payload FROM person").fetchone()
        told = json.loads(payload)
        del told["answered_list"]
        db.execute("UPDATE person SET payload = ?", (json.dumps(told),))
    db.close()
    with person_at(data, "/today") as walker:
        walker.sees(re.compile("few new questions")).sees_button("Start")
        walker.press("Answer the new questions").sees_heading("A few new questions")
        walker.sees_no_button("A recent operation").press("None of these", "Done", "Back to today")
        walker.sees_button("Start").sees_no_button("Answer the new questions")


@pytest.mark.in_chromium
def test_a_sign_of_an_emergency_ends_the_questions(person_at: PersonAt, data: Path) -> None:
    """The number is there at once; the way back leads over a yes, the stop questions and fresh answers."""
    with person_at(data) as walker:
        walker.press("Start", "Anything new or worrying: Yes").tick("Fainting, or nearly fainting")
        walker.sees("Call 999 now, or ask someone to.").press("Show me what to do")
        walker.sees_heading("Stop: this may be an emergency").sees_heading("Your coach doesn’t know yet.")
        walker.sees_no_button("Start").sees_button("Call 999").sees_button("Email odile@brackwater.example")
        walker.press("Record the go-ahead", "A nurse").write("Their name", "Ana")
        walker.tick("I asked them about training after this").press("Record this go-ahead",
                                                                    "Answer the safety questions")
        walker.press("None of these", "Done", "Back to today", "Answer the questions")
        answer_well(walker).sees(re.compile("the amount comes back step by step")).sees_button("Start")
        walker.press(steps.WHY).sees(re.compile("rounds? instead of"))


def test_a_damaged_file_and_a_strange_one_say_so(
        person_at: PersonAt, data: Path, tmp_path: Path, pack: Path) -> None:
    """And the programme that is here stays."""
    short, strange = tmp_path / "short.evenload-pack", tmp_path / "notes.txt"
    short.write_bytes(pack.read_bytes()[:-30])
    strange.write_text("hello")
    with person_at(data, "/programme") as walker:
        walker.choose_file("Choose the file", short).sees(re.compile("short.evenload-pack is damaged"))
        walker.choose_file("Choose the file", strange).sees(re.compile("notes.txt isn’t a programme"))
        walker.choose_file("Choose the file", pack).sees(re.compile("is signed by a key that is not Odile Marsh’s"))


def test_settings_places_and_taking_back(person_at: PersonAt, data: Path) -> None:
    """A place that is removed comes back; the inks change; one page of the welcome is answered anew."""
    with person_at(data, "/settings") as walker:
        walker.press("Light or dark: Dark", "Light or dark: Same as the device", "Voice: Yes")
        walker.press(re.compile("^Go easy on"), "Back", "Back: not at all", "Save")
        walker.sees(re.compile("Back: no load at all"))
        walker.press(re.compile("^Places")).write("Name of a new place", "Boathouse").press("Add this place")
        walker.press("Floor to lie on: No", "Done").sees(re.compile("No floor to lie on"))
        walker.press(re.compile("^Boathouse"), "Remove this place").sees(re.compile("“Boathouse” is removed"))
        walker.press("Undo").sees_button(re.compile("^Boathouse"))


def test_a_clock_behind_the_diary_is_said(person_at: PersonAt, ready: Path, tmp_path: Path) -> None:
    """This morning's answers are there, and the device thinks that it is the day before yesterday."""
    data = Path(shutil.copytree(ready, tmp_path / "data"))
    with person_at(data, began=datetime.now().astimezone() - timedelta(days=2)) as walker:
        walker.sees(re.compile("^This device says that it’s .*, but your newest entry was made on "))


def test_the_plan_shows_every_week_and_opens_the_one_that_is_pressed(person_at: PersonAt, data: Path) -> None:
    """The week that one is in stands open; another takes its place."""
    with person_at(data, "/plan") as walker:
        walker.sees(re.compile("^Week 1 of 8")).sees_chosen("Week 1: 0 of 3 done, now")
        walker.sees_heading("Week 1").press("Week 4: 0 of 3 done, lighter").sees_heading("Week 4")
        walker.sees_button(re.compile("^Week 4, session 1: "))
