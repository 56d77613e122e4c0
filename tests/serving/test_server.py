"""The server listens where it should, keeps its key, and serves Flet's client whole and without outside addresses."""
from __future__ import annotations

import html
import json
import os
import signal
import socket
import stat
import urllib.error
import urllib.request
from collections.abc import Iterator
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from app.data_folder import OLD_KEY, WAY_IN
from app.domain.errors import PortTaken
from app.serving import server
from tests import small_app

Opener = urllib.request.OpenerDirector


def taken_port() -> tuple[socket.socket, int]:
    """A port that somebody listens on."""
    place = socket.create_server(("127.0.0.1", 0))
    return place, place.getsockname()[1]


def test_a_busy_port_that_was_asked_for_is_refused() -> None:
    """With the port in the error, so that the sentence can name it."""
    other, port = taken_port()
    with other, pytest.raises(PortTaken) as refused:
        server.open_socket(port)
    assert refused.value.what == {"port": port}


def test_an_impossible_port_is_refused() -> None:
    """The same error, not a traceback."""
    with pytest.raises(PortTaken):
        server.open_socket(70_000)


@pytest.mark.parametrize("asked", [None, 0])
def test_a_busy_usual_port_gives_way_to_another(asked: int | None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody asked for it, so any other will do."""
    other, port = taken_port()
    monkeypatch.setattr(server, "USUAL_PORT", port)
    with other, server.open_socket(asked) as found:
        assert found.getsockname()[0] == "127.0.0.1"
        assert found.getsockname()[1] != port


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The data directory of the running server."""
    return tmp_path_factory.mktemp("data")


@pytest.fixture(scope="module")
def running(data: Path) -> Iterator[str]:
    """The address of a running server, its key spent."""
    (data / OLD_KEY).write_text("k" * 43)
    with small_app.running(data) as (address, _):
        with urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar())).open(address) as first:
            assert first.status == 200
        yield address


def way_in(data: Path) -> str:
    """The address in the page that leads in."""
    page = (data / WAY_IN).read_text("utf-8")
    return html.unescape(page.partition('href="')[2].partition('"')[0])


@pytest.fixture
def browser(running: str, data: Path) -> Opener:
    """A browser that has opened the page that leads in."""
    opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
    with opener.open(way_in(data)) as first:
        assert first.status == 200
        assert "key=" not in first.url
    return opener


def at(running: str, path: str) -> str:
    """The address of a path on the running server."""
    parts = urlsplit(running)
    return f"{parts.scheme}://{parts.netloc}{path}"


def test_the_page_that_leads_in_always_holds_a_key_that_is_not_spent(running: str, browser: Opener, data: Path) -> None:
    """So that its owner is never locked out; the address that was printed opened once."""
    with pytest.raises(urllib.error.HTTPError):
        urllib.request.urlopen(running)
    for _ in range(3):
        address = way_in(data)
        assert "key=" in address
        with urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar())).open(address) as page:
            assert page.status == 200
        assert way_in(data) != address


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps its rights elsewhere")
def test_the_page_that_leads_in_and_the_tracks_are_the_owners_alone(running: str, data: Path) -> None:
    """And nothing half written lies beside it; a key of an earlier version is gone."""
    assert stat.S_IMODE((data / WAY_IN).stat().st_mode) == 0o600
    assert stat.S_IMODE((data / "tracks").stat().st_mode) == 0o700
    assert not list(data.glob(".open-here*")) and not (data / OLD_KEY).exists()


def test_each_start_has_keys_and_a_cookie_of_its_own(tmp_path: Path) -> None:
    """What one start let in, the next does not."""
    jar = CookieJar()
    with small_app.running(tmp_path) as (address, _):
        with urllib.request.build_opener(urllib.request.HTTPCookieProcessor(jar)).open(address) as page:
            assert page.status == 200
        cookie, = jar
    assert cookie.value not in address
    with small_app.running(tmp_path) as (address, _):
        asked = urllib.request.Request(at(address, "/"), headers={"Cookie": f"{cookie.name}={cookie.value}"})
        with pytest.raises(urllib.error.HTTPError):
            urllib.request.urlopen(asked)


def test_without_the_key_nothing_is_served(running: str) -> None:
    """Not the page, not its parts."""
    for path in ("/", "/main.dart.js", "/fonts/Card-400.ttf"):
        with pytest.raises(urllib.error.HTTPError) as refused:
            urllib.request.urlopen(at(running, path))
        assert refused.value.code == 403
        assert "text/html" in refused.value.headers["content-type"]


def test_the_page_is_ours_and_loads_nothing_from_elsewhere(running: str, browser: Opener) -> None:
    """Its title, its base, its engine from this server."""
    with browser.open(at(running, "/client/ines/diary")) as answer:
        text = answer.read().decode()
    assert "<title>Evenload</title>" in text
    assert '<base href="/">' in text
    assert "flet.noCdn=true" in text
    assert "https://" not in text


def test_the_clients_fonts_are_there_before_its_first_frame(running: str, browser: Opener) -> None:
    """Every font that the list names is served; the formula fonts, which we never use, are not in it."""
    with browser.open(at(running, "/assets/FontManifest.json")) as answer:
        families = json.load(answer)
    assert {"Card", "MaterialIcons", "Roboto"} <= {family["family"] for family in families}
    assert not [family for family in families if "KaTeX" in family["family"]]
    for family in families:
        for face in family["fonts"]:
            path = ("/assets/" + face["asset"]).replace("/assets/../", "/")
            with browser.open(at(running, path)) as answer:
                assert len(answer.read()) > 1000, path


@pytest.mark.parametrize("path", ["/main.dart.wasm", "/canvaskit/skwasm.wasm", "/sounds/count.wav"])
def test_the_clients_parts_are_served(path: str, running: str, browser: Opener) -> None:
    """Engine, program and tones."""
    with browser.open(at(running, path)) as answer:
        assert answer.status == 200
        assert answer.headers["access-control-allow-origin"] is None
        assert answer.headers["cross-origin-opener-policy"] == "same-origin"


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such signal")
def test_an_interrupt_ends_it_quietly(tmp_path: Path) -> None:
    """Without a traceback, and as a success."""
    with small_app.running(tmp_path) as (address, process):
        assert "key=" in address
        process.send_signal(signal.SIGINT)
        assert process.wait(20) == 0
    assert not (tmp_path / WAY_IN).exists()
