"""Returns of a fortnight each into the coach's store, against json.loads of what they say and one executemany of the
rows that they become, in a store of the same tables. Arguments: how many returns, how often.
"""
from __future__ import annotations

import asyncio
import json
import shutil
import sqlite3
import sys
import tempfile
from contextlib import ExitStack, closing
from datetime import timedelta
from pathlib import Path
from typing import Any, NamedTuple

from .either import by_turns, either, tell
from .told import NOW, check_in, session

clocks = either("app.device.clock")
coach = either("app.actions.desk.publishing", "app.actions.coach")
database = either("app.storage.database")
file_kinds = either("app.exchange.crypto.file_kinds", "app.exchange.kinds", "app.exchange.files")
intake = either("app.actions.desk.intake", "app.actions.intake")
keys = either("app.exchange.crypto.keys", "app.exchange.keys")
letters = either("app.exchange.letters.letter", "app.exchange.letter")
person = either("app.domain.model.person", "app.domain.record")
returns = either("app.exchange.letters.returns", "app.exchange.returns")

DAYS = 14
Rows = list[tuple[Any, ...]]


class Desk(NamedTuple):
    """A coach's empty store, what was sent to it, and what is in the files."""

    folder: Path
    files: list[tuple[str, bytes]]
    said: list[bytes]


def fortnight(who: str) -> tuple[Any, ...]:
    """A check-in each day, a session each third."""
    found: list[Any] = []
    for back in range(DAYS, 0, -1):
        when = NOW - timedelta(days=back)
        found.append(check_in(who, f"{who}-c{back}", when, back % 3))
        if back % 3 == 0:
            found.append(session(who, f"{who}-s{back}", when))
    return tuple(found)


async def prepare(folder: Path, many: int) -> Desk:
    """The store with the coach's keys, closed, and the returns of so many people."""
    store = database.open_store(folder)
    own = await coach.ensure_coach_keys(store, clocks.ManualClock(NOW))
    store.close()
    files, said = [], []
    for number in range(many):
        who = f"p{number}"
        client = keys.ClientKeys(await keys.new_signing_pair(), await keys.new_sealing_pair())
        content = returns.ReturnContent(person.Person(who, f"Client {number}"), fortnight(who), (), NOW, 1)
        data = await returns.write_return(content, client=client, readers=[own.sealing.public, own.recovery_sealing])
        files.append((f"{who}.evenload-return", data))
        letter = await letters.read_letter(data, who, file_kinds.Kind.RETURN, [own.sealing])
        said.append(letter.json)
    return Desk(folder, files, said)


def copied(desk: Desk) -> Path:
    """The empty store once more."""
    folder = Path(tempfile.mkdtemp(dir=desk.folder.parent))
    shutil.copytree(desk.folder, folder, dirs_exist_ok=True)
    return folder


def taken(desk: Desk, store: Any) -> None:
    """By the program, whose store is open."""
    told = asyncio.run(intake.take_in(store, clocks.ManualClock(NOW), desk.files))
    assert all(one.error is None and one.new for one in told)


def rows_of(folder: Path) -> tuple[str, Rows, Rows]:
    """The statement that writes a record, the rows, and those of the people."""
    with sqlite3.connect(folder / database.FILE_NAME) as db:
        rows, people = (db.execute(f"SELECT * FROM {name}").fetchall() for name in ("record", "person"))
    return f"INSERT INTO record VALUES ({', '.join('?' * len(rows[0]))})", rows, people


def loaded(desk: Desk, folder: Path, statement: str, rows: Rows, people: Rows) -> None:
    """The least that anybody could do: one transaction for everything, nothing opened, checked or compared."""
    for said in desk.said:
        json.loads(said)
    with sqlite3.connect(folder / database.FILE_NAME) as db:
        db.executemany(f"INSERT INTO person VALUES ({', '.join('?' * len(people[0]))})", people)
        db.executemany(statement, rows)
    db.close()


def main(many: int, times: int) -> None:
    """Measures and prints."""
    with tempfile.TemporaryDirectory() as folder:
        desk = asyncio.run(prepare(Path(folder) / "desk", many))
        first = copied(desk)
        with closing(database.open_store(first)) as store:
            taken(desk, store)
        rows = rows_of(first)
        empty = iter([copied(desk) for _ in range(times)])
        with ExitStack() as stack:
            stores = iter([stack.enter_context(closing(database.open_store(copied(desk)))) for _ in range(times)])
            found = by_turns(lambda: taken(desk, next(stores)), lambda: loaded(desk, next(empty), *rows), times)
    tell(found, returns=many, records=len(rows[1]))


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
