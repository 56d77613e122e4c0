"""What axe finds on every address: nothing. It sees the accessibility tree that Flutter draws, not what is painted."""
from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from tests.browser.driver import Walker
from tests.browser.prepared import MORNING
from tests.browser.server import Server
from tests.sampling import is_whole
from tests.stories.addresses import EVERYBODY, addresses
from tests.stories.turns import Demo

pytestmark = pytest.mark.browser

#: The first button loses what it is called.
NAMELESS = """() => { const one = document.querySelector('flt-semantics[role="button"]');
  one.removeAttribute('aria-label'); one.replaceChildren(); }"""


def findings(walker: Walker) -> list[str]:
    """Rule, impact and element of each finding on the page as it stands."""
    return [f"{one['id']} ({one['impact']}): {node['html'][:200]}"
            for one in Axe().run(walker.page).response["violations"] for node in one["nodes"]]


@pytest.mark.whole(keep=1)
@pytest.mark.parametrize("name", EVERYBODY)
def test_axe_finds_nothing(
        name: str, browser: Browser, demo_data: Path, serve: Callable[..., Server], tmp_path: Path) -> None:
    """Of a sampled suite on every third address. A button without a name it does find, so it looks where they are."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(name)
    server = serve(demo.data, "--began", MORNING.isoformat())
    amiss: list[str] = []
    with Walker(browser) as walker:
        walker.open(server.address).says()
        for address in addresses(demo, name)[::1 if is_whole() else 3]:
            walker.go(address).says()
            amiss += [f"{address}: {one}" for one in findings(walker)]
        walker.page.evaluate(NAMELESS)
        assert any("aria-command-name" in one for one in findings(walker))
    assert not amiss, "\n".join(amiss)
