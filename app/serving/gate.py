"""The gate before the app: this machine's loopback address, pages of our own origin, and a browser that has the key.

Another page open in the same browser can reach a loopback port, and a foreign name can be made to point at it. Hence
the Host and Origin checks, and a cookie that such a page cannot know nor make the browser send. Cookies ignore ports,
so any other server on `127.0.0.1` is sent them too: where the browser finds it, the app moves to a host name of its
own, whose cookie goes nowhere else.
"""
from __future__ import annotations

import re
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any
from urllib.parse import parse_qsl, quote, urlencode

from app.domain.branding.brand import EVENLOAD, Brand
from app.serving.way_in import Keys, choosing_page, leading_page
from app.words.machine import server

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]
Headers = list[tuple[bytes, bytes]]

#: Fetched by browsers without their cookies, and the same for everybody.
OPEN_PATHS = re.compile(r"/manifest\.json|/favicon\.png|/icons/[A-Za-z0-9_-]+\.png")
#: A picture that shows a browser that it finds the app at its own host name. It says no more than an open port does.
SEEN = "/here.gif"
PICTURE = b"GIF89a\x01\x00\x01\x00\x00\x00\x00,\x00\x00\x00\x00\x01\x00\x01\x00\x00\x02\x00;"
#: Pages that Flet's server framework brings along; they would load scripts from elsewhere.
FOREIGN_PATHS = frozenset({"/docs", "/docs/oauth2-redirect", "/redoc", "/openapi.json", "/oauth_callback"})


class Gate:
    """An ASGI app around another one. It owns the loopback address and `localhost` at its port.

    `name`: a host name of its own below `localhost`, such as `evenload.localhost`, which most browsers take for this
    machine; empty for none.
    """

    def __init__(self, app: App, *, port: int, keys: Keys, name: str = "", brand: Brand = EVENLOAD) -> None:
        self._app = app
        self._brand = brand
        self._keys = keys
        self._cookie = f"evenload_{port}"
        self._own = f"{name}:{port}" if name else ""
        self._hosts = {f"127.0.0.1:{port}", f"localhost:{port}"} | ({self._own} if name else set())
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
        elif scope["path"] == SEEN:
            await self._answer(send, 200, [(b"content-type", b"image/gif")], PICTURE)
        elif (brought := query(scope).get("key")) is not None and self._keys.holds(brought):
            await (self._offer_own_name if self._may_move(scope) else self._let_in)(scope, send, brought)
        elif OPEN_PATHS.fullmatch(scope["path"]) or self._has_cookie(scope):
            await self._pass_on(scope, receive, send)
        else:
            await self._page(send, 403, server.LOCKED_TITLE, server.locked_text(self._brand.name))

    def _is_ours(self, scope: Scope) -> bool:
        host = values(scope, b"host")
        return len(host) == 1 and host[0] in self._hosts

    def _has_cookie(self, scope: Scope) -> bool:
        # Not by http.cookies: it gives up at the first odd cookie, and other programs on this host may have set some.
        pairs = (pair.strip().partition("=") for line in values(scope, b"cookie") for pair in line.split(";"))
        return any(name == self._cookie and self._keys.is_cookie(value) for name, _, value in pairs)

    def _may_move(self, scope: Scope) -> bool:
        return bool(self._own) and values(scope, b"host") != [self._own] and query(scope).get("here") is None

    async def _offer_own_name(self, scope: Scope, send: Send, key: str) -> None:
        """The key is not spent yet: the page carries it on, to the app's own host name or back to this one."""
        place = _place_without(scope, "key")
        joined = f"{place}{'&' if '?' in place else '?'}key={key}"
        page = choosing_page(f"http://{self._own}{joined}", f"http://{self._own}{SEEN}", f"{joined}&here=1").encode()
        policy = ("default-src 'none'; frame-ancestors 'none'; script-src 'unsafe-inline'; "
                  f"img-src http://{self._own}")
        await self._answer(send, 200, [(b"content-type", b"text/html; charset=utf-8")], page, policy)

    async def _let_in(self, scope: Scope, send: Send, key: str) -> None:
        """Swaps the key in the address for a cookie, so that it does not stay in the address bar or the history.

        A browser that comes from another site would not send the cookie along with a redirect, and so goes on from a
        page of ours.
        """
        place = _place_without(scope, "key", "here")
        if not self._keys.spend(key):
            await self._page(send, 403, server.LOCKED_TITLE, server.locked_text(self._brand.name))
            return
        cookie = f"{self._cookie}={self._keys.cookie}; Path=/; HttpOnly; SameSite=Strict"
        extra = [(b"set-cookie", cookie.encode())]
        if values(scope, b"sec-fetch-site") in ([], ["none"], ["same-origin"]):
            await self._answer(send, 303, [(b"location", place.encode()), *extra], b"")
        else:
            kind = (b"content-type", b"text/html; charset=utf-8")
            await self._answer(send, 200, [kind, *extra], leading_page(place).encode())

    async def _page(self, send: Send, status: int, title: str, text: str) -> None:
        page = server.plain_page(title, text, self._brand).encode()
        await self._answer(send, status, [(b"content-type", b"text/html; charset=utf-8")], page)

    async def _answer(self, send: Send, status: int, extra: Headers, body: bytes, policy: str = "") -> None:
        """With our headers; whoever is not in has to connect anew, so that nobody outside holds a connection."""
        common = common_headers(policy) if policy else self._headers
        headers = [*common, *extra, (b"cache-control", b"no-store"), (b"content-length", b"%d" % len(body)),
                   (b"connection", b"close")]
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


def _place_without(scope: Scope, *names: str) -> str:
    """Path and query of a request, as an address on the same host, without some names."""
    rest = urlencode([pair for pair in parse_qsl(scope["query_string"].decode("latin-1")) if pair[0] not in names])
    return "/" + quote(scope["path"].lstrip("/\\")) + ("?" + rest if rest else "")


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
