"""What a start loads before the first screen stands. In a browser, loading is most of what a start takes."""
from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from tests.browser.prepared import prepare
from tests.browser.server import ROOT

#: As `app.web` goes, short of a page: the store opened, the brand read, the card of today compiled, its screen loaded.
START = """
import asyncio, json, sys
from pathlib import Path
import app.web
from app.actions.files.bundled import take_bundled
from app.actions.people import current_person
from app.actions.training.today import today
from app.device.clock import SystemClock
from app.domain.branding.brand import EVENLOAD
from app.exchange.brands.ready_brand import read_ready_brand
from app.storage.database import copy_of_the_day, open_store
from app.ui.routes import screen_named
folder = Path(sys.argv[1])
brand, clock = read_ready_brand(folder / "brand.json"), SystemClock()
store = open_store(folder)
asyncio.run(take_bundled(store, clock, brand, ()))
card = today(store, clock, current_person(store).id)
assert card.timeline and brand == EVENLOAD
screen_named("today")
print(json.dumps(sorted(sys.modules)))
"""
#: Libraries, and rooms or families of ours, that the first screen does without.
LATER = ("pydantic", "pydantic_core", "alembic", "cryptography", "sqlalchemy.orm", "sqlalchemy.dialects.postgresql",
         "flet_lottie", "app.ui.coach", "app.ui.helper", "app.commands", "app.domain.figure",
         "app.domain.dosing.rulebook", "app.words.rules.", "app.words.coach.", "app.actions.files.programmes",
         "app.exchange.", "flet.controls.theme")
KEPT = {"app.exchange.brands", "app.exchange.brands.ready_brand"}


def test_what_is_not_on_the_first_screen_is_not_loaded_for_it(tmp_path: Path) -> None:
    """Neither the forms of files nor figures, migrations or another side's screens, for somebody with a programme."""
    from app.domain.branding.brand import EVENLOAD
    from app.exchange.brands.ready_brand import ready_brand

    prepare("following", tmp_path)
    (tmp_path / "brand.json").write_bytes(ready_brand(EVENLOAD))
    told = subprocess.run([sys.executable, "-c", START, str(tmp_path)], cwd=ROOT, check=True, capture_output=True,
                          text=True).stdout
    loaded = set(json.loads(told))
    assert {"app.ui.client.today.today_screen", "app.domain.compile.timeline", "sqlalchemy", "flet"} <= loaded
    assert sorted(name for name in loaded - KEPT if name.startswith(LATER)) == []


#: As a server and a browser's kept memory load ahead: what is next to a start, and the player.
LOADED_AHEAD = "import json, sys; from app.main import load_ahead; load_ahead(); print(json.dumps(sorted(sys.modules)))"
NOT_AHEAD = ("pydantic", "pydantic_core", "alembic", "cryptography", "app.exchange.crypto", "app.exchange.letters",
             "app.ui.coach")


def test_what_is_loaded_ahead_is_small() -> None:
    """A compiled library is 6 MiB of a server's memory, and none can be kept by a browser."""
    told = subprocess.run([sys.executable, "-c", LOADED_AHEAD], cwd=ROOT, check=True, capture_output=True,
                          text=True).stdout
    loaded = set(json.loads(told))
    assert {"app.ui.client.profile.welcome_screen", "app.ui.client.player.play_screen"} <= loaded
    assert sorted(name for name in loaded - KEPT if name.startswith(NOT_AHEAD)) == []
