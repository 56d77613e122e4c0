"""A programme comes in as pasted text, by a link, and as the file that the program was started with."""
from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from app.domain.branding.brand import CoachKey
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.key_text import key_line, key_link
from app.exchange.crypto.keys import matching_words
from app.exchange.crypto.text_form import MOST_PACK_BYTES, to_text
from app.exchange.letters.replies import write_reply
from app.exchange.packs.pack import build_pack
from app.words.client import hand_over as words
from app.words.client import today as client
from app.words.client import welcome
from app.words.coach import publish
from tests.browser import steps
from tests.browser.driver import DESKTOP, Walker
from tests.browser.lab import Lab
from tests.browser.offline import Visitor
from tests.browser.server import Server
from tests.browser.static_site import StaticSite
from tests.browser.turns import COACH as THE_COACH
from tests.browser.turns import Demo
from tests.exchange.fixed import CLIENT, COACH, REPLY, SOURCE, STRANGER, run

pytestmark = pytest.mark.browser

PACK = run(build_pack(SOURCE, coach=COACH))
REPLY_TEXT = to_text(run(write_reply(REPLY, coach=COACH.signing, readers=[CLIENT.sealing.public])), Kind.REPLY)
STRANGE_KEY = key_line(CoachKey("Somebody Else", STRANGER.signing.public.hex()))
NAME = "march.evenload-pack"
SHELF = "/studio-a/"
HERE = re.compile(f"^{SOURCE.coach}’s programme is here")


def paste(walker: Walker, text: str) -> Walker:
    """Pastes a text where the programmes are."""
    walker.press(words.PASTE_OPEN)
    field = walker.page.get_by_role("textbox", name=words.PASTE_FIELD).first
    expect(field).to_be_attached()
    walker.settle()
    field.focus()
    walker.page.evaluate("text => document.execCommand('insertText', false, text)", text)
    expect(field).not_to_have_value("")
    return walker.settle().press(words.TAKE)


def compared(walker: Walker, key: bytes) -> Walker:
    """Reads the five words of a key, and finds them the same."""
    walker.sees_heading(client.MATCH_HEAD).sees(*(re.compile(f"^{word}$") for word in matching_words(key)))
    return walker.press(client.SAME)


@pytest.mark.whole(keep=0)
def test_a_programme_and_a_key_are_pasted(
    browser: Browser, ready: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """With the same question as for a file; what is none of ours is told in a sentence."""
    server = serve(Path(shutil.copytree(ready, tmp_path / "data")))
    large = to_text(bytes(2 * MOST_PACK_BYTES), Kind.RETURN).replace("return", "pack")
    with Walker(browser) as walker:
        walker.open(server.at("/programme")).sees_heading(client.PROGRAMME_TITLE)
        for text, said in (("Good morning", "This text is no programme"), (REPLY_TEXT, "is a message from a coach"),
                           (to_text(PACK, Kind.PACK)[:900], "This text is damaged"),
                           (large, "This text is too large to paste .* choose the file"),
                           (f"https://steps.example/#/get?file={NAME}", f"A link to {NAME} opens only where")):
            paste(walker, text).sees(re.compile(said))
        compared(paste(walker, to_text(PACK, Kind.PACK)), COACH.signing.public).sees(HERE)
        compared(paste(walker, STRANGE_KEY), STRANGER.signing.public).sees(re.compile("^The key is kept"))
        paste(walker, STRANGE_KEY).sees(words.key_known("Somebody Else"))
        walker.go("/get?file=x").sees(re.compile("^A link to x opens only where"))


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
                               ("packs/none.evenload-pack", "There is no packs/none.evenload-pack beside this app"),
                               (f"https://127.0.0.1:1/{NAME}", "lies elsewhere"), ("../x", "lies elsewhere"),
                               ("version.json", "version.json is no programme")):
                follow(visitor, f"/get?file={link}").sees(re.compile(f"(?=.*{re.escape(said)})"))
            follow(visitor, key_link(CoachKey("Somebody Else", STRANGER.signing.public.hex()), "").partition("#")[2])
            compared(visitor, STRANGER.signing.public).sees(re.compile("^The key is kept"))
            paste(visitor, f"{home}#/get?file=packs/{NAME}").sees(words.here_already(SOURCE.coach))
            paste(visitor, f"{site.address}#/get?file=packs/{NAME}").sees(re.compile("lies elsewhere"))
            visitor.cut_off(site)
            follow(visitor, f"/get?file=packs/{NAME}").sees(re.compile("there is no network, or nobody answers"))
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


def test_a_file_is_fetched_no_further_than_allowed(lab: Lab, lab_site: StaticSite) -> None:
    """By the browser itself: whole, or stopped at the limit; a silent host is no network."""
    lab_site.extra["beside.bin"] = bytes(range(256)) * 1000
    page = f"{lab_site.address}#/today"
    assert lab.run(FETCH, page=page, name="beside.bin", most=256_000) == ["bytes", lab_site.extra["beside.bin"].hex()]
    assert lab.run(FETCH, page=page, name="beside.bin", most=255_999) == ["TooLarge", "beside.bin"]
    assert lab.run(FETCH, page=page, name="none", most=9) == ["NothingThere", "none"]
    assert lab.run(FETCH, page="http://127.0.0.1:9/", name="none", most=9) == ["NoNetwork", "none"]


@pytest.mark.whole(keep=0)
def test_the_desk_shows_a_code_of_the_key(browser: Browser, demo_data: Path, serve: Callable[..., Server],
                                          tmp_path: Path) -> None:
    """With the words under it; as a picture it can be kept."""
    demo = Demo(serve(Path(shutil.copytree(demo_data, tmp_path / "data"))))
    demo.turn_of(THE_COACH)
    with Walker(browser, size=DESKTOP) as walker:
        walker.open(demo.server.at("/publish")).sees_heading(publish.PUBLISH_TITLE)
        walker.press(words.CODE_OPEN).sees(words.code_name(words.KEY_CODE))
        five, again = (line for line in walker.spoken() if "   " in line)
        assert five == again
        with walker.download() as got:
            walker.press(words.SAVE_PICTURE)
        assert got[0].suggested_filename == "qr-key.svg"
        assert b"<svg" in Path(got[0].path()).read_bytes()
        walker.press(words.CODE_CLOSE).sees_button(words.CODE_OPEN)
