"""Every address of every role: at both sizes, in both inks and in large print; by hand and by keyboard."""
from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.driver import DESKTOP, LYING, PHONE, Pressable, Walker
from tests.browser.prepared import MORNING
from tests.browser.server import Server
from tests.sampling import is_whole
from tests.stories.addresses import EVERYBODY, addresses
from tests.stories.turns import Demo
from tests.tree.window import window

pytestmark = pytest.mark.browser

LOOKS = tuple((size, dark, large) for large in (False, True) for dark in (False, True)
              for size in (PHONE, DESKTOP, LYING))
TALL = 12_000
"""Enough that a whole page is on the screen, px."""


@pytest.fixture(scope="module")
def server(demo_data: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """A copy of the demo, served to these tests."""
    folder = Path(shutil.copytree(demo_data, tmp_path_factory.mktemp("demo") / "data"))
    server = Server(folder, "--began", MORNING.isoformat()).start()
    yield server
    server.stop()
    assert not server.complaints()


@pytest.fixture(scope="module")
def demo(server: Server) -> Demo:
    """Whose turn it is there."""
    return Demo(server.data_dir)


def own_headings(demo: Demo, name: str) -> dict[str, str]:
    """The first heading of every address, read without a browser: what a page shows once it is really that one."""
    with window(demo.data, began=MORNING) as tree:
        return {address: next(node.name for node in tree.go(address).nodes() if node.role == "heading")
                for address in addresses(demo, name)}


def taken_in(look: int, addresses: list[str]) -> list[str]:
    """The addresses opened in a look: all, or, of a sampled suite, every third in one look and every look in turn."""
    if is_whole():
        return addresses
    return [one for at, one in enumerate(addresses[::3]) if look == at % len(LOOKS)]


@pytest.mark.whole(keep=1)
@pytest.mark.parametrize("looks", [(at,) for at in range(len(LOOKS))] if is_whole() else [tuple(range(len(LOOKS)))],
                         ids=str)
@pytest.mark.parametrize("name", EVERYBODY)
def test_every_address_opens_in_every_look(
    name: str, looks: tuple[int, ...], demo: Demo, server: Server, browser: Browser,
) -> None:
    """Something is said everywhere, and no error card shows."""
    demo.turn_of(name)
    own = own_headings(demo, name)
    with Walker(browser) as walker:
        walker.open(server.address).says()
        for at in looks:
            size, dark, large = LOOKS[at]
            walker.look(size, dark=dark, large_print=large)
            for address in taken_in(at, addresses(demo, name)):
                walker.go(address, own[address]).is_well().says()


@pytest.mark.whole(keep=0)
@pytest.mark.parametrize("width", [PHONE[0], DESKTOP[0]] if is_whole() else [PHONE[0]])
@pytest.mark.parametrize("name", EVERYBODY)
def test_whatever_can_be_pressed_is_large_and_named(
    name: str, width: int, demo: Demo, server: Server, browser: Browser,
) -> None:
    """48 px each way, within the page, with a name, also in large print."""
    demo.turn_of(name)
    own = own_headings(demo, name)
    amiss: list[str] = []
    with Walker(browser, size=(PHONE[0], TALL), scale=0.25) as walker:
        walker.open(server.address).says()
        for large in (False, True):
            walker.look((width, TALL), large_print=large)
            for address in addresses(demo, name):
                walker.go(address, own[address]).says()
                amiss += [f"{address} at {width}{', large print' if large else ''}: {wrong}"
                          for one in walker.pressables() if (wrong := what_is_wrong(one, width))]
    assert not amiss, "\n".join(amiss)


def what_is_wrong(one: Pressable, width: int) -> str:
    """What keeps it from being found or hit; empty for nothing."""
    if not one.name and one.role != "field":
        return f"a {one.role} without a name at {one.left:.0f}, {one.top:.0f}"
    if not one.is_large_enough:
        return f"“{one.name}” is {one.right - one.left:.0f} × {one.bottom - one.top:.0f}"
    if one.left < -0.5 or one.right > width + 0.5:
        return f"“{one.name}” reaches from {one.left:.0f} to {one.right:.0f}"
    return ""
