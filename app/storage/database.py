"""The store: opened, brought up to date, and handed out one transaction at a time."""
from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from sqlalchemy import Connection as Connection
from sqlalchemy import Engine, create_engine
from sqlalchemy.engine import URL, make_url

from app.domain.errors import DamagedDatabase, NotOurStore
from app.storage import schema
from app.storage.copies import (
    DAMAGED,
    INCOMING,
    copies,
    finish_restoring,
    is_whole,
    keep_copy,
    keep_private,
    last_set_aside,
    made_on,
    make_private_file,
    restore_copy,
    set_aside,
)
from app.storage.driver_errors import named_disk_faults, named_faults, named_url_faults
from app.storage.erasing import finish_erasing, is_unfinished
from app.storage.read_once import ReadOnce
from app.storage.records import mend_columns
from app.storage.row_checks import mend_rows
from app.storage.schema import LINEAGE, Lineage
from app.storage.sqlite_file import IN_BROWSER, outside_transactions, sqlite_engine

FILE_NAME = "evenload.db"
#: Larger files are not read through at start.
CHECKED_BYTES = 64_000_000
#: The newest records, which decide most: a session with its plan takes 1 to 2 ms to read, and far longer in a browser.
COMPARED_RECORDS = 0 if IN_BROWSER else 200


class Store:
    """Everything kept on this device or for this team. Use `open_store`."""

    def __init__(self, engine: Engine, path: Path | None) -> None:
        self.engine = engine
        self.path = path
        """The SQLite file; None for a store in memory or on a server."""
        self.name = str(path) if path else engine.url.render_as_string(hide_password=True)
        self.read_once = ReadOnce()
        """What screens ask for at every turn; a connection hands it on as an option of that name."""
        self.opened_keys: dict[str, bytes] = {}
        """Private keys of the coach by kind that a passphrase opened; they are in no file."""

    @contextmanager
    def begin(self) -> Iterator[Connection]:
        """One transaction that writes: all of it is kept, or, after any exception, none.

        Raises:
            NoRoom: the disk is full.
            StoreBusy: another program kept the store for longer than five seconds.
            DamagedDatabase: SQLite cannot read its file.
        """
        with named_faults(self.name), self.engine.connect() as db:
            db.execution_options(**schema.WRITES, read_once=self.read_once)
            with db.begin():
                yield db

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """One unchanging view of the store. Nothing written in it is kept.

        Raises:
            DamagedDatabase: SQLite cannot read its file.
        """
        with named_faults(self.name), self.engine.connect() as db:
            db.execution_options(read_once=self.read_once)
            yield db

    def close(self) -> None:
        """Lets go of the file, and of what was read from it."""
        self.read_once.forget()
        self.engine.dispose()


def open_store(where: Path | str, lineage: Lineage = LINEAGE) -> Store:
    """The store at a path or a database URL, made if it is not there and brought up to date.

    A path ending in `.db`, or of an existing file, is the file; any other is a folder that holds `evenload.db`.

    Raises:
        NewerDatabase: a newer version of the program wrote it; it was not touched.
        DamagedDatabase: it cannot be read and was set aside under `kept`; see `copies.last_good_copy`.
        NotOurStore: a database of something else; it was not touched.
        NoRoom, NoAccess, StoreBusy: as they say.
        WrongValue: a URL that is none, or of a database that cannot be opened here.
    """
    if not isinstance(where, str) or "://" not in where:
        return _open_file(store_file(Path(where)), lineage)
    with named_url_faults(where):
        url = make_url(where)
        is_sqlite = url.get_backend_name() == "sqlite"
        file = url.database if is_sqlite and url.database != ":memory:" else None
        engine = None if file else sqlite_engine(url) if is_sqlite else create_engine(url)
    if engine is None:
        return _open_file(store_file(Path(str(file))), lineage)
    store = Store(engine, None)
    _bring_up_to_date(store, lineage)
    return store


def store_file(where: Path) -> Path:
    """The file that `open_store` opens for a path."""
    return where if where.suffix == ".db" or where.is_file() else where / FILE_NAME


def copy_of_the_day(store: Store, today: date) -> Path | None:
    """Copies the store aside if no copy is of that day (UTC); returns the new copy, if one was made.

    A copy that bears a later day was made by a wrong clock, and keeps none away.

    What stands beside the newest records is compared with them first.

    Raises:
        NoRoom, DamagedDatabase: as `copies.keep_copy`.
    """
    if store.path is None or any(made_on(copy) == today for copy in copies(store.path)) or is_unfinished(store):
        return None
    with store.begin() as db:
        mend_columns(db, COMPARED_RECORDS)
    return keep_copy(store.path, LINEAGE.head)


def replace_store(store: Store, data: bytes, lineage: Lineage = LINEAGE) -> None:
    """Puts the bytes of another store's file in this one's place; what was there is set aside.

    Raises:
        DamagedDatabase, NewerDatabase, NotOurStore, NoRoom: the store is as it was.
    """
    if store.path is None:
        raise NotOurStore(path=store.name)
    store.close()
    replace_file(store.path, data, lineage)
    _bring_up_to_date(store, lineage)


def replace_file(path: Path, data: bytes, lineage: Lineage = LINEAGE) -> Path | None:
    """The same where no store is open, also where the one that is there cannot be; gives what was set aside, if any.

    Raises:
        DamagedDatabase, NewerDatabase, NotOurStore, NoRoom: all is as it was.
    """
    incoming = path.with_name(f"{path.name}.{INCOMING}")
    with named_disk_faults(str(path)):
        incoming.unlink(missing_ok=True)
        make_private_file(incoming)
        incoming.write_bytes(data)
    try:
        _assert_ours(incoming, lineage)
        return restore_copy(path, incoming)
    finally:
        incoming.unlink(missing_ok=True)


def _assert_ours(path: Path, lineage: Lineage) -> None:
    if not is_whole(path):
        raise DamagedDatabase(path=str(path), kept=str(path))
    other = Store(sqlite_engine(URL.create("sqlite", database=str(path))), path)
    try:
        with other.read() as db:
            if schema.version(db, other.name, lineage) == schema.EMPTY:
                raise NotOurStore(path=other.name)
    finally:
        other.close()


def _open_file(path: Path, lineage: Lineage) -> Store:
    with named_disk_faults(str(path)):
        # a folder that is there already keeps its rights: it may be shared on purpose
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    finish_restoring(path)
    if not path.exists():
        if copies(path):  # set aside or taken away: there is something to go back to
            raise DamagedDatabase(path=str(path), kept=str(last_set_aside(path) or path))
        _mark_of(path).unlink(missing_ok=True)
    make_private_file(path)
    store = Store(sqlite_engine(URL.create("sqlite", database=str(path))), path)
    try:
        _assert_whole(store, path)
        _bring_up_to_date(store, lineage)
    except DamagedDatabase as damage:
        store.close()
        raise DamagedDatabase(path=str(path), kept=str(set_aside(path, DAMAGED))) from damage
    except BaseException:
        store.close()
        raise
    return store


def _assert_whole(store: Store, path: Path) -> None:
    """Reads every page of a file of usual size, some 15 ms for 20 MB; damage in a larger one shows when it is read."""
    size = path.stat().st_size
    if size == 0 and (_mark_of(path).exists() or copies(path)):
        raise DamagedDatabase(path=store.name, kept=store.name)
    if 0 < size <= CHECKED_BYTES:
        with store.read() as db:
            if db.exec_driver_sql("PRAGMA quick_check(1)").scalar() != "ok":
                raise DamagedDatabase(path=store.name, kept=store.name)


def _bring_up_to_date(store: Store, lineage: Lineage) -> None:
    with store.read() as db:
        found = schema.version(db, store.name, lineage)
    # only now: until here it might have been somebody else's file
    if store.path is not None:
        keep_private(store.path)
        _use_wal(store)
        if found != schema.EMPTY:
            _assert_rows(store.path)
    if found != lineage.head:
        if found != schema.EMPTY and store.path is not None:
            keep_copy(store.path, found)
        with named_faults(store.name):
            schema.upgrade(store.engine, lineage)
    finish_erasing(store)
    if store.path is not None and not IN_BROWSER:  # there a copy is made at once, which tells the same
        make_private_file(_mark_of(store.path))


def _assert_rows(path: Path) -> None:
    """Compares every row that decides with its digest, in a file of usual size; copies mend what they can."""
    if path.stat().st_size <= CHECKED_BYTES and mend_rows(path, copies(path)):
        raise DamagedDatabase(path=str(path), kept=str(path))


def _mark_of(path: Path) -> Path:
    """An empty file beside the store: once it is there, an empty store is one that was emptied."""
    return path.with_name(f"{path.name}.made")


def _use_wal(store: Store) -> None:
    """Stays with the file, so once is enough; outside any transaction, where alone it takes effect."""
    if not IN_BROWSER:
        outside_transactions(store.engine, store.name, "PRAGMA journal_mode = WAL")
