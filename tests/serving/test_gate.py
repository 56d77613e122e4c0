"""The gate lets in the owner's browser and nobody else's page."""
from __future__ import annotations

import asyncio
from dataclasses import dataclass

import pytest

from app.serving.gate import SEEN, Gate, Message, Receive, Scope, Send
from app.serving.way_in import Keys

KEYS = Keys()
HOST = (b"host", b"127.0.0.1:8427")
NAMED = (b"host", b"evenload.localhost:8427")
COOKIE = (b"cookie", f"evenload_8427={KEYS.cookie}".encode())
ORIGIN = (b"origin", b"http://127.0.0.1:8427")
PAGE = (b"accept", b"text/html,*/*")
Header = tuple[bytes, bytes]


@dataclass(frozen=True)
class Outcome:
    """What came back, and which paths reached the app behind the gate."""

    sent: list[Message]
    reached: list[str]

    @property
    def status(self) -> int:
        return self.sent[0]["status"]

    @property
    def body(self) -> bytes:
        return b"".join(message["body"] for message in self.sent[1:])

    def header(self, name: bytes) -> str:
        return ", ".join(value.decode() for key, value in self.sent[0]["headers"] if key.lower() == name)


def call(
    *headers: Header, kind: str = "http", path: str = "/", query: str = "", method: str = "GET", name: str = "",
) -> Outcome:
    """One request through a gate, before an app that knows `/` and `/main.js`."""
    outcome = Outcome([], [])

    async def inner(scope: Scope, receive: Receive, send: Send) -> None:
        outcome.reached.append(scope["path"])
        if scope["type"] == "websocket":
            await send({"type": "websocket.accept"})
            return
        status = 200 if scope["path"] in {"/", "/main.js"} else 404
        await send({"type": "http.response.start", "status": status,
                    "headers": [(b"Access-Control-Allow-Origin", b"*"), (b"etag", b"1")]})
        await send({"type": "http.response.body", "body": scope["path"].encode()})

    async def receive() -> Message:
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message: Message) -> None:
        outcome.sent.append(message)

    scope: Scope = {"type": kind, "path": path, "raw_path": path.encode(), "query_string": query.encode(),
                    "headers": list(headers), "method": method}
    asyncio.run(Gate(inner, port=8427, keys=KEYS, name=name)(scope, receive, send))
    return outcome


def test_the_owners_browser_reaches_the_app() -> None:
    """With the cookie, at our own host, with or without naming its origin."""
    for headers in ([HOST, COOKIE], [HOST, COOKIE, ORIGIN], [(b"host", b"localhost:8427"), COOKIE]):
        assert call(*headers).status == 200


@pytest.mark.parametrize("host", [b"evenload.example:8427", b"127.0.0.1:8428", b"127.0.0.1", b"127.0.0.1:8427.example"])
def test_a_foreign_name_for_this_machine_is_refused(host: bytes) -> None:
    """A name that was made to point at the loopback address reaches nothing, even with the cookie or the key."""
    for outcome in (call((b"host", host), COOKIE), call((b"host", host), query=f"key={KEYS.new()}")):
        assert outcome.status == 403
        assert not outcome.reached
        assert not outcome.header(b"set-cookie")


def test_two_host_headers_or_none_are_refused() -> None:
    """There is no second opinion about where a request goes."""
    assert call(COOKIE).status == 403
    assert call(HOST, (b"host", b"localhost:8427"), COOKIE).status == 403


@pytest.mark.parametrize("origin", [b"https://elsewhere.example", b"null", b"http://127.0.0.1:9000", b"https://127.0.0.1:8427"])
def test_another_origins_request_is_refused(origin: bytes) -> None:
    """A page from elsewhere cannot use our cookie, over http or over a websocket."""
    assert call(HOST, COOKIE, (b"origin", origin)).status == 403
    assert call(HOST, COOKIE, (b"origin", origin), kind="websocket", path="/ws").sent[0]["type"] == "websocket.close"


@pytest.mark.parametrize("cookie", [None, b"evenload_8427=x", b"evenload_8427=", b"evenload_9=" + COOKIE[1], b"=;;="],
                         ids=["none", "wrong", "empty", "of another port", "nothing named"])
def test_without_the_right_cookie_there_is_a_plain_page(cookie: bytes | None) -> None:
    """Neither pages nor parts of them: a sentence that says what to do."""
    headers = [HOST] + ([(b"cookie", cookie)] if cookie is not None else [])
    for path in ("/", "/main.js", "/client/1"):
        outcome = call(*headers, path=path)
        assert (outcome.status, outcome.reached) == (403, [])
        assert b"your records folder" in outcome.body
        assert outcome.header(b"cache-control") == "no-store"


@pytest.mark.parametrize("headers", [
    [HOST, ORIGIN], [HOST, COOKIE], [COOKIE, ORIGIN], [HOST, ORIGIN, (b"cookie", b"evenload_8427=x")],
])
def test_a_websocket_needs_host_origin_and_cookie(headers: list[Header]) -> None:
    """One of the three missing closes it before it is accepted."""
    outcome = call(*headers, kind="websocket", path="/ws")
    assert outcome.sent == [{"type": "websocket.close", "code": 1008}]
    assert not outcome.reached


def test_a_websocket_with_all_three_is_accepted() -> None:
    """The client's own."""
    assert call(HOST, ORIGIN, COOKIE, kind="websocket", path="/ws").sent == [{"type": "websocket.accept"}]


def test_the_key_is_swapped_for_a_cookie() -> None:
    """It leaves the address at once; path and the rest of the query stay; scripts cannot read it."""
    key = KEYS.new()
    outcome = call(HOST, path="/client/ines", query=f"tab=diary&key={key}")
    assert (outcome.status, outcome.header(b"location"), outcome.reached) == (303, "/client/ines?tab=diary", [])
    cookie = outcome.header(b"set-cookie")
    assert cookie.startswith(f"evenload_8427={KEYS.cookie};") and key not in cookie
    assert "Max-Age" not in cookie and "Domain" not in cookie
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= set(cookie.split("; "))
    assert outcome.header(b"cache-control") == "no-store"


def test_a_wrong_key_opens_nothing() -> None:
    """It is no better than none, and does no harm to who is in already."""
    assert call(HOST, query="key=wrong").status == 403
    assert call(HOST, COOKIE, query="key=wrong").status == 200


def test_the_swap_never_leads_elsewhere() -> None:
    """A path that a browser would read as another host is taken as a path."""
    for path in ("//elsewhere.example/x", "/\\elsewhere.example", "///x"):
        place = call(HOST, path=path, query=f"key={KEYS.new()}").header(b"location")
        assert place.startswith("/")
        assert not place.startswith(("//", "/\\"))


def test_odd_cookies_of_other_programs_do_not_lock_the_owner_out() -> None:
    """Ports share their cookies, so others may stand before ours."""
    assert call(HOST, (b"cookie", b'a="; {x}=[1,2]; ' + COOKIE[1] + b"; z")).status == 200


def test_only_reading_methods_are_served() -> None:
    """The app talks through its websocket; nothing is ever posted."""
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        assert call(HOST, COOKIE, method=method).status == 405
    assert call(HOST, COOKIE, method="HEAD").status == 200


def test_an_unknown_page_gets_the_app_and_a_missing_part_does_not() -> None:
    """A deep address with a dot in it is still a page; a missing picture stays missing."""
    page = call(HOST, COOKIE, PAGE, path="/client/j.smith")
    assert (page.status, page.body, page.reached) == (200, b"/", ["/client/j.smith", "/"])
    assert call(HOST, COOKIE, path="/figures/none.json").status == 404


def test_the_frameworks_own_pages_are_not_served() -> None:
    """They would load scripts from elsewhere; their addresses belong to the app."""
    for path in ("/docs", "/redoc", "/openapi.json"):
        assert call(HOST, COOKIE, path=path).reached == ["/"]


def test_every_answer_says_what_may_be_loaded() -> None:
    """From nowhere else; and no other origin may read it."""
    let_in = call(HOST, query=f"key={KEYS.new()}")
    answers = (call(HOST), call(HOST, COOKIE), let_in, call(HOST, COOKIE, path="/main.js"))
    own = {"'self'", "'none'", "data:", "blob:", "ws://127.0.0.1:8427", "ws://localhost:8427"}
    for outcome in answers:
        policy = outcome.header(b"content-security-policy")
        assert "default-src 'self'" in policy
        for rule in policy.split("; "):
            assert set(rule.split()[1:]) <= own | {"'unsafe-inline'", "'wasm-unsafe-eval'"}, rule
        assert outcome.header(b"x-content-type-options") == "nosniff"
        assert outcome.header(b"referrer-policy") == "no-referrer"
        assert not outcome.header(b"access-control-allow-origin")


def test_no_page_anywhere_may_hold_ours_in_a_frame() -> None:
    """Or it would have somebody press what they cannot see; in both ways of saying so, in every answer."""
    chooses = call(HOST, query=f"key={KEYS.new()}", name="evenload.localhost")
    for outcome in (call(HOST), call(HOST, COOKIE), call(HOST, query=f"key={KEYS.new()}"), chooses,
                    call(HOST, COOKIE, path="/main.js"), call((b"host", b"x"))):
        assert outcome.header(b"x-frame-options") == "DENY"
        assert "frame-ancestors 'none'" in outcome.header(b"content-security-policy").split("; ")


def test_a_key_opens_once() -> None:
    """Whoever reads it afterwards, in a history or among a browser's arguments, has nothing."""
    key = KEYS.new()
    assert call(HOST, query=f"key={key}").status == 303
    again = call(HOST, query=f"key={key}")
    assert (again.status, again.header(b"set-cookie")) == (403, "")


def test_the_cookie_is_no_key_and_no_key_is_a_cookie() -> None:
    """What one leaks is no use for the other."""
    assert call(HOST, query=f"key={KEYS.cookie}").status == 403
    assert call(HOST, (b"cookie", f"evenload_8427={KEYS.new()}".encode())).status == 403
    assert Keys().cookie != Keys().cookie


def test_where_the_browser_finds_it_the_app_moves_to_a_host_name_of_its_own() -> None:
    """A cookie at `127.0.0.1` is sent to every other server there; the key is not spent by the question."""
    key = KEYS.new()
    offered = call(HOST, path="/today", query=f"a=1&key={key}", name="evenload.localhost")
    assert (offered.status, offered.header(b"set-cookie"), offered.reached) == (200, "", [])
    assert f"http://evenload.localhost:8427/today?a=1&key={key}".encode() in offered.body
    assert f"/today?a=1&key={key}&here=1".encode() in offered.body
    assert offered.header(b"content-security-policy").endswith("img-src http://evenload.localhost:8427")
    assert call(NAMED, path=SEEN, name="evenload.localhost").body.startswith(b"GIF89a")
    from_elsewhere = NAMED, (b"sec-fetch-site", b"cross-site")
    there = call(*from_elsewhere, path="/today", query=f"a=1&key={key}", name="evenload.localhost")
    assert there.status == 200 and b'url=/today?a=1"' in there.body and KEYS.cookie in there.header(b"set-cookie")
    assert call(NAMED, COOKIE, name="evenload.localhost").reached == ["/"]


def test_where_it_does_not_the_app_stays_at_the_address() -> None:
    """As the page asks for it."""
    here = call(HOST, path="/today", query=f"key={KEYS.new()}&here=1", name="evenload.localhost")
    assert (here.status, here.header(b"location")) == (303, "/today")


def test_a_host_name_that_is_not_its_own_is_no_host() -> None:
    """Another app's, below `localhost`."""
    assert call((b"host", b"other.localhost:8427"), COOKIE, name="evenload.localhost").status == 403
    assert call(NAMED, COOKIE).status == 403


@pytest.mark.parametrize("path", ['/"><script>alert(1)</script>', "/</script>", "/\\evil.example", "//evil.example"])
def test_what_stands_in_the_path_stays_a_path_in_the_page_that_chooses(path: str) -> None:
    """Neither script nor another host."""
    body = call(HOST, path=path, query=f"key={KEYS.new()}", name="evenload.localhost").body.decode()
    assert body.count("<script>") == 1 and body.count("</script>") == 1
    assert '"//' not in body and "alert(1)</" not in body


@pytest.mark.parametrize("path", [
    "/icons/../main.js", "/icons/../../main.js", "/icons//main.js", "/icons/..%2fmain.js", "/icons/\\..\\main.js",
    "/icons/a/../main.js", "/manifest.json/../main.js", "/favicon.png.js", "/icons/",
])
def test_no_way_round_leads_through_what_is_open(path: str) -> None:
    """Only the icons themselves are."""
    assert call(HOST, path=path).reached == []


def test_nobody_outside_holds_a_connection() -> None:
    """Every answer of the gate's own ends it."""
    for outcome in (call(HOST), call(HOST, path=SEEN), call((b"host", b"x"))):
        assert outcome.header(b"connection") == "close"


def test_what_browsers_fetch_without_cookies_is_open() -> None:
    """The web manifest and the icons, which are the same for everybody; at our host only."""
    for path in ("/manifest.json", "/favicon.png", "/icons/icon-192.png"):
        assert call(HOST, path=path).reached == [path]
    assert call((b"host", b"x:8427"), path="/manifest.json").reached == []
