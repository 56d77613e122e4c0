"""What the screens do with files that must not get in, and with addresses and windows that nobody planned for."""
from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.storage.database import open_store
from app.storage.export import logical_dump
from app.words.client import diary, player, welcome
from app.words.client import today as client
from app.words.coach import desk as coach
from tests.browser.driver import DESKTOP, Walker
from tests.browser.hostile import PACKS, hostile
from tests.browser.prepared import MORNING, prepare
from tests.browser.server import ROOT, Server
from tests.browser.turns import COACH, MAUD, Demo

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def bad_files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of them."""
    return hostile(tmp_path_factory.mktemp("hostile"))


def dump(folder: Path) -> str:
    """Everything that is kept there."""
    store = open_store(folder)
    with store.read() as db:
        found = logical_dump(db)
    store.close()
    return found


def said_by_the_command(file: Path) -> str:
    """The sentence of `evenload check`, which the screen must say too."""
    command = [sys.executable, "-m", "app.cli", "check", str(file)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    return done.stderr.strip()


@pytest.mark.whole(keep=0)
def test_no_harmed_programme_gets_in(
    browser: Browser, bad_files: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """Each is refused with its own sentence, and the store holds what it held."""
    data = prepare("following", tmp_path / "data")
    server, before = serve(data), dump(data)
    sentences = set()
    with Walker(browser) as walker:
        walker.open(server.at("/programme")).sees_heading(client.PROGRAMME_TITLE)
        for name in PACKS:
            file = bad_files / f"{name}.evenload-pack"
            sentence = said_by_the_command(file)
            walker.choose_file(client.PICK_FILE, file).sees(sentence)
            assert dump(data) == before
            sentences.add(sentence)
    assert len(sentences) == len(PACKS)


def test_no_return_for_somebody_else_gets_in(
    browser: Browser, bad_files: Path, demo_data: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """The desk says so, and the store holds what it held."""
    data = tmp_path / "data"
    shutil.copytree(demo_data, data)
    server = serve(data, "--began", MORNING.isoformat())
    Demo(server).turn_of(COACH)
    before = dump(data)
    with Walker(browser, size=DESKTOP) as walker:
        walker.open(server.at("/desk")).sees_heading(coach.DESK_TITLE)
        walker.choose_file(coach.OPEN_RETURNS, bad_files / "foreign.evenload-return")
        walker.sees(coach.RESULTS, re.compile("foreign.evenload-return .*sealed"))
    assert dump(data) == before


def test_a_fresh_device_begins_with_the_welcome_whatever_the_address(
    browser: Browser, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """Nobody is here yet, so there is nothing else to show."""
    server = serve(tmp_path / "data")
    with Walker(browser) as walker:
        walker.open(server.at("/diary")).sees_heading(welcome.TITLE)
        for address in ("/desk", "/person/nobody", "/play", "/nowhere/at/all"):
            walker.go(address).sees_heading(welcome.TITLE)


@pytest.mark.whole(keep=0)
def test_addresses_that_lead_nowhere(
    browser: Browser, demo_data: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """A deep address opens at once; one that means nothing leads to a page that goes on, never to an error."""
    shutil.copytree(demo_data, tmp_path / "data")
    demo = Demo(serve(tmp_path / "data", "--began", MORNING.isoformat()))
    demo.turn_of(MAUD)
    with Walker(browser) as walker:
        walker.open(demo.server.at("/diary")).sees_heading(diary.TITLE)
        for address in ("/nowhere", "/today/no-such-session", "/afterwards/nothing", "/diary/nothing", "/desk",
                        "/settings/nothing", "/check-in/nothing", "/play", "/%00", "/today/%F0%9F%92%A5"):
            walker.go(address).is_well().says()
        demo.turn_of(COACH)
        for address in ("/person/nobody", "/person", "/today", "/play", "/nowhere"):
            walker.go(address).is_well().says()


@pytest.mark.whole(keep=0)
def test_a_second_tab_knows_of_the_session_in_the_first(
    browser: Browser, ready: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """The session goes on in one of them; the other says that it is under way."""
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as walker:
        walker.open(server.at("/play")).press(player.START).sees(re.compile("left$"))
        first = walker.page
        walker.new_tab().open(server.at("/today")).sees(client.GOING_ON).sees_button(client.GO_ON)
        walker.page = first
        walker.sees_button(player.PAUSE).press(player.PAUSE).sees_button(player.GO_ON)
