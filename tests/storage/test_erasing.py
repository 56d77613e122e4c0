"""What was erased is in no byte that the program keeps: also beside an open reader, and after a process was ended."""
from __future__ import annotations

import os
import sqlite3
import zipfile
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from app.domain.errors import EraseUnfinished
from app.storage import sqlite_file
from app.storage.copies import copies, keep_copy, set_aside
from app.storage.database import Store, copy_of_the_day, open_store
from app.storage.erasing import erase_everything, erase_person, is_unfinished, sweep_after_erasing
from app.storage.export import logical_dump
from tests.storage import story

HERS = b"p-ines"


@pytest.fixture
def hurried(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Store:
    """The story in a store that waits for nobody for long."""
    monkeypatch.setattr(sqlite_file, "BUSY_MS", 50)
    store = open_store(tmp_path / "data")
    with store.begin() as db:
        story.tell(db)
    return store


def place(store: Store) -> Path:
    """Where it lies."""
    assert store.path is not None
    return store.path


def files_with(folder: Path, words: bytes) -> list[str]:
    """The names of all files below a folder that hold these bytes."""
    return sorted(p.name for p in folder.rglob("*") if p.is_file() and words in p.read_bytes())


def test_beside_an_open_reader_the_busy_answer_is_heeded(hurried: Store) -> None:
    """It is said that traces stay, and they go by themselves when the store is opened next."""
    path = place(hurried)
    keep_copy(path, "0002")
    with closing(sqlite3.connect(path, isolation_level=None)) as reader:
        reader.execute("begin")
        reader.execute("select count(*) from record").fetchall()
        with hurried.begin() as db:
            erase_person(db, "p-ines")
        with pytest.raises(EraseUnfinished):
            sweep_after_erasing(hurried)
        assert files_with(path.parent, HERS), "the reader still holds the old pages"
        assert copies(path) == ()
        assert copy_of_the_day(hurried, date(2099, 1, 1)) is None
    hurried.close()
    again = open_store(path)
    assert not is_unfinished(again)
    assert files_with(path.parent, HERS) == []
    with again.read() as db:
        assert "p-tomas" in logical_dump(db) and "p-ines" not in logical_dump(db)


def test_an_erasing_that_was_cut_off_is_finished_at_the_next_start(told: Store) -> None:
    """Between the rows and the rest a process can end."""
    path = place(told)
    keep_copy(path, "0002")
    set_aside(keep_copy(path, "0002"), "replaced")
    with told.begin() as db:
        erase_person(db, "p-ines")
    told.close()
    assert files_with(path.parent, HERS)
    assert not is_unfinished(open_store(path))
    assert [n for n in files_with(path.parent, HERS) if "copy-0002-2" not in n] == []


@pytest.mark.parametrize("name", ["replaced-1", "damaged-3", "incoming", "restoring", "copying"])
@pytest.mark.parametrize("end", ["", "-wal", "-shm", "-journal"])
def test_no_file_that_was_set_aside_is_left(name: str, end: str, told: Store) -> None:
    """Whatever the reason that it lay there, with SQLite's own files beside it."""
    path = place(told)
    left = path.with_name(f"{path.name}.{name}{end}")
    left.write_bytes(HERS)
    others = path.with_name(f"{path.name}.notes"), path.with_name("other.db.replaced-1")
    for other in others:
        other.write_bytes(b"mine")
    with told.begin() as db:
        erase_person(db, "p-ines")
    sweep_after_erasing(told)
    assert not left.exists()
    assert all(other.exists() for other in others)


def test_taking_a_secret_out_of_a_row_deletes_nothing_that_was_set_aside(told: Store) -> None:
    """A damaged store may be all that somebody has left."""
    path = place(told)
    kept = path.with_name(f"{path.name}.damaged-1")
    kept.write_bytes(b"the only one")
    sweep_after_erasing(told)
    assert kept.exists()


def _zipped(path: Path, *names: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with zipfile.ZipFile(path, "w") as archive:
        for name in names:
            archive.writestr(name, HERS)


def test_erasing_everything_leaves_nothing_that_the_program_put_there(told: Store) -> None:
    """Sources, brands, apps, shell, tracks, an old key; what somebody else put there stays."""
    path = place(told)
    folder = path.parent
    ours = ("evenload-error-abc.log", "sources/mine/source.toml", "sources/mine/media/a.png",
            "brands/ines/brand.toml", "brands/ines/ines.png",
            "apps/ines/files.json", "apps/ines/index.html", "tracks/abcdefghijklmnopqrstuv.wav", "address.key")
    theirs = ("sources/reading.txt", "apps/editor/run", "tracks/song.wav", "diary.txt")
    for name in (*ours, *theirs):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(HERS if name in ours else b"theirs")
    _zipped(folder / "apps/ines.zip", "files.json", "index.html")
    _zipped(folder / "apps/photos.zip", "one.png")
    _zipped(folder / "shell.zip", "shell.json")
    (folder / "sources/link").symlink_to(folder / "apps")
    path.with_name(f"{path.name}.replaced-1").write_bytes(HERS)
    with told.begin() as db:
        erase_everything(db)
    sweep_after_erasing(told)
    assert files_with(folder, HERS) == ["photos.zip"]
    assert not (folder / "brands").exists() and not (folder / "shell.zip").exists()
    assert not (folder / "apps/ines.zip").exists()
    for name in theirs:
        assert (folder / name).read_bytes() == b"theirs"
    with told.read() as db:
        assert logical_dump(db) == ""


def test_a_link_into_another_place_is_not_followed(told: Store, tmp_path: Path) -> None:
    """The link goes, and what it leads to stays."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "source.toml").write_text("theirs")
    sources = place(told).parent / "sources"
    sources.mkdir()
    os.symlink(elsewhere, sources / "linked")
    with told.begin() as db:
        erase_everything(db)
    sweep_after_erasing(told)
    assert (elsewhere / "source.toml").exists() and not sources.exists()
