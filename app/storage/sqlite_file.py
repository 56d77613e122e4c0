"""How SQLite is asked to keep its file: durable, tidy behind what was deleted, and one writer at a time."""
from __future__ import annotations

import sys
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL
from sqlalchemy.pool import StaticPool

from app.storage.driver_errors import named_faults
from app.storage.schema import WRITES

BUSY_MS = 5_000
#: A browser has no memory shared between processes, which a write-ahead log needs.
IN_BROWSER = sys.platform == "emscripten"


def outside_transactions(engine: Engine, path: str, words: str) -> list[Any]:
    """Runs a statement that a transaction would hinder; gives its rows."""
    with named_faults(path), engine.connect() as db:
        driver = db.connection.dbapi_connection
        return driver.cursor().execute(words).fetchall() if driver is not None else []


def sqlite_engine(url: URL) -> Engine:
    """An engine whose transactions are begun here, so that a writer has the lock from its first word on."""
    options: dict[str, Any] = {"connect_args": {"timeout": BUSY_MS / 1000, "check_same_thread": False}}
    if url.database in (None, "", ":memory:"):
        options["poolclass"] = StaticPool
    engine = create_engine(url, **options)
    event.listen(engine, "connect", _prepare)
    event.listen(engine, "begin", _begin)
    return engine


def _prepare(driver: Any, _record: object) -> None:
    # transactions are begun by `_begin`; left to itself the driver begins none before a SELECT or a CREATE
    driver.isolation_level = None
    cursor = driver.cursor()
    for words in ("synchronous = FULL", "foreign_keys = ON", "secure_delete = ON"):
        cursor.execute(f"PRAGMA {words}")
    if IN_BROWSER:
        cursor.execute("PRAGMA journal_mode = TRUNCATE")
    cursor.close()


def _begin(db: Connection) -> None:
    # taking the lock for writing at once, since one asked for in mid-transaction is refused without waiting
    writes = db.get_execution_options().keys() >= WRITES.keys()
    db.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
