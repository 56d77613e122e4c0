"""Many windows at once: each is answered, nothing is logged, nothing stays, and what was said to be kept is kept."""
from __future__ import annotations

import logging
import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from app.storage.database import open_store
from tests.sampling import examples
from tests.trust.crowd import GOING, WALKS, Wave
from tests.trust.crowd_app import Kept
from tests.trust.crowd_load import MOST_GROWN_MIB, Load, load, not_whole
from tests.trust.wire import Tree, words

CLIENTS = 8


@pytest.mark.skipif(sys.platform != "linux", reason="the server is asked by a signal, and its memory by /proc")
def test_a_crowd_is_answered_and_leaves_nothing_behind() -> None:
    """Eight windows in one wave, in four with `--all`; `python -m tests.trust --crowd N` brings two browsers too."""
    found = load(CLIENTS, examples(1, 4))
    assert found.amiss() == [], "\n".join(found.rows())
    assert found.windows > CLIENTS and found.walks > 0
    assert all(one.answer_s and one.left and one.resumed and one.turned_away for one in found.waves)


def test_every_walk_and_every_way_to_go_is_among_the_few() -> None:
    """Eight are enough for each, one at least."""
    assert len(WALKS) <= CLIENTS
    assert {(number + number // len(WALKS)) % len(GOING) for number in range(CLIENTS)} == set(range(len(GOING)))


def wave(memory_mib: float = 100.0) -> Wave:
    """One window that came and went."""
    return Wave(1, first_s=[0.1], left=1, resumed=1, memory_mib=memory_mib)


def test_whatever_is_amiss_is_seen() -> None:
    """Of each kind, and nobody having been tried."""
    well = wave()
    assert Load([well, well, well]).amiss() == []
    assert Load().amiss() == ["nobody was tried"] and Load([Wave(0)]).amiss() == ["nobody was tried"]
    grown = Load([well, well, wave(101.0 + MOST_GROWN_MIB)]).amiss()
    assert grown == [f"memory grew by {MOST_GROWN_MIB + 1:.1f} MiB from the second wave on"]
    assert Load([well, wave(200.0), wave(200.0)]).amiss() == []
    for one, said in ((replace(well, first_s=[]), "0 of 1 were answered"),
                      (replace(well, resumed=0), "nobody who came"),
                      (replace(well, visits=2), "2 visits are left"), (replace(well, amiss=["slow"]), "slow"),
                      (replace(well, refused=["403"]), "the owner was refused: 403")):
        assert [what.startswith(f"wave 1: {said}") for what in Load([one]).amiss()] == [True], said
    told = Load([well], log=["Traceback"], browsers_amiss=["browser"], records_amiss=["store"])
    assert told.amiss() == ["the server's log: Traceback", "browser", "store"]
    assert [row for row in told.rows() if "AMISS: store" in row]


def test_what_was_said_to_be_kept_and_is_not_is_seen(ready: Path) -> None:
    """An entry too few, answers of somebody else, no session."""
    with closing(open_store(ready)) as store:
        assert not_whole(store, walks=0, browsers=False) == []
        assert not_whole(store, walks=1, browsers=True) == [
            "0 diary entries are kept, 1 were said to be", "the check-in is kept as [(4, 4, 4)], not as [(5, 5, 5)]",
            "0 sessions are kept"]


def test_visits_are_counted_by_what_flet_logs() -> None:
    """Those that began less those that have left memory."""
    kept = Kept()
    for said in ("New FletApp: a", "New session created (1 total): b", "New FletApp: c",
                 "FletApp was garbage collected: a", "Session was garbage collected: %s"):
        kept.emit(logging.LogRecord("flet", logging.INFO, "", 0, said, ("b",) if "%s" in said else (), None))
    assert (kept.left["visits"], kept.left["windows"], kept.opened) == (0, 1, 2)


def test_what_comes_by_the_wire_changes_the_tree() -> None:
    """Put in, put elsewhere, replaced and taken away, each at its place; what is not shown cannot be changed."""
    one, two = ({"_c": "Text", "_i": number, "value": str(number)} for number in (3, 4))
    tree = Tree({"_c": "Page", "_i": 1, "views": [{"_c": "View", "_i": 2, "controls": [one]}]})
    paths = [0, {"controls": [1, {0: [2]}]}]
    tree.change(2, [paths, [1, 1, 1, two], [0, 2, "value", "three"], [3, 1, 0, 1, 1]])
    assert list(words(tree.page)) == ["4", "three"]
    tree.change(2, [[0, {"controls": [1]}], [2, 1, 0]])
    assert list(words(tree.page)) == ["three"]
    with pytest.raises(LookupError, match="no control 9"):
        tree.change(9, [[0]])
