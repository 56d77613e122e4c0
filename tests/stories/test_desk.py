"""The coach's desk: what was dealt with, a message with a yes and limits, the keys, a source with faults."""
from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from app.actions.desk import publishing
from app.words import parts
from app.words.client import check_in, checks, events, send, welcome
from app.words.client import today as client
from app.words.coach import checks as coach_checks
from app.words.coach import desk, key_lock, publish, reply
from tests.browser.prepared import MORNING, SOURCE
from tests.stories import steps
from tests.stories.person import DESKTOP, PersonAt
from tests.stories.turns import COACH, KASIMIR, MAUD, RUBEN, Demo


@pytest.fixture
def demo(demo_data: Path, tmp_path: Path) -> Demo:
    """Six weeks of the coach's people; it is the coach's turn."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(COACH)
    return demo


@pytest.mark.in_chromium
def test_what_was_dealt_with_stays_until_one_leaves_and_comes_back_by_undo(person_at: PersonAt, demo: Demo) -> None:
    """In its place at once, in a list of its own later."""
    seen, undo = desk.act_on(desk.SEEN, RUBEN), desk.act_on(desk.UNDO, RUBEN)
    with person_at(demo.data, "/desk", began=MORNING, size=DESKTOP) as walker:
        walker.press(seen).sees(desk.marked(RUBEN, "seen", None)).press(undo).sees_button(seen)
        walker.press(seen).sees_button(undo).go("/people").sees_heading(desk.PEOPLE_TITLE)
        walker.go("/desk").sees_heading(re.compile(f"^{desk.DEALT_WITH}, ")).sees_no_button(seen)
        walker.press(undo).sees_button(seen)


def test_a_yes_and_limits_go_out_in_one_message(person_at: PersonAt, demo: Demo, tmp_path: Path) -> None:
    """Who said the yes is named; it counts as sent once the coach says so; the client reads it."""
    with person_at(demo.data, f"/person/{demo.ids[KASIMIR]}", began=MORNING, size=DESKTOP) as walker:
        walker.press(reply.YES_OPEN).sees_heading(reply.REPLY_HEAD).write(reply.YES_WHO, "Dr Moss")
        walker.choose(reply.PROFESSIONS["doctor"]).write(reply.MESSAGE, "Begin gently.")
        walker.choose("Knee", "Left", reply.CAPS[1]).press(reply.SEAL)
        walker.sees(reply.sealed(1, KASIMIR)).sees_heading(reply.SEALED_HEAD)
        with walker.download() as got:
            walker.press(reply.SAVE_FILE)
        got[0].save_as(tmp_path / "one.evenload-reply")
        walker.press(reply.sent_it(1)).sees_no_button(reply.sent_it(1))
    demo.turn_of(KASIMIR)
    with person_at(demo.data, "/send", began=MORNING) as walker:
        walker.choose_file(send.OPEN_FILE, tmp_path / "one.evenload-reply").sees(send.NEW)
        walker.sees("Begin gently.", re.compile("Dr Moss"))


def test_what_happened_between_sessions_stands_on_the_persons_page(person_at: PersonAt, demo: Demo) -> None:
    """A walk and a functional check beside the published bands; and a message goes to her without any yes."""
    demo.turn_of(MAUD)
    with person_at(demo.data, "/note/activity", began=MORNING) as walker:
        walker.press("A walk", "30 minutes", events.WRITE_DOWN).sees_heading(events.WRITTEN)
    with person_at(demo.data, "/check-in", began=MORNING, rate=4) as walker:
        for answer in (parts.answer(check_in.ANYTHING_SHORT, parts.NO), check_in.NOTHING_HURTS, check_in.NOTHING_WORSE,
                       check_in.NO_ACHES):
            walker.choose(answer).press(client.NEXT)
        walker.choose("Slept 4 of 5", "Energy 4 of 5", "Settled 4 of 5")
        walker.press("Done").sees_button(steps.WHY).go("/checks")
        walker.press(re.compile("^Do this check: Up from the chair"), "Next", "I have tried it")
        walker.press("Start", "Count one").sees_heading(checks.COUNT_HEAD).press("Pushed with hands: No",
                                                                                 "Keep this result")
        walker.sees_heading(checks.KEPT)
    demo.turn_of(COACH)
    with person_at(demo.data, f"/person/{demo.ids[MAUD]}", began=MORNING, size=DESKTOP) as walker:
        walker.sees_heading(events.COACH_HEAD).sees(re.compile("A walk, 30 minutes"), coach_checks.COACH_CAUTION)
        walker.press(reply.REPLY_OPEN)
        walker.press(reply.AXIS_ADD, reply.AXIS_KEEP).sees(reply.AXIS_LACKS)
        walker.choose("Gripping hard", "3 months").write(reply.AXIS_SAID_BY, "Dr Moss").press(reply.AXIS_KEEP)
        walker.sees(re.compile("^Gripping hard: light only; said by Dr Moss; to be reviewed from"))
        walker.choose("Hip", reply.CAPS[0]).press(reply.SEAL).sees(reply.sealed(1, MAUD))


def test_the_keys_of_a_lost_computer_come_back_by_their_words(person_at: PersonAt, demo: Demo, tmp_path: Path) -> None:
    """The sheet is shown, then kept on paper, then typed elsewhere."""
    sheet = publishing.recovery_sheet(demo.store)
    assert sheet
    with person_at(demo.data, "/publish", began=MORNING, size=DESKTOP) as walker:
        walker.press(publish.SHEET_SHOW).sees(f"1  {sheet[0]}").press(publish.SHEET_DONE).sees(publish.SHEET_SURE)
        walker.press(publish.SHEET_YES).sees(publish.SHEET_GONE)
    with person_at(tmp_path / "new", size=DESKTOP) as walker:
        walker.press(welcome.COACH).go("/publish").press(publish.RECOVER_OPEN)
        walker.write(publish.RECOVER_FIELD, " ".join(sheet)).press(publish.RECOVER)
        walker.sees(publish.RECOVERED, publish.SHEET_GONE)


def test_keys_under_a_passphrase_are_asked_for_once_and_come_out_again(person_at: PersonAt, demo: Demo) -> None:
    """The sheet is on paper first; two that differ lock nothing; the desk asks before it takes anything in."""
    phrase = "kettle plum ladder north"
    with person_at(demo.data, "/publish", began=MORNING, size=DESKTOP) as walker:
        walker.sees_no_button(key_lock.LOCK_OPEN)
        walker.press(publish.SHEET_DONE, publish.SHEET_YES).sees(publish.SHEET_GONE).press(key_lock.LOCK_OPEN)
        walker.write(key_lock.PASSPHRASE, phrase).write(key_lock.AGAIN, "another").press(key_lock.LOCK)
        walker.sees(key_lock.NOT_THE_SAME).write(key_lock.AGAIN, phrase).press(key_lock.LOCK)
        walker.sees_heading(key_lock.UNLOCKED_HEAD).press(key_lock.LOCK_NOW).sees(key_lock.LOCKED)
        walker.go("/desk").sees(key_lock.LOCKED).write(key_lock.PASSPHRASE, "kettle plum ladder south")
        walker.press(key_lock.UNLOCK).sees(re.compile("^That passphrase doesn’t unlock your keys"))
        walker.write(key_lock.PASSPHRASE, phrase).press(key_lock.UNLOCK).sees(desk.OPEN_RETURNS)
        walker.go("/publish").press(key_lock.REMOVE_OPEN).write(key_lock.PASSPHRASE, phrase).press(key_lock.REMOVE)
        walker.sees(key_lock.LOCK_OPEN)


def test_a_source_with_faults_is_kept_back_and_an_unreadable_one_is_named(person_at: PersonAt, demo: Demo) -> None:
    """What could hurt a client stands first; the sound one beside them can be saved."""
    own = demo.data / "sources"
    faulty = Path(shutil.copytree(SOURCE, own / "faulty"))
    for file in (faulty / "exercises").glob("*.toml"):
        hard = re.sub(r"^(deep_\w+_flexion) = 2$", r"\1 = 3", file.read_text("utf-8"), flags=re.MULTILINE)
        file.write_text(re.sub(r"\[\[exercise.easier\]\]\n(?:\w+ = .*\n)+", "", hard), "utf-8")
    (own / "unreadable").mkdir()
    (own / "unreadable" / "source.toml").write_text("id = ", "utf-8")
    with person_at(demo.data, "/publish", began=MORNING, size=DESKTOP) as walker:
        walker.sees_heading("unreadable").sees(publish.BLOCKS, publish.BLOCKED).sees_button(publish.SAVE_PROGRAMME)
