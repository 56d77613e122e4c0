"""What somebody in the United States reads and hears of the app is in their English; elsewhere nothing is."""
from __future__ import annotations

import re
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from app.actions.appearance import English, choose_english, is_american
from app.actions.people import change_person, current_person
from app.storage.database import open_store
from app.words.client import settings, welcome
from app.words.client import today as client
from app.words.english import AMERICAN
from tests.browser.prepared import MORNING
from tests.stories.addresses import COACH, MAUD, addresses
from tests.stories.turns import Demo
from tests.tree.window import window

BRITISH = re.compile(r"(?<![\w-])(" + "|".join(map(re.escape, AMERICAN)) + r")(?![\w-])", re.IGNORECASE)


@pytest.fixture
def demo(demo_data: Path, tmp_path: Path) -> Demo:
    """A copy of one's own."""
    return Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))


def british(demo: Demo, name: str) -> list[str]:
    """Every British word on any page."""
    found: list[str] = []
    with window(demo.data, began=MORNING) as walker:
        for address in addresses(demo, name):
            said = "\n".join(node.name for node in walker.go(address).nodes() if node.name)
            found += [f"{address}: {one[0]}" for one in BRITISH.finditer(said)]
    return found


@pytest.mark.whole(keep=1)
@pytest.mark.parametrize("name", [MAUD, COACH])
def test_no_page_says_a_british_word_once_american_is_chosen(name: str, demo: Demo) -> None:
    """Names of drawings and of buttons among them; without the choice there are many."""
    demo.turn_of(name)
    assert len(british(demo, name)) > 5
    store = open_store(demo.data)
    choose_english(store, English.AMERICAN)
    store.close()
    assert british(demo, name) == []


def test_a_country_chooses_and_the_setting_overrules_it(demo: Demo) -> None:
    """Over a new start too."""
    demo.turn_of(MAUD)
    store = open_store(demo.data)
    maud = current_person(store)
    assert maud is not None and not is_american(store)
    change_person(store, replace(maud, country="USA"))
    assert is_american(store)
    store.close()
    with window(demo.data, began=MORNING) as walker:
        walker.go("/settings")
        walker.sees_chosen(f"{settings.ENGLISH}: {settings.ENGLISHES['']}")
        walker.sees(re.compile("kitchen counter")).choose(f"{settings.ENGLISH}: {settings.ENGLISHES['british']}")
        walker.sees(re.compile("kitchen worktop"))
    with window(demo.data, began=MORNING) as walker:
        walker.go("/settings")
        walker.sees(re.compile("kitchen worktop"))
        assert not [line for line in walker.says() if "kitchen counter" in line]


def test_a_country_chooses_the_unit_of_weights_in_the_welcome(tmp_path: Path) -> None:
    """And the person may choose the other one."""
    with window(tmp_path / "new") as walker:
        walker.press(welcome.TRAIN).write(welcome.NAME[0], "Nora Lind").write(re.compile(welcome.BORN[0]), "1957")
        walker.press(client.NEXT).write(welcome.COUNTRY, "United States").tick(welcome.NUMBER_RIGHT).press(client.NEXT)
        walker.press(client.NEXT, client.NEXT).tick(welcome.KIT["dumbbell"])
        units = dict(welcome.UNITS)
        walker.sees_chosen(units[True]).choose(units[False]).sees_chosen(units[False])
