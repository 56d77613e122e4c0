"""What the tree of controls says is what Chromium's accessibility tree says: names and roles, on every address."""
from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.driver import Walker
from tests.browser.prepared import MORNING
from tests.browser.server import Server
from tests.sampling import is_whole
from tests.stories.addresses import EVERYBODY, addresses
from tests.stories.turns import Demo
from tests.tree.window import window

pytestmark = pytest.mark.browser

Said = Counter[tuple[str, str]]
#: Flutter draws one element for each node; a role stands in `role`, in the tag, or nowhere.
ROLES = """() => { const found = [];
  for (const e of document.querySelectorAll('flt-semantics-host :is(flt-semantics, h1, h2, h3, h4, h5, h6)')) {
    const own = e.querySelector(':scope > input, :scope > textarea, :scope > span');
    const role = e.getAttribute('role') || (/^H[1-6]$/.test(e.tagName) ? 'heading' :
      own && own.tagName != 'SPAN' ? 'textbox' : 'text');
    const name = e.getAttribute('aria-label') || (own && own.getAttribute('aria-label')) ||
      (own && own.tagName == 'SPAN' || role == 'heading' ? e.textContent : '') ||
      ([...e.childNodes].filter(one => one.nodeType == 3).map(one => one.textContent).join(''));
    if (name && name.trim()) found.push([role, name]); }
  return found; }"""


def counted(found: Iterable[tuple[str, str]]) -> Said:
    """Each role with its name, however wide the spaces."""
    return Counter((role, " ".join(name.split())) for role, name in found)


def seen(walker: Walker) -> Said:
    """What Chromium says, without the name of the whole page: Flutter calls it by its first heading."""
    said = counted(walker.page.evaluate(ROLES))
    return said - Counter(("group", name) for role, name in list(said) if role == "heading")


@pytest.mark.whole(keep=1)
@pytest.mark.parametrize("name", EVERYBODY)
def test_the_tree_says_what_chromium_says(
        name: str, browser: Browser, demo_data: Path, serve: Callable[..., Server], tmp_path: Path) -> None:
    """Nothing more and nothing less, on a phone; of a sampled suite every third address."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(name)
    server = serve(demo.data, "--began", MORNING.isoformat())
    apart: dict[str, list[Said]] = {}
    with window(demo.data, began=MORNING) as tree, Walker(browser) as walker:
        walker.open(server.address).says()
        for address in addresses(demo, name)[::1 if is_whole() else 3]:
            tree.go(address)
            ours = counted((node.role, node.name) for node in tree.nodes() if node.name)
            walker.go(address)
            theirs = walker.until(lambda: seen(walker), ours)
            if ours != theirs:
                apart[address] = [ours - theirs, theirs - ours]
    assert not apart, "\n".join(f"{at}: ours {mine}, Chromium's {its}" for at, (mine, its) in apart.items())
