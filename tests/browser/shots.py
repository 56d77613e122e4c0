"""Pictures of every screen: python -m tests.browser.shots FOLDER, or `python3 build/dev.py shots FOLDER`.

The demo's story ends on one certain morning and the server's clock hardly moves, so that each run gives the same
pictures. Names say role, screen, width and ink: client-today-412-light.png.
"""
from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from app.domain.model.plan import Part, Step, StepKind
from app.words import parts
from app.words.client import check_in, diary, hurts, player, stop_questions, welcome
from app.words.client import today as client
from tests.browser.count import watch
from tests.browser.driver import DESKTOP, LYING, PHONE, Walker
from tests.browser.prepared import MORNING, SOURCE, prepare
from tests.browser.server import ROOT, Server
from tests.browser.session import Session
from tests.browser.window import launch
from tests.stories import steps
from tests.stories.turns import COACH, KASIMIR, MAUD, RUBEN, Demo

#: How fast the server's clock runs while pictures are taken: a second of the count stays for a minute.
STILL = "0.02"
WORK = player.kind_word(Step(StepKind.WORK, Part.MAIN, 0, 0))
GO_ON_FROM = re.compile("^Carry on from minute")
SETTINGS = ("names", "conditions", "spare", "kit", "around", "emergency", "sends", "places", "erase")


class Album:
    """Where pictures go, and how often each page is taken."""

    def __init__(self, folder: Path, role: str, walker: Walker) -> None:
        self.folder, self.role, self.walker = folder, role, walker

    def shot(self, screen: str, *, further: bool = False) -> None:
        """The page as it stands now at both sizes and in both inks; `further` adds large print and a phone lying."""
        looks = [(PHONE, False, False), (PHONE, True, False), (DESKTOP, True, False), (DESKTOP, False, False)]
        looks += [(PHONE, False, True), (DESKTOP, False, True), (LYING, False, False)] if further else []
        self.walker.page.get_by_role("heading").first.wait_for(state="attached", timeout=60_000)  # no page without one
        self.walker.settle()
        for size, dark, large in looks:
            name = f"{self.role}-{screen}-{size[0]}-{'dark' if dark else 'light'}{'-large' if large else ''}.png"
            self.walker.look(size, dark=dark, large_print=large).is_well().picture(self.folder / name)
        self.walker.look(PHONE)

    def visit(self, address: str, screen: str = "", *, further: bool = False) -> None:
        """Goes there and takes it."""
        self.walker.go(address).says()
        self.shot(screen or address.strip("/").replace("/", "-"), further=further)


@contextmanager
def album(browser: Browser, folder: Path, role: str, server: Server, path: str = "/") -> Iterator[Album]:
    """A window of its own, at an address."""
    with Walker(browser) as walker:
        walker.open(server.at(path)).settle().says()
        yield Album(folder, role, walker)


def newcomer(book: Album, pack: Path) -> None:
    """The welcome page by page, and the coach's programme."""
    walker = book.walker
    book.shot("welcome", further=True)
    for screen, onward in WELCOME:
        onward(walker)
        book.shot(screen)
    walker.press(welcome.FINISH).sees_heading(client.PROGRAMME_TITLE)
    book.shot("programme-none")
    walker.choose_file(client.PICK_FILE, pack).sees_heading(client.MATCH_HEAD)
    book.shot("programme-words")
    walker.press(client.SAME).sees(re.compile("’s programme is now on this device"))
    book.shot("programme")
    walker.press(client.TO_TODAY).sees_button(client.START)
    book.shot("today-first")
    for empty in ("/diary", "/plan", "/send"):
        book.visit(empty, f"{empty[1:]}-first")


def _named(walker: Walker) -> None:
    walker.write(welcome.NAME[0], "Nora Lind").write(re.compile(welcome.BORN[0]), "1957").press(client.NEXT)


def _equipped(walker: Walker) -> None:
    walker.tick(*(welcome.KIT[kit] for kit in ("chair", "worktop", "dumbbell"))).write(welcome.WEIGHTS, "2, 4")


def _surrounded(walker: Walker) -> None:
    walker.choose(parts.answer(welcome.ALONE_SHORT, parts.YES), parts.answer(welcome.RISES_SHORT, parts.YES))


def _spared(walker: Walker) -> None:
    walker.press(client.NEXT, "Left shoulder").choose("Left shoulder: a little is fine")


#: Page of the welcome → what leads to it, or what is done on it before it is taken.
WELCOME: tuple[tuple[str, Callable[[Walker], object]], ...] = (
    ("welcome-name", lambda w: w.press(welcome.TRAIN).sees(welcome.NAMES_HEAD[0])),
    ("welcome-number", _named),
    ("welcome-conditions", lambda w: w.tick(welcome.NUMBER_RIGHT).press(client.NEXT)),
    ("welcome-spare", _spared),
    ("welcome-kit", lambda w: _equipped(w.press(client.NEXT))),
    ("welcome-around", lambda w: _surrounded(w.press(client.NEXT))),
    ("welcome-stops", lambda w: w.press(client.NEXT).choose(stop_questions.NONE_OF_THESE)),
    ("welcome-outcome", lambda w: w.press(client.NEXT)),
    ("welcome-sends", lambda w: w.press(client.NEXT, welcome.ALL_OF_IT)),
)


def check_in_of(book: Album) -> None:
    """A morning with a sore hip, question by question, to today's card."""
    walker = book.walker
    walker.press(client.START).sees(check_in.ANYTHING_NEW[0])
    book.shot("check-in", further=True)
    walker.choose(parts.answer(check_in.ANYTHING_SHORT, parts.YES))
    book.shot("check-in-signs")
    walker.choose(parts.answer(check_in.ANYTHING_SHORT, parts.NO)).press(client.NEXT).sees(check_in.JOINTS[0])
    walker.press(re.compile("^Right hip")).choose(parts.of("Right hip", 4, 10)).sees_button(re.compile("^Right hip: 4"))
    book.shot("check-in-joints")
    walker.press(parts.BEHIND)
    book.shot("check-in-picture")
    walker.press(client.NEXT).settle()
    if walker.button(check_in.NOTHING_WORSE).count():
        book.shot("check-in-morning")
        walker.choose(check_in.NOTHING_WORSE).press(client.NEXT)
    walker.sees(check_in.MUSCLES[0]).choose(check_in.NO_ACHES).press(client.NEXT).sees(check_in.FEEL[0])
    walker.choose(*(parts.of(about, 4, 5) for about in (check_in.SLEPT, check_in.ENERGY, check_in.SETTLED)))
    book.shot("check-in-feel")
    walker.press(client.DONE)
    walker.sees_button(steps.WHY)


def to_the_work(book: Album) -> None:
    """From where the session stands to the next work, by the keyboard."""
    session = Session(book.walker)
    watch(book.walker.page)
    for _ in range(6):
        if session.now().kind == WORK:
            return
        book.walker.key("ArrowRight").settle()


def player_of(book: Album) -> None:
    """The player in the middle of a session, and everything that may lie over it."""
    walker = book.walker
    book.shot("play-asking")
    walker.press(GO_ON_FROM).sees(re.compile("left$"))
    to_the_work(book)
    book.shot("play", further=True)
    walker.key("ArrowRight").settle()
    book.shot("play-rest")
    to_the_work(book)
    walker.press(re.compile(f"^{player.EASIER}")).sees(re.compile("^From now on"))
    book.shot("play-easier")
    walker.press(player.PAUSE)
    for button, screen, back in ((player.STOP_SIGNS, "stop-signs", player.NONE_FIT),
                                 (player.END, "end", player.BACK_TO_SESSION)):
        walker.press(button).settle()
        book.shot(f"play-{screen}")
        walker.press(back)
    book.shot("play-paused")
    walker.press(player.HURTS).sees(player.SIT_DOWN)
    book.shot("play-hurts")
    walker.press(player.I_SIT).choose(parts.answer(player.GAVE_WAY, parts.NO))
    walker.press(hurts.ELSEWHERE, re.compile("^Right knee")).choose(parts.of("Right knee", 2, 10))
    book.shot("play-where")
    walker.press(player.TELL).sees(player.CHANGED)
    book.shot("play-changes")
    walker.press(player.GO_ON).settle()


def some_minutes(book: Album) -> None:
    """The session runs on to its main part."""
    minutes = book.walker.press(GO_ON_FROM).words(re.compile("; [789] minutes done"))
    minutes.wait_for(state="attached", timeout=120_000)
    book.walker.key("Space").sees_button(player.GO_ON)


def to_its_end(book: Album) -> None:
    """The session runs on to what is asked afterwards."""
    steps.run_to_the_end(book.walker.sees_button(GO_ON_FROM))


def afterwards(book: Album) -> None:
    """What is asked once it is over, and everything that somebody sees who trains alone."""
    walker = book.walker
    book.shot("afterwards", further=True)
    walker.choose(parts.of(diary.HOW_HARD_SHORT, 5, 10), diary.NOTHING_HURTS)
    walker.press(diary.SAVE).sees_heading(diary.KEPT)
    book.shot("afterwards-kept")
    book.visit("/today", "today-done")


def morning(book: Album) -> None:
    """The card as it was written, the check-in, the card after it, the look around, and the start."""
    book.shot("today-written")
    check_in_of(book)
    book.shot("today", further=True)
    book.walker.press(client.START).sees(re.compile("left$"))
    book.shot("play-set-up")


def client_side(browser: Browser, folder: Path, data: Path) -> None:
    """A day of somebody who trains alone. Between the pictures the session runs on a fast clock."""
    walks = ((0, STILL, "/today", morning), (5, "40", "/play", some_minutes), (15, STILL, "/play", player_of),
             (30, "80", "/play", to_its_end))
    for minutes, rate, path, walk in walks:
        began = MORNING + timedelta(minutes=minutes)
        with served(data, "--began", began.isoformat(), "--rate", rate) as server:
            Demo(server.data_dir).turn_of(MAUD)
            with album(browser, folder, "client", server, path) as book:
                walk(book)
    with served(data, "--began", (MORNING + timedelta(hours=1)).isoformat(), "--rate", STILL) as server:
        demo = Demo(server.data_dir)
        with album(browser, folder, "client", server, f"/afterwards/{demo.last_session(MAUD)}") as book:
            afterwards(book)
            everything_else(book, demo)


def everything_else(book: Album, demo: Demo) -> None:
    """The diary, the plan, sending, the settings."""
    book.visit("/diary", further=True)
    book.visit(f"/diary/{demo.last_session(MAUD)}", "diary-session")
    book.visit(f"/diary/{demo.last_check_in(MAUD)}", "diary-check-in")
    for address in ("/plan", "/send", "/programme", "/settings", "/who"):
        book.visit(address)
    for page in SETTINGS:
        book.visit(f"/settings/{page}")


def helper_side(book: Album, demo: Demo) -> None:
    """What is other for somebody who leads an older relative: a stop, and the yes that ends it."""
    book.shot("today-stopped", further=True)
    book.visit("/yes")
    book.visit("/send", "send-stopped")
    book.visit("/diary")
    book.visit(f"/diary/{demo.last_session(KASIMIR)}", "diary-stopped")


def coach_side(book: Album, demo: Demo) -> None:
    """The desk."""
    book.shot("desk", further=True)
    book.visit("/people")
    for name in (MAUD, KASIMIR, RUBEN):
        book.visit(f"/person/{demo.ids[name]}", f"person-{name.split()[0].lower()}", further=name == MAUD)
    book.visit("/publish")
    book.visit("/settings")


def take_all(browser: Browser, folder: Path, work: Path) -> None:
    """Every picture."""
    pack = work / "boathouse.evenload-pack"
    command = [sys.executable, "-m", "app.cli", "pack", str(SOURCE), "-o", str(pack), "--data", str(work / "coach")]
    subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    still = ["--began", MORNING.isoformat(), "--rate", STILL]
    with served(work / "new", *still) as server, album(browser, folder, "new", server) as book:
        newcomer(book, pack)
    data = prepare("demo", work / "demo")
    with served(data, *still) as server:
        demo = Demo(server.data_dir)
        for role, name, walk in (("coach", COACH, coach_side), ("helper", KASIMIR, helper_side)):
            demo.turn_of(name)
            with album(browser, folder, role, server) as book:
                walk(book, demo)
    client_side(browser, folder, data)


@contextmanager
def served(data_dir: Path, *more: str) -> Iterator[Server]:
    """The app on a data directory, ended afterwards."""
    data_dir.mkdir(parents=True, exist_ok=True)
    server = Server(data_dir, *more).start()
    try:
        yield server
    finally:
        server.stop()
    assert not server.complaints(), server.complaints()


def main(folder: Path) -> int:
    """Saves every picture; says how many."""
    path = os.environ.get("EVENLOAD_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome")
    assert path, "name a Chromium in EVENLOAD_BROWSER"
    with tempfile.TemporaryDirectory() as work, sync_playwright() as playwright:
        browser = launch(playwright, path)
        take_all(browser, folder, Path(work))
        browser.close()
    print(f"{len(list(folder.glob('*.png')))} pictures in {folder}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(Path(sys.argv[1])))
