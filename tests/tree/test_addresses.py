"""Every address of the demo, without a browser: something is said, under a heading, and nothing is amiss."""
from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.browser.prepared import MORNING
from tests.stories.addresses import EVERYBODY, addresses
from tests.stories.person import DESKTOP, PHONE
from tests.stories.turns import Demo
from tests.tree.driver import TreeWalker
from tests.tree.window import window


@pytest.fixture(scope="module")
def demo(demo_data: Path, tmp_path_factory: pytest.TempPathFactory) -> Demo:
    """A copy of it for these tests."""
    return Demo(Path(shutil.copytree(demo_data, tmp_path_factory.mktemp("demo") / "data")))


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desktop"])
@pytest.mark.parametrize("name", EVERYBODY)
def test_every_address_opens_under_a_heading(name: str, size: tuple[int, int], demo: Demo) -> None:
    """Whoever's turn it is, on a phone and on a desk. `is_well` holds that no live region holds a button."""
    demo.turn_of(name)
    with window(demo.data, began=MORNING, size=size) as walker:
        for address in addresses(demo, name):
            walker.go(address).is_well()
            assert len(walker.says()) > 1 and headings(walker), f"{address} says only {walker.spoken()}"


def headings(walker: TreeWalker) -> list[str]:
    """All that stand on the page."""
    return [node.name for node in walker.nodes() if node.role == "heading" and node.name]
