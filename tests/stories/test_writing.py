"""The coach writes a session: begins with what comes along, changes it, is told what to check, and finds it again."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.domain.bench.sheet_edits import Measure
from app.words.coach import desk
from app.words.coach.bench import session as words
from tests.browser.prepared import MORNING
from tests.stories.person import DESKTOP, PHONE, PersonAt
from tests.stories.turns import COACH, Demo

SESSION = "Dumbbell circuit"
MARCH = "March on the spot"


@pytest.fixture
def demo(demo_data: Path, tmp_path: Path) -> Demo:
    """The coach's turn."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(COACH)
    return demo


def test_a_session_is_changed_checked_fixed_and_found_again(person_at: PersonAt, demo: Demo) -> None:
    """With undo after the window was closed; a check goes by one press, and comes back by Undo."""
    with person_at(demo.data, "/desk", began=MORNING, size=DESKTOP) as walker:
        walker.press(desk.NAVIGATION["sessions"]).sees(words.EMPTY_HEAD).press(words.TAKE_OVER)
        walker.press(re.compile(f"^{SESSION}")).sees(words.NO_CHANGES, words.CHECKS_CLEAR)
        walker.write(words.field_of(MARCH, words.COUNTED[Measure.SECONDS]), "5").wait(2)
        walker.sees(re.compile("^Draft kept"), re.compile("^The warm-up is short"))
        walker.press(re.compile("^Fix 1: ")).wait(1).sees(words.CHECKS_CLEAR)
        walker.press(re.compile("^Undo: ")).wait(1).sees(re.compile("^The warm-up is short"))
    with person_at(demo.data, "/sessions", began=MORNING, size=DESKTOP) as walker:
        walker.press(re.compile(f"^{SESSION}.*{words.CHANGED}", re.DOTALL)).sees(re.compile("^The warm-up is short"))
        walker.press(re.compile(f"^Undo: .*{MARCH}")).wait(1).sees(words.CHECKS_CLEAR)
        walker.sees_button(re.compile(f"^Redo: .*{MARCH}"))


def test_a_new_session_is_written_in_words_on_a_phone(person_at: PersonAt, demo: Demo) -> None:
    """Lines are added, carried, doubled and taken out; what is not understood stays in the field."""
    with person_at(demo.data, "/sessions", began=MORNING, size=PHONE) as walker:
        walker.press(words.TAKE_OVER, words.NEW).sees(words.NO_NEW_NAME)
        walker.write(words.NEW_NAME, "Tuesday").press(words.NEW).sees(words.NOTHING_WRITTEN, words.EMPTY_BLOCK)
        line = re.compile("^Write the next exercise")
        walker.write(line, "zzz").sees(words.NOT_FOUND)
        walker.write(line, "march on 40 /15").press(re.compile(f"^{words.act_on(words.ADD, MARCH)}"))
        walker.sees(re.compile("^45 seconds, 1 exercise"))
        walker.press(words.opened(MARCH), words.act_on(words.SECOND, MARCH)).wait(1)
        walker.sees(words.field_of(words.line_name(MARCH, 2), words.REST))
        walker.press(words.act_on(words.UP, MARCH), words.act_on(words.MAY_GO, MARCH))
        walker.press(words.act_on(words.TAKE_OUT, MARCH)).wait(1).sees(re.compile("^Draft kept"))
        walker.press(words.BACK_NAME).sees(re.compile("^Tuesday"))


def test_two_windows_are_told_of_one_another(person_at: PersonAt, demo: Demo) -> None:
    """A session that is not there leads back."""
    with person_at(demo.data, "/sessions", began=MORNING, size=DESKTOP) as walker:
        walker.press(words.TAKE_OVER).go("/session/none").press(words.BACK).sees_heading(words.TITLE)
