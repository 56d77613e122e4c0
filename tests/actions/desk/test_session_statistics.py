"""What the figures need: exercises of every source that can be read, and a weight only while it is wanted."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.actions import erasing
from app.actions.desk import session_statistics
from app.domain.errors import WrongValue
from app.domain.model.exercise import Axis
from app.storage.database import open_store
from tests.domain.shipped import library

EXERCISE = """[[exercise]]
id = "{id}"
name = "Mine"
pattern = "squat"
position = "seated"
seconds_per_rep = {tempo}
muscles = ["quadriceps"]

[exercise.demand]
"""


def own_source(folder: Path, one: str, tempo: float) -> None:
    """A source of the coach's with one exercise."""
    (folder / "exercises").mkdir(parents=True, exist_ok=True)
    (folder / "source.toml").write_text('[source]\nid = "mine"\ncoach = "M"\nversion = 1\n', "utf-8")
    demand = "".join(f"{axis} = 0\n" for axis in Axis)
    (folder / "exercises/one.toml").write_text(EXERCISE.format(id=one, tempo=tempo) + demand, "utf-8")


def test_the_coachs_own_exercises_come_first_and_are_read_again_when_changed(tmp_path: Path) -> None:
    """Beside those that came along; a source that cannot be read is left out."""
    with_one = next(iter(library()))
    own_source(tmp_path / "sources/mine", with_one, 2.5)
    (tmp_path / "sources/broken").mkdir()
    (tmp_path / "sources/broken/source.toml").write_text("no toml [", "utf-8")
    store = open_store(tmp_path)
    try:
        known = session_statistics.known_exercises(store)
        assert known[with_one].rep_ms == 2500 and set(known) == set(library())
        own_source(tmp_path / "sources/mine", "new-one", 3)
        assert session_statistics.known_exercises(store)["new-one"].rep_ms == 3000
    finally:
        store.close()


def test_energy_is_off_until_a_weight_is_kept_and_off_again(tmp_path: Path) -> None:
    """Nobody's weight is there by itself, and it goes with the person."""
    store = open_store(tmp_path)
    try:
        assert session_statistics.body_weight(store, "p") is None
        session_statistics.keep_body_weight(store, "p", " 68 ")
        session_statistics.keep_body_weight(store, "q", "80")
        assert (session_statistics.body_weight(store, "p"), session_statistics.body_weight(store, "q")) == (68, 80)
        session_statistics.forget_body_weight(store, "q")
        erasing.erase(store, "p")
        assert (session_statistics.body_weight(store, "p"), session_statistics.body_weight(store, "q")) == (None, None)
    finally:
        store.close()


@pytest.mark.parametrize("words", ["", "29", "251", "68.5", "-70", "heavy", "0068000", "²"])
def test_what_is_no_weight_is_refused(words: str, tmp_path: Path) -> None:
    """And changes nothing."""
    store = open_store(tmp_path)
    try:
        with pytest.raises(WrongValue):
            session_statistics.keep_body_weight(store, "p", words)
        assert session_statistics.body_weight(store, "p") is None
    finally:
        store.close()
