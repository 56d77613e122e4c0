"""The offline web app with its host stopped and its network cut: everything that a client does goes on."""
from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.actions.desk import replying
from app.actions.desk.replying import ReplyDraft
from app.device.clock import SystemClock
from app.domain.model.body import parse_spot
from app.domain.player.clock_gaps import GAP_MS
from app.storage import people
from app.storage.database import open_store
from app.words import parts
from app.words.client import diary, player, send, settings, welcome
from app.words.client import today as client
from app.words.machine import web
from tests.browser.beyond import Beyond
from tests.browser.lab import natively
from tests.browser.offline import SETTLED, Visitor, fast_from
from tests.browser.server import ROOT
from tests.browser.static_site import StaticSite
from tests.browser.test_voice import OURS, SPOKEN
from tests.browser.web_app import make_web_app
from tests.stories import steps
from tests.stories.test_loop import build_pack, send_home, yesterday_morning

pytestmark = pytest.mark.browser

RATE = 60
#: Under a gap's length, so that nobody has to be asked.
MOST_MS = GAP_MS - 100


@pytest.mark.whole(keep=0)
@pytest.mark.parametrize("path", ["/studio-a/", "/"])
def test_a_whole_session_without_host_or_network(browser: Browser, path: str, tmp_path: Path) -> None:
    """First start, pack, check-in, session, return, the coach's reply, a new start: nobody is asked for anything.

    The coach's desk elsewhere opens the return, and what its reply says takes effect here. That the app works without
    the internet is said neither on the first visit nor on another with the host: only after a start without it.
    """
    pack, sealed, reply = (tmp_path / f"one.evenload-{kind}" for kind in ("pack", "return", "reply"))
    words = build_pack(tmp_path / "coach", pack)
    folder = make_web_app(tmp_path / "app", entry=fast_from(yesterday_morning(), RATE, MOST_MS))
    site = StaticSite({path: folder})
    with Beyond() as beyond, Visitor(browser, site.address + path[1:], proxy=beyond.address) as visitor:
        visitor.context.add_init_script(f"({SPOKEN})({json.dumps([OURS])})")
        for start in (visitor.visit, visitor.start_anew):
            start().sees(web.HERE)
            visitor.never_says(welcome.WORKS_ALONE)
        visitor.visit("#/settings").sees(web.NOT_TRIED)
        visitor.keep().cut_off(site)
        asked = len(site.asked)
        steps.be_welcomed(visitor.start_anew(), "Nora Lind")
        steps.open_programme(visitor, pack, words)
        visitor.press(client.SETTINGS).choose(parts.answer(settings.SENSES["speech"][0], parts.YES))
        visitor.never_says(settings.NO_VOICE)
        visitor.press(client.TO_TODAY).press(client.START)
        steps.check_in_with(visitor, "Left knee", 2)
        steps.play_to_the_end(visitor)
        spoken = [words for words, *_ in visitor.page.evaluate("heard") if words != "cancel"]
        assert any(words.startswith(player.spoken_next("", "").split(":")[0]) for words in spoken), spoken
        visitor.sees(diary.HOW_HARD).choose(parts.of(diary.HOW_HARD_SHORT, 5, 10), diary.NOTHING_HURTS)
        visitor.press(diary.SAVE).sees_heading(diary.KEPT)
        send_home(visitor, sealed)
        answer(tmp_path / "coach", sealed, reply)
        visitor.start_anew().sees_heading(client.DONE_HEAD)
        read_reply(visitor, reply)
        assert visitor.asked_elsewhere() == [] == beyond.wanted
        visitor.is_walled_in()
        assert (beyond.wanted, len(site.asked)) == ([], asked)


def answer(coach: Path, sealed: Path, reply: Path) -> None:
    """At the coach's desk, a native program: the return is taken in, and answered with a word and a limit."""
    command = [sys.executable, "-m", "app.cli", "intake", str(sealed), "--data", str(coach), "--json"]
    done = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True)
    told = json.loads(done.stdout)
    assert [(one["person"], one["new"]) for one in told["taken"]] == [("Nora Lind", 2)] and not told["refused"], told
    store = open_store(coach)
    with store.read() as db:
        (nora,) = people.people(db)
    says = ReplyDraft("Well begun. Spare the wrist.", spare={parse_spot("right wrist"): 0})
    reply.write_bytes(natively(replying.write(store, SystemClock(), nora.id, says)).data)
    store.close()


def read_reply(visitor: Visitor, reply: Path) -> None:
    """Opened in the browser, shown, and in force."""
    visitor.visit("#/settings").sees(re.compile("^Go easy on"))
    visitor.never_says(re.compile("Right wrist"))
    visitor.visit("#/send").choose_file(send.OPEN_FILE, reply)
    visitor.sees(send.NEW, "Well begun. Spare the wrist.", re.compile(f"^Go easy on right wrist: {send.CAPS[0]}"))
    visitor.visit("#/settings").sees(re.compile("Right wrist: no load at all"))
    visitor.sees(re.compile("^Works without the internet: it opened offline on "))
    visitor.never_says(web.NOT_TRIED)


@pytest.mark.whole(keep=0)
def test_a_start_without_a_network_counts_only_once_the_app_stands(browser: Browser, tmp_path: Path) -> None:
    """The client draws its first frame, but Python ends: nothing is noted."""
    site = StaticSite({"/": make_web_app(tmp_path / "app", entry="raise RuntimeError('on purpose')")})
    context = browser.new_context()
    context.add_init_script("window.framed = new Promise(done => addEventListener('flutter-first-frame', done))")
    page = context.new_page()

    def start() -> None:
        page.goto(site.address)
        page.evaluate("() => framed.then(() => true)")
        page.evaluate(SETTLED)
        page.wait_for_timeout(3_000)
        assert page.evaluate("Object.keys(localStorage).filter(name => name.startsWith('evenload offline'))") == []
    start()
    site.stop()
    context.set_offline(True)
    start()
    context.close()
