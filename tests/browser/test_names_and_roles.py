"""What the tree of controls says is what Chromium's accessibility tree says: names and roles, on every address."""
from __future__ import annotations

import re
import shutil
from collections import Counter
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.driver import Walker
from tests.browser.prepared import MORNING
from tests.browser.server import Server
from tests.stories.addresses import EVERYBODY, addresses
from tests.stories.turns import Demo
from tests.tree.window import window

pytestmark = pytest.mark.browser

Said = Counter[tuple[str, str]]
#: Flutter draws one element for each node; a role stands in `role`, in the tag, or nowhere.
ROLES = """() => { const found = [];
  for (const e of document.querySelectorAll('flt-semantics-host flt-semantics')) {
    const own = e.querySelector(':scope > input, :scope > textarea, :scope > h1, :scope > h2, :scope > h3, ' +
                                ':scope > h4, :scope > h5, :scope > h6, :scope > span');
    const tag = (own ? own.tagName : e.tagName).toLowerCase();
    const role = e.getAttribute('role') ||
      (/^h[1-6]$/.test(tag) ? 'heading' : /input|textarea/.test(tag) ? 'textbox' : 'text');
    const name = e.getAttribute('aria-label') || (own && own.getAttribute('aria-label')) ||
      (own && own.tagName == 'SPAN' || /^h[1-6]$/.test(tag) ? own.textContent : '') ||
      ([...e.childNodes].filter(one => one.nodeType == 3).map(one => one.textContent).join(''));
    if (name && name.trim()) found.push([role, name]); }
  return found; }"""


def counted(found: Iterable[tuple[str, str]]) -> Said:
    """Each role with its name, however wide the spaces; folders of the two copies alike."""
    return Counter((role, re.sub(r"/\S*/data\b", "DATA", " ".join(name.split()))) for role, name in found)


@pytest.mark.whole(keep=1)
@pytest.mark.parametrize("name", EVERYBODY)
def test_the_tree_says_what_chromium_says(
        name: str, browser: Browser, demo_data: Path, serve: Callable[..., Server], tmp_path: Path) -> None:
    """Nothing more and nothing less, on a phone."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(name)
    server = serve(demo.data, "--began", MORNING.isoformat())
    apart: dict[str, list[Said]] = {}
    with window(demo.data, began=MORNING) as tree, Walker(browser) as walker:
        walker.open(server.address).says()
        for address in addresses(demo, name):
            tree.go(address)
            ours = counted((node.role, node.name) for node in tree.nodes() if node.name)
            walker.go(address)
            theirs = walker.until(lambda: counted(walker.page.evaluate(ROLES)), ours)
            if ours != theirs:
                apart[address] = [ours - theirs, theirs - ours]
    assert not apart, "\n".join(f"{at}: ours {mine}, Chromium's {its}" for at, (mine, its) in apart.items())
