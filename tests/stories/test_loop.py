"""The whole loop, by roles and names alone: from the coach's readable source to the coach's desk."""
from __future__ import annotations

import re
import subprocess
import sys
from datetime import datetime, time, timedelta
from pathlib import Path

from app.words import parts
from app.words.client import diary, send, welcome
from app.words.client import today as client
from app.words.coach import desk as coach
from tests.browser.prepared import SOURCE
from tests.browser.server import ROOT
from tests.stories import steps
from tests.stories.person import DESKTOP, Person, PersonAt

#: A session of a quarter of an hour is over within seconds, and the day of it does not end meanwhile.
RATE = 240


def yesterday_morning() -> datetime:
    """So that nothing of it lies in the future for the coach, whose clock is the machine's."""
    day = datetime.now().astimezone() - timedelta(days=1)
    return datetime.combine(day.date(), time(8, 0)).astimezone()


def build_pack(coach_dir: Path, pack: Path) -> str:
    """By the command, as a coach does it. The five words that the coach reads out."""
    command = [sys.executable, "-m", "app.cli", "pack", str(SOURCE), "-o", str(pack), "--data", str(coach_dir)]
    done = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True)
    told = re.search(r"read these words to them: ([a-z ]+)\.", done.stdout)
    assert told, done.stdout
    return told[1]


def test_from_the_source_to_the_desk(person_at: PersonAt, tmp_path: Path) -> None:
    """A new client trains on a sore knee; the coach sees who it was and why it was eased."""
    pack, sealed = tmp_path / "six weeks.evenload-pack", tmp_path / "nora.evenload-return"
    words = build_pack(tmp_path / "coach", pack)
    with person_at(tmp_path / "client", began=yesterday_morning(), rate=RATE) as walker:
        steps.be_welcomed(walker, "Nora Lind")
        steps.open_programme(walker, pack, words)
        train_on_a_sore_knee(walker)
        send_home(walker, sealed)
    with person_at(tmp_path / "coach", size=DESKTOP) as walker:
        walker.press(welcome.COACH).sees_heading(coach.DESK_TITLE)
        walker.choose_file(coach.OPEN_RETURNS, sealed)
        see_who_and_why(walker)


def train_on_a_sore_knee(walker: Person) -> None:
    """Check-in, the shorter session with its reasons, the player to its end, and what is asked afterwards."""
    written = steps.minutes_of_strip(walker)
    walker.press(client.START)
    steps.check_in_with(walker, "Left knee", 6)
    walker.sees(re.compile("^Your left knee hurts 6 out of 10 today"), re.compile("^A light session today"))
    walker.sees(re.compile("deep knee bends"))
    assert steps.minutes_of_strip(walker) < written
    steps.play_to_the_end(walker)
    walker.sees(diary.HOW_HARD).choose(parts.of(diary.HOW_HARD_SHORT, 5, 10), diary.SOMETHING_HURTS)
    walker.press("Left knee").choose(parts.of("Left knee", 5, 10))
    walker.write(diary.NOTE, "The knee held.").press(diary.SAVE).sees_heading(diary.KEPT)


def send_home(walker: Person, sealed: Path) -> None:
    """The return, as a file."""
    walker.press(send.send_to("Odile Marsh")).sees_heading(send.TITLE)
    with walker.download() as got:
        walker.press(send.SAVE_FILE)
    got[0].save_as(sealed)
    walker.sees(send.SAVED)
    assert got[0].suggested_filename.endswith(".evenload-return")


def see_who_and_why(walker: Person) -> None:
    """On the desk, and on the person's own page: planned over done, and why it was eased."""
    walker.sees(re.compile("^Left knee 6 out of 10 on ")).press("Nora Lind").sees_heading("Nora Lind")
    walker.sees(re.compile("^Level 4, a light session today"), re.compile("Your left knee hurts 6 out of 10 today"))
    walker.sees(re.compile("^Time strip: .* done: .* in full$"), "Pain afterwards: left knee 5")
    walker.sees(re.compile("The knee held"))
