"""A server is started, looked at and ended; how fast it was and what it took is printed and never asserted."""
from __future__ import annotations

import os
import re
import subprocess
import sys
import urllib.request

import pytest

from tests.bench.served import free_port, resident, started
from tests.bench.versions import HERE, PACKAGE, ROOT, CannotMeasure


def test_the_bare_app_answers_and_is_gone_afterwards() -> None:
    """Its address as printed, its memory as the system counts it."""
    with started(HERE, f"{PACKAGE}.bare_flet", free_port()) as server:
        with urllib.request.urlopen(server.address, timeout=30) as page:
            assert b"<html" in page.read().lower()
        if sys.platform == "linux":
            assert 20 < resident(server.pid) < 400
    assert resident(server.pid) == 0


def test_a_server_that_does_not_start_is_no_figure() -> None:
    """It prints no address."""
    with pytest.raises(CannotMeasure, match="did not start"), started(HERE, "this"):
        raise AssertionError("unreachable")


@pytest.mark.browser
@pytest.mark.whole(keep=0)
@pytest.mark.skipif(sys.platform != "linux", reason="memory is read as Linux counts it")
def test_start_and_memory_are_measured_in_a_real_browser(browser_path: str) -> None:
    """Today is reached, a session is played, and both rows have a ratio to the bare app."""
    command = [sys.executable, "-m", "tests.bench", "--quick", "--only", "start", "memory"]
    run = subprocess.run(command, cwd=ROOT, env=dict(os.environ) | {"EVENLOAD_BROWSER": browser_path}, check=False,
                         capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    rows = [line for line in run.stdout.splitlines() if "bare Flet app" in line]
    assert len(rows) == 2 and all(re.search(r"\| \d+\.\d\d \| ≤", row) for row in rows), run.stdout
