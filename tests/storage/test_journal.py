"""A running session survives whatever ends the program."""
from __future__ import annotations

import random
import subprocess
import sys
import time
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy.exc import IntegrityError

from app.storage import journal, records
from app.storage.database import Store, open_store
from app.storage.export import logical_dump
from app.storage.journal import RunState, SavedPosition
from tests.sampling import examples
from tests.storage import story

SESSION = """
import sys
from datetime import datetime, timedelta, UTC
from app.storage import journal
from app.storage.database import open_store
from tests.storage.story import T0

store = open_store(sys.argv[1])
at = 10_000
while True:
    at += 1_000
    beat = journal.SavedPosition(at, T0 + timedelta(milliseconds=at), at)
    with store.begin() as db:
        if at % 3_000:
            journal.beat(db, "r1", beat)
        else:
            journal.append_event(db, "r1", {"kind": "tick", "at": at}, beat)
    print(at, flush=True)
"""


def test_a_session_comes_back_as_it_stood(told: Store) -> None:
    """Plan, context, events in their order, and the last heartbeat."""
    with told.begin() as db:
        journal.append_event(db, "r1", {"kind": "resume"}, SavedPosition(9_500, story.T0 + timedelta(seconds=20),
                                                                         25_000))
        journal.beat(db, "r1", SavedPosition(10_500, story.T0 + timedelta(seconds=21), 26_000))
    with told.read() as db:
        run = journal.running(db, "p-ines")
    assert run is not None
    assert (run.plan, run.pack, run.about, run.started) == (story.PLAN, story.SHA, {"place": "Home"}, story.T0)
    assert run.beat == SavedPosition(10_500, story.T0 + timedelta(seconds=21), 26_000)
    told_as = [(e.seq, e.event["kind"], e.beat.mono_ms) for e in run.entries]
    assert told_as == [(1, "pause", 15_000), (2, "resume", 25_000)]


def test_nobody_else_is_in_it(told: Store) -> None:
    """Several people on one device."""
    with told.read() as db:
        assert journal.running(db, "p-tomas") is None


def test_an_ended_session_is_not_offered_again(told: Store) -> None:
    """Its journal stays."""
    with told.begin() as db:
        journal.end_run(db, "r1")
        records.save_record(db, story.session_done("s9", "p-ines", 1))
        assert journal.running(db, "p-ines") is None
        assert '"run_id":"r1"' in logical_dump(db)


def test_a_session_begun_over_another_leaves_it_as_abandoned(told: Store) -> None:
    """One at a time for each person."""
    with told.begin() as db:
        journal.start_run(db, "r2", "p-ines", story.PLAN, story.SHA, {}, SavedPosition(0, story.T0, 0))
        run = journal.running(db, "p-ines")
        assert run is not None and (run.id, run.entries) == ("r2", ())
        assert f'"state":"{RunState.ABANDONED.value}"' in logical_dump(db)


def test_a_changed_plan_is_kept(told: Store) -> None:
    """As after "easier now"."""
    shorter = story.Timeline("short", story.PLAN.steps[:2], story.PLAN.dose)
    with told.begin() as db:
        journal.replace_plan(db, "r1", shorter)
        run = journal.running(db, "p-ines")
    assert run is not None and run.plan == shorter


def test_a_session_that_was_never_begun_is_a_mistake(told: Store) -> None:
    """Nothing is journaled into nowhere."""
    with pytest.raises(KeyError), told.begin() as db:
        journal.beat(db, "r9", SavedPosition(0, story.T0, 0))
    with pytest.raises(IntegrityError), told.begin() as db:
        journal.append_event(db, "r9", {}, SavedPosition(0, story.T0, 0))
    with pytest.raises(IntegrityError), told.begin() as db:
        journal.start_run(db, "r9", "nobody", story.PLAN, "", {}, SavedPosition(0, story.T0, 0))


def _killed_after(path: Path, wait_s: float) -> list[int]:
    """Positions that a session said it had kept before it was killed."""
    running = subprocess.Popen(
        [sys.executable, "-c", SESSION, str(path)], cwd=Path(__file__).parents[2], stdout=subprocess.PIPE, text=True
    )
    assert running.stdout is not None
    shown = [int(running.stdout.readline())]
    time.sleep(wait_s)
    running.kill()
    shown += [int(line) for line in running.stdout.read().splitlines(keepends=True) if line.endswith("\n")]
    running.wait()
    return shown


@pytest.mark.parametrize("number", range(examples(3, 20)))
def test_a_killed_program_loses_nothing_that_it_showed(told: Store, number: int) -> None:
    """At a random moment: every event that was shown is there, and the position within one beat."""
    assert told.path is not None
    told.close()
    shown = _killed_after(told.path, random.Random(number).uniform(0, 0.3))
    store = open_store(told.path)
    with store.read() as db:
        run = journal.running(db, "p-ines")
    assert run is not None
    assert 0 <= run.beat.position_ms - shown[-1] <= 1_000
    kept = [e.event["at"] for e in run.entries if e.event["kind"] == "tick"]
    expected = [at for at in range(11_000, run.beat.position_ms + 1, 1_000) if at % 3_000 == 0]
    assert kept == expected
    assert [e.seq for e in run.entries] == list(range(1, len(expected) + 2))
