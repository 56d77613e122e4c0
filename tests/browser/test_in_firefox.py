"""Firefox, an engine that shares nothing with Chromium: the offline story, and pictures that it once left empty."""
from __future__ import annotations

import io
import re
import shutil
from pathlib import Path

import pytest
from PIL import Image

from app.exchange.brands.brand_file import read_brand_files
from app.words.client import hand_over
from app.words.client import today as client
from app.words.coach import publish
from app.words.machine import start, web
from tests.browser.firefox import Firefox
from tests.browser.firefox_person import FirefoxPerson
from tests.browser.server import Server
from tests.browser.static_site import StaticSite
from tests.browser.web_app import BRANDS, make_web_app
from tests.browser.window import KNOWN_OUTSIDE
from tests.stories import steps
from tests.stories.person import DESKTOP
from tests.stories.turns import COACH, Demo
from tests.ui.coach.test_qr import read

pytestmark = [pytest.mark.browser, pytest.mark.firefox, pytest.mark.whole(keep=0)]

#: Counts in the page's own world how often it asked to be kept.
COUNT_ASKING = """document.documentElement.dataset.asked = 0;
  navigator.storage.persist = async () => { document.documentElement.dataset.asked++; return false; };"""
ASKED = "return Number(document.documentElement.dataset.asked)"
SETTLED = """const ready = await navigator.serviceWorker.ready;
  for (let i = 0; i < 900 && (ready.active?.state !== 'activated' || ready.installing); i++)
    await new Promise(done => setTimeout(done, 100));
  return ready.active?.state"""
NOTICE = """const notice = document.getElementById('not-started');
  return notice && !notice.hidden ? notice.innerText : ''"""


@pytest.fixture(scope="module")
def firefox_path() -> str:
    """The Firefox that these tests drive. Where there is none, `build/dev.py` leaves them out and says so."""
    found = next(filter(None, map(shutil.which, ("firefox-esr", "firefox"))), None)
    assert found, "no Firefox on this machine: -m 'not firefox' leaves these tests out"
    return found


def test_a_coach_s_code_can_be_read_from_the_screen(firefox_path: str, demo_data: Path, tmp_path: Path) -> None:
    """By a reader that is not ours. The client decodes it otherwise here than in Chromium."""
    demo = Demo(Path(shutil.copytree(demo_data, tmp_path / "data")))
    demo.turn_of(COACH)
    server = Server(demo.data).start()
    try:
        with Firefox(firefox_path, tmp_path / "profile", DESKTOP) as firefox:
            walker = FirefoxPerson(firefox).open(server.at("/publish")).sees_heading(publish.PUBLISH_TITLE)
            walker.press(hand_over.CODE_OPEN)
            seen = seen_of(walker, hand_over.code_name(hand_over.KEY_CODE))
            assert read(seen).startswith("evenload-key")
            assert not [said for said in firefox.complaints() if "CSP" in said and not KNOWN_OUTSIDE.search(said)]
    finally:
        server.stop()


def test_the_offline_app_from_the_first_start_to_a_session(firefox_path: str, tmp_path: Path) -> None:
    """Its picture is seen; the browser asks whether it may keep the records only when it was told to; without its
    host it starts, somebody is made, is still there after a restart, is asked how they are, and trains."""
    site = StaticSite({"/": make_web_app(tmp_path / "app", "saltmarsh")})
    picture = read_brand_files(BRANDS / "saltmarsh.toml").brand.picture
    assert picture
    with Firefox(firefox_path, tmp_path / "profile") as firefox:
        walker = FirefoxPerson(firefox).open(site.address)
        assert len(set(seen_of(walker, picture.words).getdata())) > 50, "the coach's picture is not drawn"
        assert firefox.js(SETTLED) == "activated"
        site.stop()
        walker.restart(site.address)
        firefox.within(COUNT_ASKING)
        steps.be_welcomed(walker, "Nora Lind", onto=web.KEEP_HEAD)
        assert firefox.js(ASKED) == 0
        walker.press(web.KEEP_ASK).sees_heading(client.PROGRAMME_TITLE)
        walker._until(lambda: firefox.js(ASKED) == 1, 10, "was not asked")
        walker.press(re.compile("^Six weeks at home")).press(client.TO_TODAY).sees(re.compile(f"^{client.START}$"))
        walker.restart(site.address).sees(re.compile(f"^{client.START}$")).press(client.START)
        steps.check_in_with(walker, "Left knee", 2)
        walker.press(client.START)
        before = minutes_left(walker)
        assert minutes_left(walker.wait(8)) != before, "the clock stands"
        walker.is_well()


def test_a_start_that_fails_says_so_and_offers_another(firefox_path: str, tmp_path: Path) -> None:
    """Where Python ends at once; a press on the button loads the page anew."""
    folder = make_web_app(tmp_path / "app", entry="raise RuntimeError('on purpose')")
    with StaticSite({"/": folder}) as site, Firefox(firefox_path, tmp_path / "profile") as firefox:
        firefox.go(site.address)
        walker = FirefoxPerson(firefox)
        walker._until(lambda: start.failed_head("Evenload") in firefox.js(NOTICE), 120, "no notice")
        assert start.FAILED in firefox.js(NOTICE) and web.TRY_AGAIN in firefox.js(NOTICE)
        firefox.js("document.documentElement.dataset.old = 'yes'")
        firefox.js("document.getElementById('start-again').click()")
        walker._until(lambda: firefox.js("return !document.documentElement.dataset.old && !!document.body"), 60,
                      "not loaded anew")


def seen_of(walker: FirefoxPerson, name: str) -> Image.Image:
    """What is seen where the picture of that name stands, once it was there for a moment."""
    walker.sees(name).wait(2.5)
    place = walker.found("[role=img]", name, scroll=True)
    assert place
    walker.wait(2)
    place = walker.found("[role=img]", name)
    assert place
    left, top = max(0, place["left"]), max(0, place["top"])
    whole = Image.open(io.BytesIO(walker.firefox.shot())).convert("RGB")
    return whole.crop((left, top, min(whole.width, left + place["width"]), min(whole.height, top + place["height"])))


def minutes_left(walker: FirefoxPerson) -> list[str]:
    """What the clock of the session says."""
    return [line for line in walker.sees(re.compile("left$")).spoken() if line.endswith("left")][:1]
