"""Every planted fault is seen by the tests that should see it."""
from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.faults import planted_around, planted_checks
from tests.faults.planted import FAULTS as OF_THE_DOSE
from tests.faults.planted import Fault

FAULTS = OF_THE_DOSE + planted_around.FAULTS + planted_checks.FAULTS

ROOT = Path(__file__).resolve().parents[2]
GREEN, FAILED = 0, 1


def planted(fault: Fault, folder: Path) -> Path:
    """A copy of the program with the fault in it."""
    for part in ("app", "tests", "assets", "migrations"):
        shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns("__pycache__", "*.wav", "*.ttf"))
    shutil.copy(ROOT / "pyproject.toml", folder)
    target = folder / fault.file
    text = target.read_text("utf-8")
    assert text.count(fault.words) == 1, f"{fault.name}: its words stand {text.count(fault.words)} times"
    target.write_text(text.replace(fault.words, fault.instead), "utf-8")
    return folder


def outcome(fault: Fault, folder: Path) -> int:
    """pytest's exit status for the tests that should see the fault."""
    here = {**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1", "EVENLOAD_WHOLE": "0"}
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", fault.seen_by]
    return subprocess.run(command, cwd=folder, env=here, capture_output=True, check=False, timeout=300).returncode


def test_at_least_thirty_faults_each_named_once() -> None:
    """No fault is counted twice, and each still has its place in the program."""
    assert len({f.name for f in FAULTS}) == len(FAULTS) >= 30
    for fault in FAULTS:
        assert (ROOT / fault.file).read_text("utf-8").count(fault.words) == 1, fault.name
        assert (ROOT / fault.seen_by).is_file(), fault.name


@pytest.mark.whole(keep=2)
@pytest.mark.parametrize("fault", FAULTS, ids=lambda f: f.name)
def test_a_planted_fault_is_seen(fault: Fault, tmp_path: Path) -> None:
    """The tests named beside a fault fail on it, and fail as tests do, not for want of a module."""
    assert outcome(fault, planted(fault, tmp_path)) == FAILED
