"""A programme comes in by a link, beside the offline app."""
from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.domain.branding.brand import CoachKey
from app.exchange.crypto.key_text import key_link
from app.words.client import hand_over as words
from app.words.client import today as client
from app.words.client import welcome
from tests.browser.lab import Lab
from tests.browser.offline import Visitor
from tests.browser.static_site import StaticSite
from tests.exchange.fixed import COACH, SOURCE, STRANGER
from tests.stories import steps
from tests.stories.test_hand_over import HERE, NAME, PACK, compared, paste

pytestmark = pytest.mark.browser

SHELF = "/studio-a/"


@pytest.mark.whole(keep=0)
def test_a_link_opens_what_lies_beside_the_offline_app(browser: Browser, web_app: Path) -> None:
    """For somebody new after the welcome; known the second time; and nothing else, from nowhere else."""
    with StaticSite({SHELF: web_app}, {f"packs/{NAME}": PACK}) as site:
        home = f"{site.address}{SHELF.strip('/')}/"
        with Visitor(browser, f"{home}#/get?file=packs/{NAME}") as visitor:
            visitor.visit().sees_heading(welcome.TITLE).sees(words.LINK_WAITS)
            steps.be_welcomed(visitor, "Nora Lind", client.MATCH_HEAD)
            compared(visitor, COACH.signing.public).sees(HERE)
            follow(visitor, "/programme")  # a link that is in the address bar already leads nowhere
            for link, said in ((f"packs/{NAME}", words.here_already(SOURCE.coach)),
                               ("packs/none.evenload-pack", "no packs/none.evenload-pack at this app’s address"),
                               (f"https://127.0.0.1:1/{NAME}", "is on another site"), ("../x", "is on another site"),
                               ("version.json", "version.json isn’t a programme file")):
                follow(visitor, f"/get?file={link}").sees(re.compile(f"(?=.*{re.escape(said)})"))
            follow(visitor, key_link(CoachKey("Somebody Else", STRANGER.signing.public.hex()), "").partition("#")[2])
            compared(visitor, STRANGER.signing.public).sees(words.key_kept("Somebody Else"))
            paste(visitor, f"{home}#/get?file=packs/{NAME}").sees(words.here_already(SOURCE.coach))
            paste(visitor, f"{site.address}#/get?file=packs/{NAME}").sees(re.compile("is on another site"))
            visitor.cut_off(site)
            follow(visitor, f"/get?file=packs/{NAME}").sees(re.compile("the internet or the site isn’t available"))
            visitor.forgive()


def follow(visitor: Visitor, route: str) -> Visitor:
    """As a tapped link does while the app is open at its address."""
    visitor.page.evaluate("to => { location.hash = to; }", route)
    visitor.settle()
    return visitor


FETCH = """
    from app.device.linked_files import HostFiles
    from app.domain.errors import AppError
    try:
        answer = json.dumps(["bytes", (await HostFiles(page).fetch(name, most)).hex()])
    except AppError as error:
        answer = json.dumps([type(error).__name__, error.what["name"]])
"""


@pytest.mark.whole(keep=0)
def test_a_file_is_fetched_no_further_than_allowed(lab: Lab, lab_site: StaticSite) -> None:
    """By the browser itself: whole, or stopped at the limit; a silent host is no network."""
    lab_site.extra["beside.bin"] = bytes(range(256)) * 1000
    page = f"{lab_site.address}#/today"
    assert lab.run(FETCH, page=page, name="beside.bin", most=256_000) == ["bytes", lab_site.extra["beside.bin"].hex()]
    assert lab.run(FETCH, page=page, name="beside.bin", most=255_999) == ["TooLarge", "beside.bin"]
    assert lab.run(FETCH, page=page, name="none", most=9) == ["NothingThere", "none"]
    assert lab.run(FETCH, page="http://127.0.0.1:9/", name="none", most=9) == ["NoNetwork", "none"]
