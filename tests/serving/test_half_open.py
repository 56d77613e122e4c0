"""Whoever connects and asks for nothing, or for ever, takes nothing from the owner."""
from __future__ import annotations

import asyncio
import os
import socket
import time
import urllib.request
from collections.abc import Iterator
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from app.serving.half_open import MOST_HEAD, MOST_WAITING, HalfOpen
from tests import small_app

#: Fewer than are opened here: what a usual shell allows, made small so that the test is quick.
FEW_FILES = 160


@pytest.fixture
def place(tmp_path: Path) -> Iterator[tuple[str, int]]:
    """A running server that may have few files open, and its port."""
    with small_app.running(tmp_path) as (address, process):
        if hasattr(os, "sched_setaffinity"):
            import resource
            resource.prlimit(process.pid, resource.RLIMIT_NOFILE, (FEW_FILES, FEW_FILES))
        yield address, int(urlsplit(address).port or 0)


def knock(port: int, words: bytes) -> socket.socket:
    """A connection that has sent these bytes and waits."""
    one = socket.create_connection(("127.0.0.1", port), timeout=5)
    one.sendall(words)
    return one


def closed_within(one: socket.socket, seconds: float) -> bool:
    """Whether the other end lets go."""
    one.settimeout(seconds)
    try:
        while one.recv(65_536):
            pass
    except (ConnectionError, BrokenPipeError):
        return True
    except TimeoutError:
        return False
    return True


@pytest.mark.skipif(not hasattr(os, "sched_setaffinity"), reason="only Linux sets another process's limits")
@pytest.mark.parametrize("words", [b"", b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n"])
def test_three_hundred_half_open_requests_do_not_lock_the_owner_out(words: bytes, place: tuple[str, int]) -> None:
    """The one that has waited longest goes."""
    address, port = place
    held = [knock(port, words) for _ in range(300)]
    begun = time.monotonic()
    opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
    with opener.open(address, timeout=5) as page:
        assert page.status == 200
    assert time.monotonic() - begun < 5
    for one in held:
        one.close()


@pytest.mark.parametrize("endless", [b"X: " + b"y" * 65_536, b"y" * 65_536, b"X: y\r\n" * 10_000])
def test_an_endless_head_is_cut_off(endless: bytes, place: tuple[str, int]) -> None:
    """After some sixteen kilobytes, not after seventy-four megabytes."""
    _, port = place
    one = knock(port, b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n")
    sent = 0
    with pytest.raises(OSError):
        for _ in range(200):
            one.sendall(endless)
            sent += len(endless)
            time.sleep(0.005)
    assert sent < 200 * len(endless)


def test_whoever_waits_too_long_is_let_go() -> None:
    """And so is the first, where there are too many; whoever asked in time stays."""
    gone: list[str] = []

    class Line:
        def __init__(self, name: str) -> None:
            self.name = name

        def abort(self) -> None:
            gone.append(self.name)

    async def go() -> None:
        waiting = HalfOpen(most=2, wait_s=0.05)
        lines = [Line(name) for name in "abc"]
        for line in lines:
            waiting.add(line)  # type: ignore[arg-type]
        assert gone == ["a"]
        waiting.done(lines[1])  # type: ignore[arg-type]
        await asyncio.sleep(0.1)
        assert gone == ["a", "c"] and len(waiting) == 0

    asyncio.run(go())
    assert MOST_WAITING < 100 and MOST_HEAD <= 65_536


def test_a_refused_visitor_keeps_no_connection(place: tuple[str, int]) -> None:
    """It would wait for nothing."""
    _, port = place
    assert closed_within(knock(port, b"GET / HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n\r\n" % port), 2)
