"""No file takes more than seconds and some megabytes, whatever it asks for; each read in a process of its own."""
from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.exchange.hostile import FILES

ROOT = Path(__file__).parents[2]
#: Generous: a machine under load, and the largest files that are taken in.
MOST_S, MOST_MB = 15.0, 200
#: None of them is more to carry than this: of the packs, nearly all is one medium.
MOST_CARRIED = 4_000_000


@pytest.mark.whole(keep=6)
@pytest.mark.parametrize("name", FILES)
def test_what_asks_for_too_much_is_refused_in_time_and_room(name: str, tmp_path: Path) -> None:
    """Or taken in, where it is only large."""
    hostile, path = FILES[name], tmp_path / "file"
    path.write_bytes(hostile.make())
    assert path.stat().st_size < MOST_CARRIED
    told = subprocess.run([sys.executable, "-m", "tests.exchange.hostile", str(path), hostile.kind.value], cwd=ROOT,
                          capture_output=True, text=True, check=True, timeout=120).stdout.split()
    outcome, seconds, megabytes = told[0], float(told[1]), int(told[2])
    assert outcome == hostile.expect
    assert seconds < MOST_S and megabytes < MOST_MB, told
