"""A session outlives its page: a reload, a second window, a server that was restarted, a lid closed for an hour."""
from __future__ import annotations

import json
import re
import shutil
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.actions import people
from app.device.clock import SystemClock
from app.domain.model.person import Person
from app.storage import people as stored_people
from app.storage import records
from app.storage.database import open_store
from app.words.client import events, pauses
from app.words.client import player as says
from app.words.client import today as client
from tests.browser.count import watch
from tests.browser.driver import Walker
from tests.browser.server import Server
from tests.browser.session import Session
from tests.stories.kept import kept_sessions

pytestmark = pytest.mark.browser

Serve = Callable[..., Server]
GO_ON = re.compile("^Carry on from minute")
PAGE_CLOSED = re.compile("^The (session was paused when its page|app) was closed")


def begun(walker: Walker, server: Server) -> Session:
    """A session in its first work."""
    session = Session(walker.open(server.at("/play")))
    session.start()
    session.until(lambda s: s.kind == "Work")
    return session


@pytest.mark.whole(keep=0)
def test_a_reloaded_page_goes_on_where_it_was(browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """It asks first, and nothing of the time between counts."""
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as walker:
        session = begun(walker, server)
        time.sleep(1.5)
        before = session.now()
        walker.page.reload()
        walker.listen().sees(says.CAME_BACK, pauses.NOT_COUNTED)
        time.sleep(2)
        walker.press(GO_ON).sees(re.compile("left$"))
        watch(walker.page)
        seen = Session(walker).until(lambda s: s.kind == "Work")
        assert seen.about == before.about and before.left_s - 2 <= seen.left_s <= before.left_s


@pytest.mark.whole(keep=0)
def test_two_windows_never_lead_one_session(browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """The second says so and may take over; then the first says so. What is done is counted once."""
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as first, Walker(browser) as second:
        begun(first, server)
        second.open(server.at("/play")).sees_heading(pauses.ELSEWHERE).sees_button(pauses.LEAVE_IT)
        first.sees_button(says.PAUSE)
        second.press(pauses.TAKE_OVER).sees(says.CAME_BACK).press(GO_ON).sees_button(says.PAUSE)
        first.sees_heading(pauses.ELSEWHERE)
        first.key("ArrowRight").sees_heading(pauses.ELSEWHERE)
        second.press(says.PAUSE, says.END, re.compile("^Enough for today")).sees(re.compile("How hard was it"))
        first.press(pauses.TAKE_OVER).sees(client.DONE_HEAD)
    assert len(kept_sessions(tmp_path / "data")) == 1


@pytest.mark.whole(keep=0)
def test_two_windows_before_the_start_begin_one_session(
        browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """Start in the second one leads to the session that the first began."""
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as first, Walker(browser) as second:
        second.open(server.at("/play")).sees_heading(says.BEFORE)
        begun(first, server)
        second.press(says.START).sees_heading(pauses.ELSEWHERE)
        second.press(pauses.LEAVE_IT).sees_heading(client.GOING_ON_HEAD[0])
        first.sees_button(says.PAUSE)


@pytest.mark.whole(keep=0)
def test_a_window_that_was_closed_leaves_the_session_to_the_next(
        browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """Nobody has to take anything over."""
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as first:
        begun(first, server)
    with Walker(browser) as second:
        second.open(server.at("/play"))
        for _ in range(20):  # a busy machine notices a moment later that a page has gone
            if second.settle().words(says.CAME_BACK).count():
                break
            second.wait(1).go("/today").go("/play")
        second.sees(says.CAME_BACK, PAGE_CLOSED)


@pytest.mark.whole(keep=0)
def test_a_page_that_goes_late_leaves_the_session_to_the_one_that_was_just_opened(
        browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """As when a page is loaded again and the one before it is not gone yet. Its browser is loaded before: the session's
    page waits for some seconds only.
    """
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as second:
        second.open(server.at("/today"))
        with Walker(browser) as first:
            begun(first, server)
            second.go("/play", pauses.ELSEWHERE)
        second.sees(says.CAME_BACK).press(GO_ON).sees_button(says.PAUSE)


@pytest.mark.whole(keep=0)
def test_after_a_restart_of_the_server_it_asks_and_says_how_long(
        browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """The page finds the server again by itself, once its browser was let in: each start has a cookie of its own."""
    shutil.copytree(ready, tmp_path / "data")
    hands = tmp_path / "hands.json"
    server = serve(tmp_path / "data", "--hands", str(hands))
    with Walker(browser) as walker:
        session = begun(walker, server)
        before = session.now()
        server.stop()
        hands.write_text(json.dumps({"wall_s": 720, "mono_s": -5000}), "utf-8")
        server.start()
        walker.let_in(server.address)
        walker.sees(says.CAME_BACK, "The app was closed for 12 minutes.", pauses.NOT_COUNTED).forgive()
        walker.press(GO_ON).sees(re.compile(f"^Work, {re.escape(before.about.split(',')[0])}"))


HANDS = {
    "lid closed": ({"wall_s": 3600}, re.compile("slept for about an hour")),
    "lid closed where both clocks run on": ({"wall_s": 3600, "mono_s": 3600}, re.compile("paused for about an")),
    "clock put back": ({"wall_s": -7200}, re.compile("device’s clock was put back")),
}


@pytest.mark.whole(keep=0)
@pytest.mark.parametrize("case", HANDS)
def test_a_gap_is_asked_about_in_words(
        case: str, browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """It stands where it stood, says what happened, goes on by a tap, and invents nothing."""
    shutil.copytree(ready, tmp_path / "data")
    hands = tmp_path / "hands.json"
    server = serve(tmp_path / "data", "--hands", str(hands))
    moved, words = HANDS[case]
    with Walker(browser) as walker:
        before = begun(walker, server).now()
        hands.write_text(json.dumps(moved), "utf-8")
        walker.sees(says.CAME_BACK, words, pauses.NOT_COUNTED)
        walker.press(GO_ON).sees(re.compile("left$"))
        after = Session(walker).until(lambda s: s.about == before.about and s.kind == "Work")
        assert before.left_s - 3 <= after.left_s <= before.left_s
        walker.press(says.PAUSE, says.END, re.compile("^Something came up")).sees(re.compile("How hard was it"))
    done = kept_sessions(tmp_path / "data")[-1]
    assert done.took_s < 30 and sum(d.done_ms for d in done.done) < 25_000


@pytest.mark.whole(keep=0)
def test_another_time_zone_changes_nothing(browser: Browser, ready: Path, serve: Serve, tmp_path: Path) -> None:
    """The clocks go on; the record knows where it was kept."""
    shutil.copytree(ready, tmp_path / "data")
    hands = tmp_path / "hands.json"
    server = serve(tmp_path / "data", "--hands", str(hands))
    with Walker(browser) as walker:
        session = begun(walker, server)
        hands.write_text(json.dumps({"zone_min": 540}), "utf-8")
        time.sleep(1.5)
        assert session.now().kind == "Work" and not walker.button(GO_ON).count()
        walker.press(says.PAUSE, says.END, re.compile("^Enough for today")).sees(re.compile("How hard was it"))
    assert kept_sessions(tmp_path / "data")[-1].stamp.offset_min == 540


@pytest.mark.whole(keep=0)
def test_a_second_tab_knows_of_the_session_in_the_first(
    browser: Browser, ready: Path, serve: Serve, tmp_path: Path,
) -> None:
    """The session goes on in one of them; the other says that it is under way."""
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as walker:
        walker.open(server.at("/play")).press(says.START).sees(re.compile("left$"))
        first = walker.page
        walker.new_tab().open(server.at("/today")).sees(client.GOING_ON).sees_button(client.GO_ON)
        walker.page = first
        walker.sees_button(says.PAUSE).press(says.PAUSE).sees_button(says.GO_ON)


@pytest.mark.whole(keep=0)
def test_nothing_said_for_one_is_kept_for_another(
    browser: Browser, ready: Path, serve: Serve, tmp_path: Path,
) -> None:
    """Somebody else is chosen in another window while a goal is being written: theirs stays empty."""
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as walker:
        walker.open(server.at("/note/goal")).settle()
        if walker.button(events.GOAL_CHANGE).count():
            walker.press(events.GOAL_CHANGE)
        walker.write(events.GOAL_LABEL, "Dance at a wedding")
        store = open_store(tmp_path / "data")
        other = people.register(store, SystemClock(), Person("", "Otto Lind"))
        walker.press(events.GOAL_SAVE).settle()
        with store.read() as db:
            assert records.all_records(db, other.id) == ()
            assert stored_people.person(db, other.id) == other
        store.close()
