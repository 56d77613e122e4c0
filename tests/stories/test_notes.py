"""What somebody writes down around the sessions, corrects and takes back."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.words import parts
from app.words.client import diary, events, today
from tests.browser.prepared import MORNING
from tests.stories.person import PersonAt
from tests.stories.turns import MAUD, Demo


@pytest.fixture
def data(ready: Path, tmp_path: Path) -> Path:
    """Somebody whose answers of this morning are in."""
    return Path(shutil.copytree(ready, tmp_path / "data"))


@pytest.fixture
def maud(demo_data: Path, tmp_path: Path) -> Demo:
    """Six weeks of somebody who trains alone; it is her turn."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "demo")))
    demo.turn_of(MAUD)
    return demo


def test_a_fever_closes_start_and_a_cold_makes_it_light(person_at: PersonAt, data: Path) -> None:
    """Whether there is a fever has to be said; a stop tells that the coach does not know."""
    with person_at(data, "/note/illness") as walker:
        walker.press(events.WRITE_DOWN).sees(events.ILL_MISSING)
        walker.press(parts.answer(events.ILL_FEVER_SHORT, parts.NO), "A cold or cough", events.WRITE_DOWN)
        walker.sees_heading(events.WRITTEN).sees(events.ILL_LIGHT[0]).press(events.UNDO)
        walker.press(parts.answer(events.ILL_FEVER_SHORT, parts.YES), events.WRITE_DOWN)
        walker.sees(events.ILL_STOPPED[0]).sees_heading("Your coach doesn’t know yet.")
        walker.go("/today").sees_heading(today.STOP_HEAD).sees_no_button(today.START)


def test_a_new_medicine_says_what_it_changes(person_at: PersonAt, data: Path) -> None:
    """One tap; what it changes of the sessions is said, and whom to ask."""
    kind, name = next((kind, name) for kind, name in events.MEDICINES.items() if kind in events.MEDICINE_NOW)
    with person_at(data, "/note/medicine") as walker:
        walker.press(name).sees(events.MEDICINE_NOW[kind], events.MEDICINE_ASK)
        walker.go("/diary").press(re.compile(f"^{events.NAMES['medicine']}")).sees(events.STAYS)


def test_a_goal_is_written_kept_and_reached(person_at: PersonAt, data: Path) -> None:
    """In own words; once it is reached another one is asked for."""
    with person_at(data, "/note/goal") as walker:
        walker.press(events.GOAL_SAVE).sees(events.GOAL_NONE)
        walker.write(events.GOAL_LABEL, "Carry the shopping upstairs").press(events.GOAL_SAVE)
        walker.sees_heading(events.WRITTEN).go("/note").go("/note/goal").sees("Carry the shopping upstairs")
        walker.sees_heading(events.GOAL_REVIEW_HEAD).press(events.GOAL_STILL).sees(events.GOAL_KEPT)
        walker.go("/note").go("/note/goal").press(events.GOAL_REACHED).sees(events.GOAL_REACHED_NEXT)


def test_an_answer_is_corrected_and_an_entry_taken_back(person_at: PersonAt, maud: Demo) -> None:
    """An older check-in decides nothing anew; an entry that is taken back asks first and comes back by Undo."""
    with person_at(maud.data, f"/diary/{maud.last_check_in(MAUD)}", began=MORNING) as walker:
        walker.press(diary.CHANGE).sees_heading(diary.CHANGE).sees(diary.ONLY_TODAYS)
        walker.press(parts.of(diary.SLEPT, 2, 5)).write(diary.NOTE, "Woke at four.").press(diary.SAVE)
        walker.sees("Woke at four.").sees(re.compile("2 out of 5"))
        walker.press(diary.TAKE_BACK).sees(diary.ASK_FIRST).press(diary.KEEP)
        walker.press(diary.TAKE_BACK).press(diary.TAKE_BACK).sees(diary.TAKEN_BACK).press(diary.UNDO)
        walker.sees("Woke at four.")
