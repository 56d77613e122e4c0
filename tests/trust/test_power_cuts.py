"""Ended at any moment or with a disk that fails: the store opens, what was acknowledged is there, nothing is half."""
from __future__ import annotations

import json
import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest

from app.storage.database import open_store
from app.storage.settings import save_setting
from tests.sampling import examples, is_whole
from tests.trust.cutting import Cutter, left_wrong
from tests.trust.disk import Disk, Fault, built
from tests.trust.small_disk import BLOCK, filled, small_disk
from tests.trust.undertakings import UNDERTAKINGS

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="cuts are made in forked processes")


def test_nothing_is_lost_by_a_cut(tmp_path: Path) -> None:
    """At moments chosen by chance; `python -m tests.trust --kills N` makes as many as one likes."""
    library = built(tmp_path)
    preloaded = {"LD_PRELOAD": str(library)} if library else {}
    count = examples(10, 40)
    small = ("--small-disk",) if is_whole() else ()
    done = subprocess.run([sys.executable, "-m", "tests.trust.cutting", str(count), *small], cwd=ROOT, text=True,
                          env=os.environ | preloaded, capture_output=True, timeout=600)
    found = [json.loads(line) for line in done.stdout.splitlines()]
    assert [one for one in found if one["wrong"]] == [] and done.returncode == 0, done.stderr
    assert len(found) == count
    assert library is None or any(one["told"] == "cut" for one in found)


@pytest.fixture
def cutter(tmp_path: Path) -> Cutter:
    """One that can only end processes."""
    return Cutter(tmp_path, Disk())


@pytest.mark.parametrize("name", UNDERTAKINGS)
@pytest.mark.whole(keep=4)
def test_a_step_is_one_transaction_or_is_whole_in_each(name: str, cutter: Cutter) -> None:
    """What is acknowledged at once is kept at once; an erasing leaves a note between its rows and its files."""
    after = cutter.whole(name).after
    most = 2 if UNDERTAKINGS[name].erases else 1
    assert all(later - before <= most for before, later in pairwise(after)), after
    assert after[-1] > 0 or name in ("migration", "backup")


def test_a_small_disk_is_full_but_for_what_is_left_and_has_its_room_again(tmp_path: Path) -> None:
    """Where one can be mounted."""
    with small_disk(tmp_path) as place:
        if place is None:
            pytest.skip("this user cannot mount a disk")
        with filled(place, 3), pytest.raises(OSError, match="space"):
            (place / "much").write_bytes(bytes(8 * BLOCK))
        (place / "much").write_bytes(bytes(8 * BLOCK))
    assert not any(tmp_path.glob("disk/*"))


def test_what_is_missing_half_or_broken_is_seen(cutter: Cutter) -> None:
    """The judge itself: an older state, one that never was, and a file cut short."""
    name = "check-in"
    whole, undertaking = cutter.whole(name), UNDERTAKINGS[name]
    folder = cutter.begun(name)
    assert left_wrong(folder, whole, 0, undertaking) == ""
    assert left_wrong(folder, whole, 2, undertaking) == "what was acknowledged is not there"
    store = open_store(folder)
    with store.begin() as db:
        save_setting(db, "never", True)
    store.close()
    assert left_wrong(folder, whole, 0, undertaking) == "something half is there"
    (folder / "evenload.db").write_bytes((folder / "evenload.db").read_bytes()[:10_000])
    assert "does not open" in left_wrong(folder, whole, 0, undertaking)


def test_a_process_is_ended_in_the_midst(cutter: Cutter) -> None:
    """And not before its first step or after its last."""
    half = cutter.whole("check-in").moments[Fault.STATEMENT] // 2
    cut = cutter.cut("check-in", Fault.STATEMENT, half)
    assert cut.told == "cut" and 0 < cut.acknowledged < 4 and cut.wrong == ""
