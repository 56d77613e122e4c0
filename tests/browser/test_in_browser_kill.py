"""`kill -9` to the browser in the middle of commits: it starts again, and what was told kept is there and sound."""
from __future__ import annotations

import random
import re
import sys
import time
from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from tests.browser.killed import Chromium
from tests.browser.lab import LAB_FILES, Lab
from tests.browser.static_site import StaticSite

pytestmark = [pytest.mark.browser, pytest.mark.skipif(not sys.platform.startswith("linux"), reason="needs /proc")]

ROUND = 100_000
#: Commits for ever, each told to the server once it is done. In odd rounds large ones, of many pages.
COMMIT = """
    import asyncio, js
    from app.storage import settings
    from app.storage.database import open_store
    store = open_store(where / "evenload.db")
    async def commit(start, large):
        for n in range(start, start + 100_000):
            with store.begin() as db:
                if large:
                    db.exec_driver_sql("PRAGMA cache_size = 20")
                    for part in range(8):
                        settings.save_setting(db, f"filler-{n % 5}-{part}", chr(97 + n % 26) * 60_000)
                settings.save_setting(db, "last", n)
                settings.save_setting(db, f"kept-{n}", n)
            await js.fetch(f"done/{n}")
    task = asyncio.ensure_future(commit(start, large))
"""
LOOK = """
    from app.storage import settings
    from app.storage.database import open_store
    from app.storage.schema import LINEAGE
    store = open_store(where / "evenload.db")
    with store.read() as db:
        kept = {int(name[5:]) for name in settings.settings(db) if name.startswith("kept-")}
        answer = json.dumps([db.exec_driver_sql("PRAGMA integrity_check").scalar(), sorted(kept),
                             settings.setting(db, "last", -1)])
"""
MOUNT = """
    from pathlib import Path
    from app.device.private_files import mount
    where = await mount("evenload", wait_s=10.0)
"""


@pytest.mark.whole(keep=0)
def test_nothing_that_was_kept_is_lost_when_the_browser_is_killed(
    playwright: Playwright, browser_path: str, web_app: Path, tmp_path: Path,
) -> None:
    """Twenty times in the whole run, half of them in commits of many pages; a commit is whole or not there at all."""
    chance, rounds = random.Random(20), 20
    with StaticSite({"/": web_app}, LAB_FILES) as site:
        for turn in range(rounds + 1):
            chromium, start = Chromium(playwright, browser_path, tmp_path / "profile"), turn * ROUND
            lab = Lab(chromium.context, site.address)
            lab.run(MOUNT)
            sound, kept, last = lab.run(LOOK)
            _assert_whole(sound, kept, last, _told(site))
            if turn < rounds:
                lab.run(COMMIT, start=start, large=bool(turn % 2))
                _wait_for(site, start, 3)
                time.sleep(chance.uniform(0, 0.4))
            chromium.kill()
    print(f"{rounds} kills, {len(_told(site))} commits acknowledged, {len(kept)} there, integrity {sound}")


def _assert_whole(sound: str, kept: list[int], last: int, told: list[int]) -> None:
    """Every commit that was told is there; beyond those at most the one that was not told any more, and it whole."""
    assert sound == "ok" and set(told) <= set(kept)
    assert last == max(kept, default=-1)
    for start in {n - n % ROUND for n in kept}:
        ours = [n for n in kept if n - n % ROUND == start]
        assert ours == list(range(start, start + len(ours)))
        assert ours[-1] <= max(n for n in told if n - n % ROUND == start) + 1


def _told(site: StaticSite) -> list[int]:
    return [int(found[1]) for path in list(site.asked) if (found := re.match(r"/done/(\d+)$", path))]


def _wait_for(site: StaticSite, start: int, count: int) -> None:
    end = time.monotonic() + 30
    while len([n for n in _told(site) if n >= start]) < count:
        assert time.monotonic() < end, "no commit was told"
        time.sleep(0.02)
