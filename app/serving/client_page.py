"""The client's first page as this program hands it out: our scripts in its head, and what it says if it does not start.

`build/web_client.py` does the same to the page of the offline web app.
"""
from __future__ import annotations

import html
from collections.abc import Mapping
from pathlib import Path

from app.domain.branding.brand import Brand
from app.serving.gate import App, Message, Receive, Scope, Send
from app.words.machine.start import start_notice

SCRIPTS = b'<script src="page/start_watch.js"></script>\n  <script src="page/reach.js"></script>\n'


class ClientPage:
    """An ASGI app around the client's own."""

    def __init__(self, app: App, assets_dir: Path, brand: Brand) -> None:
        self._app = app
        self._notice = not_started(assets_dir, brand)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            await self._app(scope, receive, _PageFilter(send, self._notice).send)
        else:
            await self._app(scope, receive, send)


class _PageFilter:
    """Holds an answer that is a page until it is whole, and passes it on changed; any other answer goes through."""

    def __init__(self, send: Send, notice: bytes) -> None:
        self._send = send
        self._notice = notice
        self._begun: Message | None = None
        self._body = b""

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start" and _is_page(message):
            self._begun = message
        elif self._begun is None:
            await self._send(message)
        else:
            self._body += message.get("body", b"")
            if not message.get("more_body"):
                await self._whole(self._begun)

    async def _whole(self, begun: Message) -> None:
        page = changed(self._body, self._notice)
        headers = [(name, value) for name, value in begun["headers"] if name.lower() != b"content-length"]
        length = [(b"content-length", b"%d" % len(page))] if page else []  # of a HEAD only the head is known
        await self._send({**begun, "headers": [*headers, *length]})
        await self._send({"type": "http.response.body", "body": page})


def _is_page(message: Message) -> bool:
    kinds = [value for name, value in message.get("headers", ()) if name.lower() == b"content-type"]
    return message["status"] == 200 and any(kind.startswith(b"text/html") for kind in kinds)


def changed(page: bytes, notice: bytes) -> bytes:
    """The client's page with its language, our scripts and the notice; any other page as it is."""
    if b"flutter_bootstrap.js" not in page:
        return page
    for old, new in ((b"<html>", b'<html lang="en">'), (b"</head>", SCRIPTS + b"</head>"),
                     (b"<body>", b"<body>\n  " + notice)):
        page = page.replace(old, new, 1)
    return page


def not_started(assets_dir: Path, brand: Brand) -> bytes:
    """What the page says if the client does not start."""
    grounds = {"ground": brand.light.paper, "ground_dark": brand.dark.paper}
    return _filled(notice_page(assets_dir, brand.name), grounds).encode()


def notice_page(assets_dir: Path, name: str) -> str:
    """The same for an app of that name, with places left for its grounds."""
    text = (assets_dir / "page" / "not_started.html").read_text("utf-8").rstrip()
    return _filled(text, start_notice(name))


def _filled(text: str, words: Mapping[str, str]) -> str:
    """With words in their places.

    Raises:
        ValueError: a place is not there, or more than once.
    """
    for name, said in words.items():
        place = f"{{{{{name}}}}}"
        if text.count(place) != 1:
            raise ValueError(f"not_started.html: {place} is there {text.count(place)} times")
        text = text.replace(place, html.escape(said))
    return text
