"""`evenload backup`, `restore`, `erase` and `keys` from the outside: proven on files, also on damaged ones."""
from __future__ import annotations

import json
import os
import sqlite3
import stat
from contextlib import closing
from pathlib import Path

import pytest

from app.cli import main
from app.data_folder import WAY_IN
from app.device.in_use import held
from app.storage import sqlite_file
from app.storage.copies import copies, keep_copy
from app.storage.database import open_store
from app.storage.export import logical_dump
from app.storage.schema import LINEAGE
from tests.storage import story

Out = pytest.CaptureFixture[str]


@pytest.fixture
def place(data_dir: Path) -> Path:
    """A store with the story in it, in the data directory of every command."""
    store = open_store(data_dir)
    with store.begin() as db:
        story.tell(db)
    store.close()
    return data_dir / "evenload.db"


def dump(place: Path) -> str:
    """Everything in it."""
    store = open_store(place)
    with store.read() as db:
        told = logical_dump(db)
    store.close()
    return told


def spoil(place: Path) -> None:
    """Half of it is lost, and what was in the journal."""
    for end in ("-wal", "-shm"):
        place.with_name(place.name + end).unlink(missing_ok=True)
    place.write_bytes(place.read_bytes()[:4_096 * 3])


def test_a_backup_comes_back_on_another_machine(place: Path, tmp_path: Path, capsys: Out) -> None:
    """All of it; what was there, if anything, is set aside and named; the copy is its owner's alone."""
    before, copy = dump(place), tmp_path / "copy.db"
    assert main(["backup", "-o", str(copy)]) == 0
    assert os.name == "nt" or stat.S_IMODE(copy.stat().st_mode) == 0o600
    assert "isn’t sealed" in capsys.readouterr().out
    other = tmp_path / "other"
    assert main(["--data", str(other), "restore", str(copy), "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"from": "copy.db", "kept": ""}
    assert main(["--data", str(other), "restore", str(copy), "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"from": "copy.db", "kept": "evenload.db.replaced-1"}
    assert dump(other / "evenload.db") == before


def test_a_sealed_backup_opens_with_the_passphrase_of_a_file_alone(place: Path, tmp_path: Path, capsys: Out) -> None:
    """On another machine; without it, with another one or an easy one a sentence, status 2 and nothing changed."""
    before, copy, phrase = dump(place), tmp_path / "c.evenload-copy", tmp_path / "phrase.txt"
    phrase.write_text("lantern gravel oboe unpaid\nand a line that is none\n", "utf-8")
    assert main(["backup", "-o", str(copy), "--passphrase-file", str(phrase), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["sealed"] is True
    assert os.name == "nt" or stat.S_IMODE(copy.stat().st_mode) == 0o600
    other, wrong = tmp_path / "other", tmp_path / "wrong.txt"
    restore = ["--data", str(other), "restore", str(copy)]
    wrong.write_text("lantern gravel oboe\n", "utf-8")
    for more, said in (([], "none was given"), (["--passphrase-file", str(wrong)], "doesn’t open")):
        assert main([*restore, *more]) == 2
        assert said in capsys.readouterr().err
    assert not (other / "evenload.db").exists()
    assert main([*restore, "--passphrase-file", str(phrase)]) == 0
    assert dump(other / "evenload.db") == before
    for easy in ("12345\n", "\n", ""):
        wrong.write_text(easy, "utf-8")
        assert main(["backup", "-o", str(tmp_path / "no"), "--passphrase-file", str(wrong)]) == 2
        assert not (tmp_path / "no").exists()


def test_a_passphrase_is_typed_unseen_and_twice(
    place: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out,
) -> None:
    """At a terminal; what differs the second time seals nothing, and restoring asks by itself."""
    typed = ["lantern gravel oboe unpaid", "lantern gravel oboe unpaid!"]
    monkeypatch.setattr("getpass.getpass", lambda _: typed.pop(0))
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    copy = tmp_path / "c.evenload-copy"
    assert main(["backup", "-o", str(copy), "--passphrase-file", "-"]) == 2 and not copy.exists()
    typed += ["lantern gravel oboe unpaid"] * 3
    assert main(["backup", "-o", str(copy), "--passphrase-file", "-"]) == 0
    assert main(["--data", str(tmp_path / "other"), "restore", str(copy)]) == 0
    assert typed == [] and dump(tmp_path / "other" / "evenload.db") == dump(place)


def test_standard_input_is_not_read_twice(capsys: Out) -> None:
    """For the copy and for its passphrase."""
    with pytest.raises(SystemExit):
        main(["restore", "-", "--passphrase-file", "-"])
    assert "only once" in capsys.readouterr().err


def test_backups_push_out_no_copy_of_a_day(place: Path, tmp_path: Path) -> None:
    """Four of them in a row, also while the app is open."""
    keep_copy(place, LINEAGE.head)
    before = copies(place)
    with held(place.parent):
        for at in range(4):
            assert main(["backup", "-o", str(tmp_path / f"{at}.db")]) == 0
    assert copies(place) == before


def test_a_damaged_store_is_restored_from_the_last_good_copy_or_from_a_file(
    place: Path, tmp_path: Path, capsys: Out,
) -> None:
    """Each with the damaged one kept beside it."""
    before = dump(place)
    assert main(["backup", "-o", str(tmp_path / "copy.db")]) == 0
    keep_copy(place, LINEAGE.head)
    spoil(place)
    assert main(["review"]) == 2
    assert "--restore" in capsys.readouterr().err
    assert main(["restore"]) == 0
    assert dump(place) == before
    spoil(place)
    assert main(["restore", str(tmp_path / "copy.db")]) == 0
    assert dump(place) == before
    assert {p.name.partition(".db.")[2] for p in place.parent.glob("*-1")} >= {"damaged-1", "replaced-1"}


@pytest.mark.parametrize("data", [b"", b"%PDF", b"SQLite format 3\x00" + bytes(5_000)])
def test_what_is_no_copy_changes_nothing(data: bytes, place: Path, tmp_path: Path, capsys: Out) -> None:
    """And is said in a sentence."""
    before = dump(place)
    (tmp_path / "no copy").write_bytes(data)
    assert main(["restore", str(tmp_path / "no copy")]) == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert dump(place) == before


def test_without_a_copy_there_is_nothing_to_go_back_to(place: Path, capsys: Out) -> None:
    """A sentence, and the records as they were."""
    before = dump(place)
    for copy in copies(place):
        copy.unlink()
    assert main(["restore"]) == 2
    assert "no good copy" in capsys.readouterr().err
    assert dump(place) == before


@pytest.mark.parametrize("words", [["restore"], ["erase", "--yes"]])
def test_while_the_app_is_open_nothing_is_taken_from_under_it(words: list[str], place: Path, capsys: Out) -> None:
    """It says that it is open."""
    before = dump(place)
    with held(place.parent):
        assert main(words) == 2
    assert "already open" in capsys.readouterr().err
    assert dump(place) == before


def test_without_a_yes_nothing_is_erased(place: Path, capsys: Out) -> None:
    """It says what would be, and ends with 1."""
    before = dump(place)
    assert main(["erase"]) == 1
    assert "Nothing was erased" in capsys.readouterr().out
    assert dump(place) == before


@pytest.mark.parametrize("damaged", [False, True])
def test_everything_is_erased(damaged: bool, place: Path, capsys: Out) -> None:
    """Also of a store that can no longer be read; what is somebody else's is named and stays."""
    folder = place.parent
    keep_copy(place, LINEAGE.head)
    (folder / "sources/mine").mkdir(parents=True)
    (folder / "sources/mine/source.toml").write_text("p-ines")
    (folder / "letter.txt").write_text("theirs")
    (folder / WAY_IN).write_text("left by a kill")
    if damaged:
        spoil(place)
    assert main(["erase", "--yes", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"erased": True, "complete": True, "left": ["letter.txt"]}
    assert dump(place) == ""
    for path in folder.rglob("*"):
        assert not path.is_file() or b"p-ines" not in path.read_bytes(), path.name


def test_beside_an_open_reader_it_is_said_that_traces_stay(
    place: Path, capsys: Out, monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Exit 1; the next start ends it."""
    monkeypatch.setattr(sqlite_file, "BUSY_MS", 50)
    with closing(sqlite3.connect(place, isolation_level=None)) as reader:
        reader.execute("begin")
        reader.execute("select count(*) from record").fetchall()
        assert main(["erase", "--yes"]) == 1
        assert "another app" in capsys.readouterr().out
    assert dump(place) == ""
    assert not any(b"p-ines" in path.read_bytes() for path in place.parent.iterdir() if path.is_file())


@pytest.mark.parametrize("words", [["backup", "-o", "x.db"], ["erase", "--yes"]])
def test_where_there_are_no_records_none_are_made(words: list[str], data_dir: Path, capsys: Out) -> None:
    """A wrong folder is said, and stays as it was."""
    assert main(words) == 2
    assert "a data directory with records" in capsys.readouterr().err
    assert not list(data_dir.iterdir())


def test_the_key_is_printed_and_nothing_private(data_dir: Path, tmp_path: Path, capsys: Out) -> None:
    """Before there is one it says so, with 1."""
    from app.resources import resource_dir

    assert main(["keys"]) == 1
    source = resource_dir("assets") / "programmes" / "brackwater"
    assert main(["pack", str(source), "-o", str(tmp_path / "a.evenload-pack"), "--no-voice"]) == 0
    words = capsys.readouterr().out
    assert main(["keys", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert " ".join(told["words"]) in words and told["sheet_waits"]
    store = open_store(data_dir)
    with store.read() as db:
        secrets = [row[0].hex() for row in db.exec_driver_sql("select private from key") if row[0]]
    store.close()
    assert secrets and not [one for one in secrets if one in json.dumps(told)]
