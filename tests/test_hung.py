"""A browser test that hangs is ended, repeated once, and told of."""
from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
HOOKS = "from tests.hung import pytest_runtest_protocol, pytest_terminal_summary\n"
TESTS = """
import subprocess, sys
from pathlib import Path
import pytest
from tests.hung import FROZEN
SLEEPER = [sys.executable, "-c", "import time; time.sleep(600)"]

@pytest.mark.browser
def test_hangs_once(request):
    before = Path(__file__).with_name("before")
    if not before.exists():
        before.touch()
        assert subprocess.run(SLEEPER).returncode == 0

@pytest.mark.browser
def test_always_hangs():
    assert subprocess.run(SLEEPER).returncode == 0

@pytest.mark.browser
def test_freezes_once():
    before = Path(__file__).with_name("thawed")
    if not before.exists():
        before.touch()
        assert False, FROZEN

@pytest.mark.browser
def test_fails_at_once():
    assert False
"""


@pytest.mark.parametrize("processes", ["0", "1"])
@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are found by /proc")
def test_what_hangs_is_ended_and_repeated_once(tmp_path: Path, processes: str) -> None:
    """A failure that is no hang is not repeated; one that hangs again fails; the same in a process of its own."""
    (tmp_path / "conftest.py").write_text(HOOKS, "utf-8")
    (tmp_path / "test_it.py").write_text(TESTS, "utf-8")
    (tmp_path / "pytest.ini").write_text("[pytest]\nmarkers = browser: as ours\n", "utf-8")
    here = {**os.environ, "PYTHONPATH": str(ROOT), "EVENLOAD_BROWSER_LIMIT_S": "1"}
    command = [sys.executable, "-m", "pytest", "-q", "-n", processes, "-p", "no:cacheprovider", str(tmp_path)]
    told = subprocess.run(command, cwd=tmp_path, env=here, capture_output=True, text=True, check=False, timeout=120)
    assert "2 failed, 2 passed" in told.stdout, told.stdout
    assert "test_hangs_once hung for 1 s and was repeated: passed" in told.stdout
    assert "test_always_hangs hung for 1 s and was repeated: failed" in told.stdout
    assert "test_freezes_once drew no more and was repeated: passed" in told.stdout
    assert "test_fails_at_once hung" not in told.stdout and "test_fails_at_once drew" not in told.stdout
