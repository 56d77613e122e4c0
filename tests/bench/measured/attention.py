"""The attention list over many clients' three years, against one SQL aggregate over what they told since the day from
which harm is looked for. Arguments: how many clients, how often.
"""
from __future__ import annotations

import json
import random
import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from .either import by_turns, either, tell

clocks = either("app.device.clock")
database = either("app.storage.database")
desk = either("app.actions.desk.attention_list", "app.actions.desk")
people = either("app.storage.people")
person = either("app.domain.model.person", "app.domain.record")

NOW = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)
DAYS, EACH = 3 * 365, 3
"""A check-in and a session every third day."""
SINCE = (NOW - timedelta(days=desk.HARM_WINDOW_DAYS)).date().isoformat()
AGGREGATE = """SELECT person_id, max(local_date), max(pain), max(rpe - target_rpe), count(sign), count(*) FROM record
WHERE deleted = 0 AND local_date >= ? GROUP BY person_id"""
PAYLOAD = json.dumps({"told": "x" * 300})
"""Never read by the list; as long as a short record."""


def rows(many: int) -> Iterator[dict[str, Any]]:
    """Every record of every client, by column; the same in each run."""
    chance = random.Random(1)
    for number in range(many):
        quiet_days = chance.choice((0, 0, 0, 0, 20))
        for back in range(DAYS, quiet_days, -EACH):
            when = NOW - timedelta(days=back)
            told = {"person_id": f"p{number}", "revision": 1, "local_date": when.date().isoformat(), "offset_min": 0,
                    "deleted": 0, "payload": PAYLOAD, "hash": f"{number:032}{back:032}",
                    "pain": chance.choices((0, 1, 2, 3, 5), (40, 30, 20, 9, 1))[0],
                    "utc": when.isoformat(timespec="microseconds").replace("+00:00", "Z")}
            yield told | {"id": f"c{back}", "kind": "check_in",
                          "sign": "fainted" if chance.random() < 0.0005 else None}
            yield told | {"id": f"s{back}", "kind": "session", "session": "short", "rpe": chance.choice((4, 5, 6, 7)),
                          "target_rpe": 5, "completed": 100, "took_s": 1200, "ending": "finished", "by_hand": "[]"}


def fill(folder: Path, many: int) -> int:
    """Writes them; how many records."""
    store = database.open_store(folder)
    with store.begin() as db:
        for number in range(many):
            people.add_person(db, person.Person(f"p{number}", f"Client {number}"), people.Trains.ELSEWHERE, NOW)
    store.close()
    with closing(sqlite3.connect(folder / database.FILE_NAME)) as db, db:
        names = [name for _, name, *_ in db.execute("PRAGMA table_info(record)")]
        empty = dict.fromkeys(names)
        statement = f"INSERT INTO record VALUES ({', '.join(f':{name}' for name in names)})"
        db.executemany(statement, (empty | row for row in rows(many)))
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
