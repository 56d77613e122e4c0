"""A store is private, whole or refused, and never loses what somebody kept in it."""
from __future__ import annotations

import shutil
import sqlite3
import stat
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy.exc import IntegrityError

from app.domain.errors import DamagedDatabase, NewerDatabase, NoAccess, NoRoom, NotOurStore, StoreBusy
from app.storage import attention_marks, database, people, settings, sqlite_file
from app.storage.copies import copies, is_whole, keep_copy, last_good_copy, restore_copy, set_aside
from app.storage.database import Store, open_store, store_file
from app.storage.erasing import erase_everything, erase_person, sweep_after_erasing
from app.storage.export import logical_dump
from tests.storage import story
from tests.storage.story import dump, file_of, half


def test_what_was_kept_is_there_again(told: Store) -> None:
    """After closing and opening, byte for byte."""
    before, path = dump(told), file_of(told)
    told.close()
    assert dump(open_store(path)) == before
    assert dump(open_store(path.parent)) == before
    assert dump(open_store(f"sqlite:///{path}")) == before


@pytest.mark.skipif(sys.platform == "win32", reason="rights are told otherwise there")
def test_nobody_else_may_read_it(told: Store) -> None:
    """The folder, the file, SQLite's own files and the copies."""
    path = file_of(told)
    keep_copy(path, "0001")
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    files = list(path.parent.iterdir())
    assert len(files) >= 3
    assert {stat.S_IMODE(p.stat().st_mode) for p in files} == {0o600}
    told.close()
    path.chmod(0o644)
    open_store(path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_a_folder_that_was_there_keeps_its_rights(tmp_path: Path) -> None:
    """It may be shared on purpose."""
    tmp_path.chmod(0o755)
    open_store(tmp_path)
    assert stat.S_IMODE(tmp_path.stat().st_mode) == 0o755


def test_a_path_is_a_file_or_a_folder(tmp_path: Path) -> None:
    """Ending in `.db`, or there already as a file: the file. Otherwise the folder."""
    (tmp_path / "old").write_bytes(b"")
    assert store_file(tmp_path / "team.db") == tmp_path / "team.db"
    assert store_file(tmp_path / "old") == tmp_path / "old"
    assert store_file(tmp_path / "data.v2") == tmp_path / "data.v2" / "evenload.db"


def test_all_of_a_transaction_or_none(told: Store) -> None:
    """After any exception the store is as before."""
    before = dump(told)
    with pytest.raises(ZeroDivisionError), told.begin() as db:
        settings.save_setting(db, "half", 1)
        people.add_person(db, story.Person("p-x", "X"), people.Trains.HERE, story.T0)
        raise ZeroDivisionError
    assert dump(told) == before


def test_nothing_written_while_reading_is_kept(told: Store) -> None:
    """A read that writes is a mistake and leaves no trace."""
    before = dump(told)
    with told.read() as db:
        settings.save_setting(db, "sneaked", 1)
    assert dump(told) == before


def test_a_read_sees_one_state(told: Store) -> None:
    """Whatever is written meanwhile, and the writer does not wait for it."""
    with told.read() as db:
        before = logical_dump(db)
        with told.begin() as other:
            settings.save_setting(other, "meanwhile", 1)
        assert logical_dump(db) == before
    assert dump(told) != before


def test_a_full_disk_is_said_and_nothing_is_half_written(told: Store) -> None:
    """NoRoom, and the store goes on working."""
    before = dump(told)
    with pytest.raises(NoRoom) as caught, told.begin() as db:
        pages = db.exec_driver_sql("PRAGMA page_count").scalar()
        db.exec_driver_sql(f"PRAGMA max_page_count = {pages}")
        settings.save_setting(db, "small", 1)
        settings.save_setting(db, "large", "x" * 1_000_000)
    assert caught.value.what["path"] == str(told.path)
    assert dump(told) == before
    told.close()
    with told.begin() as db:
        settings.save_setting(db, "large", "x" * 1_000_000)


def test_a_store_that_another_program_holds_is_said(told: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """StoreBusy, after a wait."""
    monkeypatch.setattr(sqlite_file, "BUSY_MS", 50)
    other = open_store(file_of(told))
    with told.begin() as db:
        settings.save_setting(db, "mine", 1)
        with pytest.raises(StoreBusy), other.begin():
            raise AssertionError("both write")
    with other.begin() as db:
        settings.save_setting(db, "theirs", 1)


def test_a_newer_store_is_refused_and_not_touched(told: Store) -> None:
    """Not one byte, and no file beside it."""
    path = file_of(told)
    with told.begin() as db:
        db.exec_driver_sql("update alembic_version set version_num = '9000'")
    told.close()
    before = path.read_bytes()
    with pytest.raises(NewerDatabase) as caught:
        open_store(path)
    assert (caught.value.what["found"], caught.value.what["known"]) == ("9000", database.LINEAGE.head)
    assert path.read_bytes() == before
    assert {p.name for p in path.parent.iterdir()} == {path.name, f"{path.name}.made"}


def test_a_database_of_something_else_is_refused_and_not_touched(tmp_path: Path) -> None:
    """Its rights neither."""
    path = tmp_path / "recipes.db"
    with closing(sqlite3.connect(path)) as db:
        db.execute("create table recipe (name text)")
    path.chmod(0o644)
    before = path.read_bytes()
    with pytest.raises(NotOurStore):
        open_store(path)
    assert path.read_bytes() == before
    assert stat.S_IMODE(path.stat().st_mode) == 0o644
    assert list(tmp_path.iterdir()) == [path]


def _scribble(data: bytes) -> bytes:
    return data[:4_096] + b"\xa5" * 8_192 + data[12_288:]


@pytest.mark.parametrize("spoil", [lambda d: b"gone" + d[4:], half, _scribble, lambda d: b"not a store at all"])
def test_a_damaged_store_is_set_aside_and_the_last_good_copy_offered(told: Store, spoil) -> None:  # type: ignore[no-untyped-def]
    """Named, kept byte for byte, and put back from the copy if wished."""
    path, before = file_of(told), dump(told)
    keep_copy(path, "0001")
    told.close()
    spoilt = spoil(path.read_bytes())
    path.write_bytes(spoilt)
    with pytest.raises(DamagedDatabase) as caught:
        open_store(path)
    kept = Path(str(caught.value.what["kept"]))
    assert kept.name == "evenload.db.damaged-1"
    assert kept.read_bytes() == spoilt
    assert not path.exists()
    copy = last_good_copy(path)
    assert copy is not None
    assert restore_copy(path, copy) is None
    assert dump(open_store(path)) == before


def test_a_file_emptied_by_the_disk_is_not_taken_for_a_new_store(told: Store) -> None:
    """Where copies lie beside it, there was something in it."""
    path = file_of(told)
    keep_copy(path, "0001")
    told.close()
    path.write_bytes(b"")
    with pytest.raises(DamagedDatabase):
        open_store(path)


def test_what_was_only_in_the_journal_yet_is_set_aside_too(told: Store, tmp_path: Path) -> None:
    """As after a crash: without its journal the file would look older than it is."""
    path, before = file_of(told), dump(told)
    crashed = tmp_path / "crashed.db"
    for end in ("", "-wal"):
        shutil.copy(f"{path}{end}", f"{crashed}{end}")
    assert is_whole(crashed)
    kept = set_aside(crashed, "damaged")
    left = {p.name for p in tmp_path.glob("crashed*")}
    assert {kept.name, f"{kept.name}-wal"} <= left and all(name.startswith(kept.name) for name in left)
    assert dump(open_store(kept)) == before


def test_rows_need_what_they_refer_to_after_every_start(told: Store) -> None:
    """Not only after the one that made the tables."""
    path = file_of(told)
    told.close()
    with pytest.raises(IntegrityError), open_store(path).begin() as db:
        attention_marks.save_mark(db, replace(story.MARK, person="nobody"))


def test_what_was_kept_is_on_the_disk_when_the_transaction_ends(told: Store) -> None:
    """Every connection asks SQLite to wait for the disk at each commit, and to keep a journal; a power cut shows it."""
    for _ in range(2):
        with told.read() as db, told.begin() as other:
            for one in (db, other):
                assert one.exec_driver_sql("PRAGMA synchronous").scalar() == 2
                assert one.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        told.close()


def test_two_damages_have_two_names(tmp_path: Path) -> None:
    """The first one is not overwritten."""
    path = tmp_path / "evenload.db"
    for number in (1, 2):
        path.write_bytes(f"spoilt {number}".encode() * 100)
        with pytest.raises(DamagedDatabase) as caught:
            open_store(path)
        assert caught.value.what["kept"] == str(tmp_path / f"evenload.db.damaged-{number}")
    assert (tmp_path / "evenload.db.damaged-1").read_bytes().startswith(b"spoilt 1")


def test_damage_found_while_reading_is_said(told: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """In a file too large to be read through at start."""
    path = file_of(told)
    told.close()
    path.write_bytes(_scribble(path.read_bytes()))
    monkeypatch.setattr(database, "CHECKED_BYTES", 0)
    with pytest.raises(DamagedDatabase):
        dump(open_store(path))


def test_a_folder_that_may_not_be_written_is_said(tmp_path: Path) -> None:
    """Also where a file is in the way."""
    (tmp_path / "in the way").write_bytes(b"x")
    with pytest.raises(NoAccess):
        open_store(tmp_path / "in the way" / "data")


def test_who_is_erased_is_gone_from_every_byte(told: Store) -> None:
    """From the rows, the freed pages, the journal and the copies; and nobody else is touched."""
    path = file_of(told)
    keep_copy(path, "0001")
    with told.begin() as db:
        erase_person(db, "p-ines")
    sweep_after_erasing(told)
    left = dump(told)
    assert "p-ines" not in left and "p-tomas" in left and '"s2"' in left
    for file in path.parent.iterdir():
        assert b"p-ines" not in file.read_bytes(), file.name
        assert b"\x01" * 32 not in file.read_bytes(), file.name
    assert len(copies(path)) == 1
    erase_in_full(told)


def erase_in_full(store: Store) -> None:
    """The other person with their marks and replies, and then the rest."""
    with store.begin() as db:
        erase_person(db, "p-tomas")
        assert "p-tomas" not in logical_dump(db) and "pack " in logical_dump(db)
        erase_everything(db)
    sweep_after_erasing(store)
    assert dump(store) == ""
    assert not any(b"Tom" in p.read_bytes() for p in file_of(store).parent.iterdir())


def test_a_dump_holds_no_private_key_and_no_media(told: Store) -> None:
    """Their length and digest stand for them, so that a change still shows."""
    before = dump(told)
    assert "01" * 32 not in before and "evenload-pack 1" not in before
    with told.begin() as db:
        db.exec_driver_sql("update key set private = ?", (b"\x03" * 32,))
    assert dump(told) != before


OPEN = "import sys; from app.storage.database import open_store; open_store(sys.argv[1]).close()"


def test_several_programs_may_start_at_once_on_a_new_folder(tmp_path: Path) -> None:
    """Each opens it; one of them makes the tables."""
    started = [subprocess.Popen([sys.executable, "-c", OPEN, str(tmp_path / "data")]) for _ in range(4)]
    assert [p.wait(60) for p in started] == [0, 0, 0, 0]
    assert dump(open_store(tmp_path / "data")) == ""
