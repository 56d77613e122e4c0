"""What the screens do with files that must not get in, and with addresses and windows that nobody planned for."""
from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from app.words.client import diary, welcome
from app.words.client import today as client
from app.words.coach import desk as coach
from tests.browser.hostile import PACKS, hostile
from tests.browser.prepared import MORNING
from tests.browser.server import ROOT
from tests.stories.kept import dump
from tests.stories.person import DESKTOP, PersonAt
from tests.stories.turns import COACH, MAUD, Demo


@pytest.fixture(scope="module")
def bad_files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of them."""
    return hostile(tmp_path_factory.mktemp("hostile"))


@pytest.fixture(scope="module")
def refusals(bad_files: Path) -> dict[str, str]:
    """What is said of each programme file that must not get in."""
    return {name: said_by_the_command(bad_files / f"{name}.evenload-pack") for name in PACKS}


def said_by_the_command(file: Path) -> str:
    """The sentence of `evenload check`, which the screen must say too."""
    command = [sys.executable, "-m", "app.cli", "check", str(file)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    return done.stderr.strip()


def test_no_harmed_programme_gets_in(
    person_at: PersonAt, bad_files: Path, refusals: dict[str, str], following: Path, tmp_path: Path,
) -> None:
    """Each is refused with its own sentence, and the store holds what it held."""
    data = Path(shutil.copytree(following, tmp_path / "data"))
    before = dump(data)
    with person_at(data, "/programme") as walker:
        walker.sees_heading(client.PROGRAMME_TITLE)
        for name, sentence in refusals.items():
            walker.choose_file(client.PICK_FILE, bad_files / f"{name}.evenload-pack").sees(sentence)
            assert dump(data) == before
    assert len(set(refusals.values())) == len(PACKS)


def test_no_return_for_somebody_else_gets_in(
    person_at: PersonAt, bad_files: Path, demo_data: Path, tmp_path: Path,
) -> None:
    """The desk says so, and the store holds what it held."""
    data = tmp_path / "data"
    shutil.copytree(demo_data, data)
    Demo(data).turn_of(COACH)
    before = dump(data)
    with person_at(data, "/desk", began=MORNING, size=DESKTOP) as walker:
        walker.sees_heading(coach.DESK_TITLE)
        walker.choose_file(coach.OPEN_RETURNS, bad_files / "foreign.evenload-return")
        walker.sees(coach.RESULTS, re.compile("foreign.evenload-return .*sealed"))
    assert dump(data) == before


def test_a_fresh_device_begins_with_the_welcome_whatever_the_address(
    person_at: PersonAt, tmp_path: Path,
) -> None:
    """Nobody is here yet, so there is nothing else to show."""
    with person_at(tmp_path / "data", "/diary") as walker:
        walker.sees_heading(welcome.TITLE)
        for address in ("/desk", "/person/nobody", "/play", "/nowhere/at/all"):
            walker.go(address).sees_heading(welcome.TITLE)


def test_addresses_that_lead_nowhere(person_at: PersonAt, demo_data: Path, tmp_path: Path) -> None:
    """A deep address opens at once; one that means nothing leads to a page that goes on, never to an error."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(MAUD)
    with person_at(demo.data, "/diary", began=MORNING) as walker:
        walker.sees_heading(diary.TITLE)
        for address in ("/nowhere", "/today/no-such-session", "/afterwards/nothing", "/diary/nothing", "/desk",
                        "/settings/nothing", "/check-in/nothing", "/play", "/%00", "/today/%F0%9F%92%A5"):
            walker.go(address).is_well().says()
        demo.turn_of(COACH)
        for address in ("/person/nobody", "/person", "/today", "/play", "/nowhere"):
            walker.go(address).is_well().says()
