"""The gate before the app: this machine's loopback address, pages of our own origin, and a browser that has the key.

Another page open in the same browser can reach a loopback port, and a foreign name can be made to point at it. Hence
the Host and Origin checks, and a key that such a page cannot know, in a cookie that it cannot make the browser send.
"""
from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any
from urllib.parse import parse_qsl, quote, urlencode

from app.domain.branding.brand import EVENLOAD, Brand
from app.words.machine import server

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]
Headers = list[tuple[bytes, bytes]]

COOKIE_S = 30 * 24 * 3600
#: Fetched by browsers without their cookies, and the same for everybody.
OPEN_PATHS = ("/manifest.json", "/favicon.png", "/icons/")
#: Pages that Flet's server framework brings along; they would load scripts from elsewhere.
FOREIGN_PATHS = frozenset({"/docs", "/docs/oauth2-redirect", "/redoc", "/openapi.json", "/oauth_callback"})


class Gate:
    """An ASGI app around another one. It owns `http://127.0.0.1:PORT` and `http://localhost:PORT`."""

    def __init__(self, app: App, *, port: int, key: str, brand: Brand = EVENLOAD) -> None:
        self._app = app
        self._brand = brand
        self._key = key
        self._cookie = f"evenload_{port}"
        self._hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}
        self._origins = {f"http://{host}" for host in self._hosts}
        self._headers = common_headers(content_policy(sorted(self._hosts)))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "websocket":
            await self._websocket(scope, receive, send)
        elif scope["type"] == "http":
            await self._http(scope, receive, send)
        else:
            await self._app(scope, receive, send)

    async def _websocket(self, scope: Scope, receive: Receive, send: Send) -> None:
        origin = values(scope, b"origin")
        if self._is_ours(scope) and origin and set(origin) <= self._origins and self._has_cookie(scope):
            await self._app(scope, receive, send)
        else:
            await send({"type": "websocket.close", "code": 1008})

    async def _http(self, scope: Scope, receive: Receive, send: Send) -> None:
        if not self._is_ours(scope) or not set(values(scope, b"origin")) <= self._origins:
            await self._page(send, 403, server.ELSEWHERE_TITLE, server.elsewhere_text(self._brand.name))
        elif scope["method"] not in {"GET", "HEAD"}:
            await self._page(send, 405, server.ELSEWHERE_TITLE, server.elsewhere_text(self._brand.name))
        elif (brought := query(scope).get("key")) is not None and self._is_key(brought):
            await self._let_in(scope, send)
        elif scope["path"].startswith(OPEN_PATHS) or self._has_cookie(scope):
            await self._pass_on(scope, receive, send)
        else:
            await self._page(send, 403, server.LOCKED_TITLE, server.locked_text(self._brand.name))

    def _is_ours(self, scope: Scope) -> bool:
        host = values(scope, b"host")
        return len(host) == 1 and host[0] in self._hosts

    def _is_key(self, brought: str) -> bool:
        return hmac.compare_digest(brought.encode(), self._key.encode())

    def _has_cookie(self, scope: Scope) -> bool:
        # Not by http.cookies: it gives up at the first odd cookie, and other programs on this host may have set some.
        pairs = (pair.strip().partition("=") for line in values(scope, b"cookie") for pair in line.split(";"))
        return any(name == self._cookie and self._is_key(value) for name, _, value in pairs)

    async def _let_in(self, scope: Scope, send: Send) -> None:
        """Swaps the key in the address for a cookie, so that it does not stay in the address bar or the history."""
        rest = urlencode([pair for pair in parse_qsl(scope["query_string"].decode("latin-1")) if pair[0] != "key"])
        place = "/" + quote(scope["path"].lstrip("/\\")) + ("?" + rest if rest else "")
        cookie = f"{self._cookie}={self._key}; Path=/; HttpOnly; SameSite=Strict; Max-Age={COOKIE_S}"
        extra = [(b"location", place.encode()), (b"set-cookie", cookie.encode())]
        await self._answer(send, 303, extra, b"")

    async def _page(self, send: Send, status: int, title: str, text: str) -> None:
        page = server.plain_page(title, text, self._brand).encode()
        await self._answer(send, status, [(b"content-type", b"text/html; charset=utf-8")], page)

    async def _answer(self, send: Send, status: int, extra: Headers, body: bytes) -> None:
        headers = [*self._headers, *extra, (b"cache-control", b"no-store"), (b"content-length", b"%d" % len(body))]
        await send({"type": "http.response.start", "status": status, "headers": headers})
        await send({"type": "http.response.body", "body": body})

    async def _pass_on(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lets the app answer; a page address that it does not know gets the app's own first page instead."""
        if scope["path"] in FOREIGN_PATHS:
            scope = at_root(scope)
        answer = AnswerFilter(send, self._headers, hold_missing=wants_page(scope))
        await self._app(scope, receive, answer.send)
        if answer.held:
            await self._app(at_root(scope), receive, AnswerFilter(send, self._headers, hold_missing=False).send)


class AnswerFilter:
    """Passes an answer on with our headers. A 404 can be held back, so that something else may be sent for it."""

    def __init__(self, send: Send, headers: Headers, *, hold_missing: bool) -> None:
        self.held = False
        self._send = send
        self._headers = headers
        self._hold_missing = hold_missing

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self.held = self._hold_missing and message["status"] == 404
            message = {**message, "headers": self._own(message.get("headers", ()))}
        if not self.held:
            await self._send(message)

    def _own(self, headers: Iterable[tuple[bytes, bytes]]) -> Headers:
        replaced = {name for name, _ in self._headers} | {b"access-control-allow-origin", b"cache-control"}
        kept = [(name, value) for name, value in headers if name.lower() not in replaced]
        return [*kept, *self._headers, (b"cache-control", b"no-cache")]


def values(scope: Scope, name: bytes) -> list[str]:
    """All values of a request header."""
    return [value.decode("latin-1") for key, value in scope["headers"] if key.lower() == name]


def query(scope: Scope) -> dict[str, str]:
    """The query of a request; of a name given twice the last counts."""
    return dict(parse_qsl(scope["query_string"].decode("latin-1"), keep_blank_values=True))


def wants_page(scope: Scope) -> bool:
    """Whether a person's browser goes to this address, as against a page fetching a part of itself."""
    return any("text/html" in value for value in values(scope, b"accept"))


def at_root(scope: Scope) -> Scope:
    """The same request for the app's first page."""
    return {**scope, "path": "/", "raw_path": b"/"}


def content_policy(hosts: Iterable[str]) -> str:
    """What the client may load: nothing from elsewhere. Flet compiles WebAssembly and has scripts in its page."""
    sockets = " ".join(f"ws://{host}" for host in hosts)
    return "; ".join((
        "default-src 'self'",
        "script-src 'self' 'unsafe-inline' 'wasm-unsafe-eval' blob:",
        "style-src 'self' 'unsafe-inline'",
        "img-src 'self' data: blob:",
        "media-src 'self' data: blob:",
        f"connect-src 'self' {sockets} data: blob:",
        "font-src 'self' data:",
        "worker-src 'self' blob:",
        "object-src 'none'",
        "base-uri 'self'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    ))


def common_headers(policy: str) -> Headers:
    """The headers of every answer."""
    return [
        (b"content-security-policy", policy.encode()),
        (b"x-content-type-options", b"nosniff"),
        (b"referrer-policy", b"no-referrer"),
        (b"x-frame-options", b"DENY"),
    ]
