"""A store that something happened to: noticed, said, mended where it can be, and no changed row is believed."""
from __future__ import annotations

import errno
import json
import os
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import select

from app.domain.errors import DamagedDatabase, NoAccess, NoRoom, StorageError
from app.domain.model.record import CheckIn
from app.storage import database, driver_errors, packs, people, records, replies, row_checks, tables
from app.storage.checked_text import ChangedRow, with_check, without_check
from app.storage.copies import copies, is_whole, keep_copy, last_good_copy, restore_copy
from app.storage.database import Store, open_store
from app.storage.export import logical_dump
from app.words.errors import error_text
from tests.storage import story

#: One digit changed in the text of a row, as a flipped bit does it, in every kind of row that decides.
CHANGES = {
    "pain": "update record set payload = replace(payload, ':4', ':0') where payload like '%:4%'",
    "a record's digest": "update record set hash = 'g' || substr(hash, 2)",
    **{f"{column} of a {table}": f"update {table} set {column} = substr({column}, 1, 2) || 'Z' || substr({column}, 4)"
       for table, column in (("person", "payload"), ("reply", "payload"), ("run", "plan"), ("run", "about"),
                             ("pack", "content"))},
}


def dump(store: Store) -> str:
    """Everything in it."""
    with store.read() as db:
        return logical_dump(db)


def texts(dumped: str) -> set[str]:
    """The texts that carry a digest; what else stands in a row is not covered by one."""
    rows = [line.partition(" ")[2] for line in dumped.splitlines() if line.split(" ")[0] in row_checks.CHECKED]
    names = {text for columns in row_checks.CHECKED.values() for text, _ in columns}
    return {row[name] for row in map(json.loads, rows) for name in names & row.keys()}


def closed(store: Store) -> Path:
    """Where it lies, no longer in use."""
    assert store.path is not None
    store.close()
    return store.path


def change(path: Path, words: str) -> None:
    """Below the program, with the journal emptied, as a disk would do it."""
    with closing(sqlite3.connect(path)) as db, db:
        assert db.execute(words).rowcount > 0, "the story has no such row"
    with closing(sqlite3.connect(path)) as db:
        db.execute("PRAGMA wal_checkpoint(TRUNCATE)")


@pytest.mark.parametrize("what", CHANGES)
def test_a_changed_row_without_a_copy_is_said_and_nothing_is_deleted(what: str, told: Store) -> None:
    """The file is set aside whole."""
    path = closed(told)
    change(path, CHANGES[what])
    with pytest.raises(DamagedDatabase) as caught:
        open_store(path)
    kept = Path(str(caught.value.what["kept"]))
    assert kept != path and kept.is_file()
    assert "--restore" in error_text(caught.value) and kept.name in error_text(caught.value)


@pytest.mark.parametrize("what", CHANGES)
def test_a_changed_row_is_put_right_from_a_copy(what: str, told: Store) -> None:
    """Where the copy has the same state of it; what was written since stays."""
    assert told.path is not None
    keep_copy(told.path, "0002")
    with told.begin() as db:
        people.count_choice(db, "p-ines", "written", "chosen since", story.T0)
    before, path = dump(told), closed(told)
    change(path, CHANGES[what])
    assert dump(open_store(path)) == before


@pytest.mark.parametrize("what", CHANGES)
def test_a_copy_in_which_the_row_has_changed_too_mends_nothing(what: str, told: Store) -> None:
    """As where the disk failed before the copy was made."""
    assert told.path is not None
    copy = keep_copy(told.path, "0002")
    path = closed(told)
    for one in (path, copy):
        change(one, CHANGES[what])
    with pytest.raises(DamagedDatabase):
        open_store(path)


def test_a_copy_with_another_state_mends_nothing(told: Store) -> None:
    """An older state would undo what somebody said since."""
    assert told.path is not None
    keep_copy(told.path, "0002")
    with told.begin() as db:
        mine = records.latest(db, "p-ines", CheckIn)
        assert mine is not None
        records.save_record(db, mine)
    path = closed(told)
    change(path, f"update record set payload = replace(payload, '2', '3') where id = '{mine.stamp.id}'")
    with pytest.raises(DamagedDatabase):
        open_store(path)


@pytest.mark.parametrize("what", CHANGES)
def test_a_row_that_changes_while_the_store_is_open_is_not_believed(
    what: str, told: Store, monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Also in a file too large to be looked through at start."""
    path = closed(told)
    change(path, CHANGES[what])
    monkeypatch.setattr(database, "CHECKED_BYTES", 0)
    with pytest.raises(DamagedDatabase) as caught:
        read_all(open_store(path))
    assert "left as they are" in error_text(caught.value)


def read_all(store: Store) -> None:
    """Every row that decides, as the program reads it."""
    with store.read() as db:
        for person in people.people(db):
            records.all_records(db, person.id)
            for direction in replies.Direction:
                replies.replies(db, person.id, direction)
        for pack in packs.packs(db):
            packs.pack(db, pack.sha256)
        db.execute(select(tables.run)).all()


def test_a_row_of_a_version_that_wrote_no_digest_is_read(told: Store) -> None:
    """As ever."""
    path = closed(told)
    with closing(sqlite3.connect(path)) as db, db:
        for key, text in db.execute("select id, payload from person").fetchall():
            db.execute("update person set payload = ? where id = ?", (without_check(text), key))
    with open_store(path).read() as db:
        assert people.people(db) == (story.INES, story.TOMAS)


@pytest.mark.parametrize("text", ["{}", '{"a":1}', '{"a":"\\"~\\":\\"0123456789abcdef\\"}"}'])
def test_a_digest_comes_off_as_it_went_on(text: str) -> None:
    """And any changed letter of what it covers is seen."""
    checked = with_check(text)
    assert without_check(checked) == text
    for at in range(1, len(text) - 1):
        with pytest.raises(ChangedRow):
            without_check(checked[:at] + ("x" if checked[at] != "x" else "y") + checked[at + 1:])


@pytest.mark.parametrize("words", ["pain = 0", "sign = 'chest'", "deleted = 1", "local_date = '1999-01-01'", "rpe = 1"])
def test_what_stands_beside_a_record_is_put_right_once_a_day(words: str, told: Store) -> None:
    """The desk reads those columns alone; a changed one would hide harm."""
    before = dump(told)
    with told.begin() as db:
        db.exec_driver_sql(f"update record set {words}")
    assert dump(told) != before
    assert database.copy_of_the_day(told, story.T0.date()) is not None
    assert dump(told) == before


def test_no_copy_is_kept_of_a_store_with_a_changed_row(told: Store) -> None:
    """It would push out a good one."""
    assert told.path is not None
    good = keep_copy(told.path, "0002")
    path = closed(told)
    change(path, CHANGES["pain"])
    with pytest.raises(DamagedDatabase):
        keep_copy(path, "0002")
    assert copies(path) == (good,)
    assert not path.with_name(f"{path.name}.copying").exists()


def test_no_copy_is_kept_of_a_store_whose_index_has_come_apart(told: Store) -> None:
    """Which a look at the pages alone does not show."""
    path = closed(told)
    with closing(sqlite3.connect(path)) as db, db:
        db.execute("PRAGMA writable_schema = ON")
        wrong = "create index record_by_date on record (utc)"
        db.execute("update sqlite_master set sql = ? where name = 'record_by_date'", (wrong,))
    assert not is_whole(path)
    with pytest.raises(DamagedDatabase):
        keep_copy(path, "0002")


def test_a_copy_with_a_changed_row_is_not_offered_and_not_put_back(told: Store) -> None:
    """The one before it is."""
    assert told.path is not None
    first, second = keep_copy(told.path, "0002"), keep_copy(told.path, "0002")
    change(second, CHANGES["pain"])
    assert last_good_copy(closed(told)) == first
    with pytest.raises(DamagedDatabase):
        restore_copy(first.with_name("evenload.db"), second)


def test_an_empty_file_is_no_new_store_once_there_was_one(told: Store) -> None:
    """Also where no copy lies beside it."""
    path = closed(told)
    for end in ("-wal", "-shm"):
        path.with_name(path.name + end).unlink(missing_ok=True)
    path.write_bytes(b"")
    assert not copies(path)
    with pytest.raises(DamagedDatabase):
        open_store(path)


def test_without_its_file_a_store_with_copies_is_no_new_one(told: Store) -> None:
    """It was set aside or taken away; asking again makes no further files. Without copies a new one begins."""
    assert told.path is not None
    copy = keep_copy(told.path, "0002")
    path = closed(told)
    path.unlink()
    for _ in range(2):
        with pytest.raises(DamagedDatabase):
            open_store(path)
        assert not path.exists()
    copy.unlink()
    assert dump(open_store(path)) == ""


def test_a_store_that_lost_the_name_of_its_version_is_damaged(told: Store) -> None:
    """And not one without tables."""
    path = closed(told)
    change(path, "delete from alembic_version")
    with pytest.raises(DamagedDatabase):
        open_store(path)


def test_a_folder_in_the_place_of_the_store_is_said(tmp_path: Path) -> None:
    """With what to do about it."""
    (tmp_path / "evenload.db").mkdir()
    with pytest.raises(NoAccess) as caught:
        open_store(tmp_path)
    assert "another folder" in error_text(caught.value)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="rights do not hold an administrator back")
@pytest.mark.parametrize("mode", [0o000, 0o500])
def test_a_store_without_rights_is_said(mode: int, told: Store) -> None:
    """The file or the folder."""
    path = closed(told)
    path.parent.chmod(mode)
    try:
        with pytest.raises(NoAccess):
            open_store(path)
    finally:
        path.parent.chmod(0o700)


@pytest.mark.parametrize("error", [sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_IOERR | 4864])
def test_no_room_is_told_from_no_access(error: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """SQLite cannot say why a file beside the store could not be made or grown; the disk can."""
    def refused() -> None:
        with driver_errors.named_faults(str(tmp_path / "evenload.db")):
            cause = sqlite3.OperationalError("unable to open")
            cause.sqlite_errorcode = error
            raise cause

    with pytest.raises(NoAccess):
        refused()
    usage = shutil.disk_usage(tmp_path)
    monkeypatch.setattr(shutil, "disk_usage", lambda _: usage._replace(free=0))
    with pytest.raises(NoRoom):
        refused()


@pytest.mark.parametrize("at", range(0, 60, 3))
def test_any_page_that_was_scribbled_on_is_noticed_or_read_as_it_was_written(at: int, told: Store) -> None:
    """What decides is as it was, or the store is refused; it never says something else."""
    before, path = dump(told), closed(told)
    data = bytearray(path.read_bytes())
    start = (at * 1024 + 100) % len(data)
    data[start:start + 8] = bytes(b ^ 0x01 for b in data[start:start + 8])
    path.write_bytes(data)
    try:
        found = dump(open_store(path))
    except StorageError:
        return
    assert texts(found) <= texts(before)


def test_a_restoring_that_was_cut_off_is_finished_at_the_next_start(told: Store) -> None:
    """Between the old store set aside and the copy put in place there is no store: not a new, empty one is made."""
    path = closed(told)
    before = path.read_bytes()
    path.rename(path.with_name(f"{path.name}.replaced-1"))
    path.with_name(f"{path.name}.restoring").write_bytes(before)
    store = open_store(path)
    assert texts(dump(store))
    assert not path.with_name(f"{path.name}.restoring").exists()


def test_a_copy_that_cannot_be_put_in_place_leaves_the_store_as_it_was(told: Store, monkeypatch: pytest.MonkeyPatch
                                                                       ) -> None:
    """A disk that fails at the last step of a restoring."""
    before = dump(told)
    path = closed(told)
    copy = keep_copy(path, "0004")

    def fails(self: Path, target: Path) -> Path:
        raise OSError(errno.EIO, "failing disk")
    with monkeypatch.context() as patched:
        patched.setattr(Path, "replace", fails)
        with pytest.raises(NoAccess):
            restore_copy(path, copy)
    assert dump(open_store(path)) == before
