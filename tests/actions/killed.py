"""Dying at every point of an action at which something has been written or is about to be.

`python -m tests.actions.killed FOLDER ACT AT` does one act on the store in a folder and is gone, without any tidying,
at its point number AT; it exits 0 where the act has fewer points.
"""
from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import event

from app.actions.people import current_person
from app.actions.training import check_in, screening
from app.actions.training.today import today
from app.device.clock import Clock, ManualClock
from app.storage.database import Store, open_store

#: The status of a process that died where it was to.
GONE = 9
#: First words of the statements before which somebody might pull the plug.
WRITES = ("BEGIN IMMEDIATE", "INSERT", "UPDATE", "DELETE")


class PlugPulled(BaseException):
    """Nothing in the program catches it."""


def pull() -> None:
    """Dies as an exception."""
    raise PlugPulled


def vanish() -> None:
    """Dies as a process: no handler, no flush, no rollback."""
    os._exit(GONE)


@contextmanager
def dying(store: Store, at: int, die: Callable[[], None]) -> Iterator[list[str]]:
    """Calls `die` at the point of that number, from 1; gives the points passed: writing statements and commits."""
    passed: list[str] = []

    def point(what: str) -> None:
        passed.append(what)
        if len(passed) == at:
            die()

    def statement(_db: object, _cursor: object, words: str, *_more: object) -> None:
        if words.upper().startswith(WRITES):
            point(words)

    def commit(_db: object) -> None:
        point("commit")

    event.listen(store.engine, "before_cursor_execute", statement)
    event.listen(store.engine, "commit", commit)
    try:
        yield passed
    finally:
        event.remove(store.engine, "before_cursor_execute", statement)
        event.remove(store.engine, "commit", commit)


def answer_with_a_sign(store: Store, clock: Clock, person_id: str) -> None:
    """A morning on which they have fainted."""
    answers = check_in.with_signs(check_in.blank_check_in(clock, person_id), ("fainting",))
    check_in.save_check_in(store, clock, answers)


def say_yes(store: Store, clock: Clock, person_id: str) -> None:
    """A doctor's yes to the stop that waits for one."""
    stop = today(store, clock, person_id).stop
    assert stop is not None
    screening.record_stop_yes(store, clock, person_id, stop, "Dr Moss", "doctor")


ACTS: dict[str, Callable[[Store, Clock, str], None]] = {"sign": answer_with_a_sign, "yes": say_yes}


def main(folder: str, act: str, at: str) -> None:
    """One act, up to its point."""
    store = open_store(Path(folder))
    person = current_person(store)
    assert person is not None
    with dying(store, int(at), vanish):
        ACTS[act](store, ManualClock(datetime(2026, 3, 2, 7, 30, tzinfo=UTC)), person.id)


if __name__ == "__main__":
    main(*sys.argv[1:])
