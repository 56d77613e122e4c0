"""The attention list over many clients' three years, against one SQL aggregate over what they told since the day from
which harm is looked for. Arguments: how many clients, how often.
"""
from __future__ import annotations

import random
import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing
from datetime import timedelta
from functools import cache
from pathlib import Path
from typing import Any

from .either import by_turns, either, tell
from .told import NOW, check_in, session

clocks = either("app.device.clock")
codec = either("app.storage.codec")
database = either("app.storage.database")
desk = either("app.actions.desk.attention_list", "app.actions.desk")
people = either("app.storage.people")
person = either("app.domain.model.person", "app.domain.record")
summaries = either("app.storage.summaries")

DAYS, EACH = 3 * 365, 3
"""A check-in and a session every third day."""
SINCE = (NOW - timedelta(days=28)).date().isoformat()
AGGREGATE = """SELECT person_id, max(local_date), max(pain), max(rpe - target_rpe), count(sign), count(*) FROM record
WHERE deleted = 0 AND local_date >= ? GROUP BY person_id"""
SOMEBODY, ONCE, MADE = "somebody", "once", NOW - timedelta(days=9_000)
"""In a record that others are made from."""


@cache
def form(pain: int, rpe: int, fainted: bool) -> tuple[str, dict[str, Any]]:
    """A record as text, and what stands beside it; a check-in where nothing is said of effort."""
    value = session(SOMEBODY, ONCE, MADE, pain, rpe) if rpe else check_in(SOMEBODY, ONCE, MADE, pain, fainted=fainted)
    return codec.to_text(value), summaries.narrow_columns(value)


def row(who: str, back: int, pain: int, rpe: int = 0, *, fainted: bool = False) -> dict[str, Any]:
    """A record of so many days ago, as the program would write it."""
    text, beside = form(pain, rpe, fainted)
    kind, ahead = ("session", timedelta(hours=1)) if rpe else ("check_in", timedelta())
    when, name = NOW - timedelta(days=back) + ahead, f"{kind[0]}{back}"
    for was, now in ((codec.utc_text(MADE + ahead), codec.utc_text(when)), (f'"{SOMEBODY}"', f'"{who}"'),
                     (f'"{MADE.date()}"', f'"{when.date()}"'), (f'"{ONCE}"', f'"{name}"')):
        assert was in text
        text = text.replace(was, now)
    return {"person_id": who, "id": name, "kind": kind, "revision": 1, "utc": codec.utc_text(when),
            "local_date": when.date().isoformat(), "offset_min": 0, "deleted": 0, "payload": text,
            "hash": codec.digest(text), **beside}


def rows(many: int) -> Iterator[dict[str, Any]]:
    """Every record of every client, by column; the same in each run."""
    chance = random.Random(1)
    for number in range(many):
        quiet_days = chance.choice((0, 0, 0, 0, 20))
        for back in range(DAYS, quiet_days, -EACH):
            pain = chance.choices((0, 1, 2, 3, 5), (40, 30, 20, 9, 1))[0]
            yield row(f"p{number}", back, pain, fainted=chance.random() < 0.0005)
            yield row(f"p{number}", back, pain, chance.choice((4, 5, 6, 7)))


def fill(folder: Path, many: int) -> int:
    """Writes them; how many records."""
    store = database.open_store(folder)
    with store.begin() as db:
        for number in range(many):
            people.add_person(db, person.Person(f"p{number}", f"Client {number}"), people.Trains.ELSEWHERE, NOW)
    store.close()
    with closing(sqlite3.connect(folder / database.FILE_NAME)) as db, db:
        # a column that this script does not know of is empty, or 0 where it may not be
        empty = {name: 0 if needed else None for _, name, _, needed, *_ in db.execute("PRAGMA table_info(record)")}
        statement = f"INSERT INTO record VALUES ({', '.join(f':{name}' for name in empty)})"
        db.executemany(statement, (empty | one for one in rows(many)))
        return int(db.execute("SELECT count(*) FROM record").fetchone()[0])


def main(many: int, times: int) -> None:
    """Measures and prints."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "desk"
        records = fill(folder, many)
        clock = clocks.ManualClock(NOW)
        with closing(database.open_store(folder)) as store, closing(sqlite3.connect(folder / database.FILE_NAME)) as db:
            seen = desk.attention_list(store, clock)
            assert seen.people == many and seen.harm and seen.silence
            found = by_turns(lambda: desk.attention_list(store, clock),
                             lambda: db.execute(AGGREGATE, (SINCE,)).fetchall(), times)
    tell(found, clients=many, records=records, listed=len(seen.harm) + len(seen.silence))


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
