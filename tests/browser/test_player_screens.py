"""The player as it is seen: on a phone that stands or lies, on a desk, at 100 % and at 200 % of the text, from afar."""
from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from math import hypot
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.exchange.forms.source import read_source
from app.ui.client.player.distance_view import NAME_SHARE
from app.ui.parts.letter_widths import in_two_lines
from app.words.client import pauses
from app.words.client import player as says
from tests.browser.boxes import Box, overlaps, printed, seen, sticks_out
from tests.browser.count import Sight
from tests.browser.driver import DESKTOP, LYING, PHONE, Walker
from tests.browser.prepared import SOURCE
from tests.browser.server import Server
from tests.browser.session import Session

pytestmark = pytest.mark.browser

SLOW = "0.03"
"""So that a count stays for half a minute: it is looked at from many sides."""
SIDED = re.compile("^Hold, .*, (Left|Right)$")
COUNT = re.compile(r"^(\d+:)?\d+ left$")
LOOKS = tuple((size, large) for large in (False, True) for size in (PHONE, LYING, DESKTOP))
REACHABLE = (says.EASIER, says.SKIP, says.BACK, says.HURTS, says.STOP_SIGNS, says.END, says.GO_ON)
MM = hypot(*LYING) / (6 * 25.4)
"""CSS px to a millimetre on a phone of six inches across whose page is 915 × 412 px when it lies: 6.6."""


@pytest.fixture(scope="module")
def session(browser: Browser, ready: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Session]:
    """A session on a clock that hardly moves."""
    data = Path(shutil.copytree(ready, tmp_path_factory.mktemp("looks") / "data"))
    server = Server(data, "--rate", SLOW).start()
    try:
        with Walker(browser) as walker:
            under_way = Session(walker.open(server.at("/play")))
            under_way.start()
            yield under_way
    finally:
        server.stop()
    assert not server.complaints()


@pytest.fixture
def hold(session: Session) -> Session:
    """The same in a hold of one side that has an easier option: a skip over both sides, and back."""
    session.walker.look(PHONE)
    for _ in range(60):
        said = session.now().said
        if SIDED.search(said):
            return session
        skipped(session, "ArrowRight")
        if said.endswith(" next"):
            skipped(session, "ArrowLeft")
    raise AssertionError(f"no hold of one side; the page says {session.walker.spoken()}")


def skipped(session: Session, key: str) -> Sight:
    """What is seen after a key that moves the session."""
    before = session.now()
    session.walker.key(key)
    return session.until(partial(Sight.leaps_from, other=before))


def the(boxes: list[Box], words: re.Pattern[str]) -> Box:
    """The one that says this."""
    found = [box for box in boxes if words.search(box.words)]
    assert found, f"nothing says {words.pattern}: {[box.words for box in boxes]}"
    return found[0]


def whole(walker: Walker, size: tuple[int, int]) -> set[str]:
    """What is seen of which nothing is cut away, by what scrolls or by the page's end."""
    return {box.words for box in seen(walker) if box.height > box.whole - 1 and box.bottom <= size[1] + 0.5}


def scrolled_to(walker: Walker, name: str) -> Box:
    """What a button shows of itself once the wheel has been turned until it is seen whole, or for long enough."""
    size = walker.page.viewport_size
    assert size
    walker.page.mouse.move(size["width"] * 0.75, size["height"] * 0.5)
    found: list[Box] = []
    for turn in range(24):
        found = [box for box in seen(walker) if box.role == "button" and box.words.startswith(name)]
        if found and found[0].height >= 47.5:
            return found[0]
        walker.page.mouse.wheel(0, 80 if turn < 16 else -80)
        walker.settle()
    raise AssertionError(f"“{name}” is seen as {found}")


def named(session: Session) -> str:
    """The exercise, without its side."""
    return re.sub(", (Left|Right)$", "", session.now().about)


def test_a_presenters_remote_leads_it(session: Session) -> None:
    """Page down and up skip and go back, a full stop and B pause; up gives more rest, down is ready."""
    walker = session.walker
    for _ in range(20):
        if session.now().kind == "Rest":
            break
        skipped(session, "PageDown")
    walker.button(says.LONGER_REST).click(trial=True)
    rested = session.now()
    assert skipped(session, "ArrowUp").left_s >= rested.left_s + 13
    assert skipped(session, "ArrowDown").left_s <= 3
    for key in (".", "b"):
        walker.key(key).sees_button(says.GO_ON)
        walker.key(key).sees_button(says.PAUSE)
    assert skipped(session, "PageUp").kind in ("Work", "Hold")


@pytest.mark.parametrize("size", [PHONE, LYING, DESKTOP])
def test_what_comes_next_is_told_by_the_strip_and_in_words(hold: Session, size: tuple[int, int]) -> None:
    """As a drawing for who sees it, with its words for who does not."""
    walker = hold.walker.look(size)
    walker.sees(re.compile(r"^Time strip: \d+ minutes.* \d+ minutes? done"))
    assert not sticks_out(seen(walker), size[0])


@pytest.mark.parametrize("size", [PHONE, LYING, DESKTOP])
def test_the_numerals_are_as_tall_as_their_place_allows(hold: Session, size: tuple[int, int]) -> None:
    """A third of the page's lesser side in width, or more; the move's figure is larger than they are high."""
    walker = hold.walker.look(size)
    boxes = seen(walker)
    count = the(boxes, COUNT)
    assert min(size) * 0.34 < count.width and count.height > 90
    assert max(box.width for box in boxes if box.words.startswith("Figure")) > count.height


@pytest.mark.whole(keep=3)
@pytest.mark.parametrize(("size", "large"), LOOKS)
def test_every_button_can_be_reached(hold: Session, size: tuple[int, int], large: bool) -> None:
    """Each comes into view and lies under the finger, 48 px or more; what stops needs no scrolling. What one does
    standing still comes at a pause.
    """
    walker = hold.walker.look(size, large_print=large)
    stops = {says.HURTS, says.STOP_SIGNS, says.PAUSE}
    assert walker.until(lambda: stops & whole(walker, size), stops) == stops
    if pauses.DISTANCE_NAME in whole(walker, size):
        walker.button(pauses.DISTANCE_NAME).click(trial=True)
    walker.press(says.PAUSE).sees_button(says.GO_ON)
    for name in REACHABLE:
        box = scrolled_to(walker, name)
        assert box.width >= 47.5 and box.left >= -0.5 and box.right <= size[0] + 0.5
    walker.press(says.GO_ON).sees_button(says.PAUSE)


@pytest.mark.parametrize("size", [PHONE, LYING, DESKTOP])
def test_one_huge_target_pauses(hold: Session, size: tuple[int, int]) -> None:
    """A tap anywhere on the band; another one goes on."""
    walker = hold.walker.look(size)
    count = the(seen(walker), COUNT)
    for x, y, words in ((0.1, 0.9, says.GO_ON), (0.9, 0.5, says.PAUSE)):
        walker.page.mouse.click(count.left + x * count.width, count.top + y * count.height)
        walker.sees_button(words)


def test_the_large_view_reads_from_three_metres(hold: Session) -> None:
    """On a phone of six inches that lies: figures of 25 mm, capitals of 9 mm in two lines at most, in the picture."""
    walker = hold.walker.look(LYING)
    walker.press(pauses.DISTANCE_NAME).sees_button(pauses.CARD).settle().stands_still()
    boxes = seen(walker)
    figures = printed(walker, the(boxes, COUNT))
    assert figures.tallest / MM >= 25
    name = the(boxes, re.compile(f"^{re.escape(named(hold)[:12])}"))
    lines = printed(walker, name)
    assert 1 <= len(lines.rows) <= 2 and lines.tallest / MM >= 9
    top, bottom = lines.rows[0]
    first = replace(name, top=name.top + top - 2, bottom=name.top + bottom + 2)
    begins, ends = printed(walker, first).columns[0]
    capital = printed(walker, replace(first, left=name.left + begins - 2, right=name.left + ends + 1))
    assert capital.tallest / MM >= 9
    assert name.left >= 0 and name.right <= LYING[0] and name.bottom <= LYING[1]
    assert not overlaps([box for box in boxes if box.words != hold.now().said])
    walker.button(says.STOP_SIGNS).click(trial=True)
    walker.look(PHONE).sees_button(pauses.CARD)
    assert not sticks_out(seen(walker), PHONE[0])
    walker.press(pauses.CARD).sees_button(pauses.DISTANCE_NAME)


def test_every_shipped_name_is_tall_enough_from_three_metres() -> None:
    """From the top of a tall letter to the foot of a low one, 0.92 of the size."""
    for exercise in read_source(SOURCE).library().values():
        lines, ems = in_two_lines(exercise.name)
        size = min(NAME_SHARE * LYING[1], (LYING[0] - 32) / ems)
        assert len(lines) <= 2 and 0.92 * size / MM >= 9, exercise.name


@pytest.mark.whole(keep=0)
def test_what_it_waits_for_never_hides_the_answer(
        browser: Browser, alone: Path, serve: Callable[..., Server], tmp_path: Path) -> None:
    """At 200 % the tap that answers it stands whole, and so do “That hurts” and the stop signs. That the question does
    is seen moment by moment in `test_player_boxes.py`.
    """
    server = serve(Path(shutil.copytree(alone, tmp_path / "data")), "--rate", "8")
    with Walker(browser) as walker:
        session = Session(walker.open(server.at("/play")))
        session.start()

        def asks(was: str = "") -> bool:
            there = walker.button(pauses.ALL_RIGHT).count() or walker.words(pauses.ALL_RIGHT_WAITS).count()
            return bool(there) or (was != "" and session.now().said != was)

        for _ in range(120):
            if asks():
                break
            said = session.now().said  # one press more would answer it, so each is waited for
            walker.key("ArrowRight").until(partial(asks, said), True)
        walker.sees(pauses.ALL_RIGHT_WAITS)
        wanted = {pauses.ALL_RIGHT, says.HURTS, says.STOP_SIGNS}
        for size, large in LOOKS[3:5]:
            walker.look(size, large_print=large)
            assert walker.until(lambda size=size: wanted & whole(walker, size), wanted) == wanted, (size, large)
            assert any(pauses.ALL_RIGHT_WAITS in words for words in walker.spoken())
