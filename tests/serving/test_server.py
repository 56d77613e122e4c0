"""The server listens where it should, keeps its key, and serves Flet's client whole and without outside addresses."""
from __future__ import annotations

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


def test_the_key_is_made_once_and_kept(tmp_path: Path) -> None:
    """A bookmark with the key goes on working."""
    key = server.address_key(tmp_path)
    assert len(key) == server.KEY_LENGTH
    assert server.address_key(tmp_path) == key
    other = tmp_path / "other"
    other.mkdir()
    assert server.address_key(other) != key


def test_a_damaged_key_is_made_anew(tmp_path: Path) -> None:
    """An empty or cut file would otherwise be a key that can be guessed."""
    for damage in ("", "short", "x" * 44):
        (tmp_path / server.KEY_FILE).write_text(damage)
        assert len(server.address_key(tmp_path)) == server.KEY_LENGTH
        assert (tmp_path / server.KEY_FILE).read_text() != damage


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps its rights elsewhere")
def test_the_key_file_is_the_owners_alone(tmp_path: Path) -> None:
    """When made, and again when somebody has opened it up."""
    server.address_key(tmp_path)
    file = tmp_path / server.KEY_FILE
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    file.chmod(0o644)
    server.address_key(tmp_path)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a running server."""
    with small_app.running(tmp_path_factory.mktemp("data")) as (address, _):
        yield address


@pytest.fixture
def browser(running: str) -> Opener:
    """A browser that has opened the address."""
    opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
    with opener.open(running) as first:
        assert first.status == 200
        assert "key=" not in first.url
    return opener


def at(running: str, path: str) -> str:
    """The address of a path on the running server."""
    parts = urlsplit(running)
    return f"{parts.scheme}://{parts.netloc}{path}"


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
