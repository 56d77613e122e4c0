"""Nothing is asked for from anywhere: the whole loop goes on without a network."""
from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.trust.network_cut import is_here

ROOT = Path(__file__).parents[2]


def _said(*more: str) -> tuple[int, list[str], str]:
    done = subprocess.run([sys.executable, "-m", "tests.trust.network_cut", *more], cwd=ROOT, capture_output=True,
                          text=True, timeout=120)
    return done.returncode, done.stdout.splitlines(), done.stderr


def test_the_loop_asks_for_nothing() -> None:
    """From the programme over check-in, session, return and intake to the coach's answer."""
    assert _said() == (0, ["done"], "")


def test_what_asks_is_noticed_and_refused() -> None:
    """So the test above would fail."""
    assert _said("--ask")[:2] == (1, ["socket.getaddrinfo 192.0.2.1", "done"])


@pytest.mark.parametrize(("address", "here"), [
    (("127.0.0.1", 80), True), (("::1", 80, 0, 0), True), ("localhost", True), ("/run/some.sock", True),
    (("192.0.2.1", 80), False), ("example.com", False), (("10.0.0.2", 80), False),
])
def test_this_machine_is_told_from_others(address: object, here: bool) -> None:
    """By its address."""
    assert is_here(address) is here
