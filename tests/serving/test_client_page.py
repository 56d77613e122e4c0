"""The client's page comes with what stands round it; nothing else is touched."""
from __future__ import annotations

import asyncio
import re
from collections.abc import MutableMapping
from pathlib import Path
from typing import Any

import pytest

from app.domain.branding.brand import EVENLOAD
from app.resources import resource_dir
from app.serving.client_page import SCRIPTS, ClientPage, changed, not_started
from app.serving.gate import App, Receive, Scope, Send
from app.words.machine import start

PAGE = b"<!DOCTYPE html><html><head></head><body><script src='flutter_bootstrap.js'></script></body></html>"
ASSETS = resource_dir("assets")


def answered(body: bytes, kind: bytes, status: int = 200) -> tuple[dict[bytes, bytes], bytes]:
    """Headers and body of an answer that came in two pieces, after the page's filter."""
    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        headers = [(b"content-type", kind), (b"content-length", b"%d" % len(body)), (b"etag", b"x")]
        await send({"type": "http.response.start", "status": status, "headers": headers})
        await send({"type": "http.response.body", "body": body[:9], "more_body": True})
        await send({"type": "http.response.body", "body": body[9:]})

    sent: list[MutableMapping[str, Any]] = []

    async def send(message: MutableMapping[str, Any]) -> None:
        sent.append(message)

    async def receive() -> MutableMapping[str, Any]:
        return {}

    page: App = ClientPage(app, ASSETS, EVENLOAD)
    asyncio.run(page({"type": "http", "path": "/", "method": "GET"}, receive, send))
    return dict(sent[0]["headers"]), b"".join(one["body"] for one in sent[1:])


def test_the_page_has_its_language_the_scripts_and_what_it_says_if_nothing_starts() -> None:
    """The scripts stand before the client, and the length is that of the whole."""
    headers, page = answered(PAGE, b"text/html; charset=utf-8")
    assert b'<html lang="en">' in page and SCRIPTS in page
    assert page.index(SCRIPTS) < page.index(b"flutter_bootstrap.js")
    assert start.failed_head(EVENLOAD.name).encode() in page
    assert headers[b"content-length"] == b"%d" % len(page) and headers[b"etag"] == b"x"


def test_what_is_no_page_of_the_client_goes_through() -> None:
    """Scripts, pages of another kind, and answers that say that nothing has changed."""
    for body, kind, status in ((PAGE, b"text/javascript", 200), (b"<html><head></head></html>", b"text/html", 200),
                               (PAGE, b"text/html", 304)):
        headers, sent = answered(body, kind, status)
        assert sent == body and headers[b"content-length"] == b"%d" % len(body)
    assert changed(b"", b"notice") == b""


def test_the_notice_has_words_in_every_place_and_both_grounds() -> None:
    """Nothing in it waits to be filled, and what is hidden until a start fails is hidden."""
    notice = not_started(ASSETS, EVENLOAD).decode()
    assert "{{" not in notice and re.search(r'id="not-started"[^>]* hidden>', notice)
    for words in start.start_notice("Evenload").values():
        assert words in notice
    assert EVENLOAD.light.paper in notice and EVENLOAD.dark.paper in notice


def test_the_scripts_that_the_page_names_are_there() -> None:
    """Beside the notice, as files that a page may load."""
    named = re.findall(rb'src="([^"]+)"', SCRIPTS)
    assert len(named) == 2 and all((ASSETS / Path(name.decode())).is_file() for name in named)


def test_a_place_that_the_notice_lacks_is_no_silence(tmp_path: Path) -> None:
    """A word that has no place would be lost."""
    (tmp_path / "page").mkdir()
    text = (ASSETS / "page" / "not_started.html").read_text("utf-8")
    (tmp_path / "page" / "not_started.html").write_text(text.replace("{{again}}", ""), "utf-8")
    with pytest.raises(ValueError, match="again"):
        not_started(tmp_path, EVENLOAD)
