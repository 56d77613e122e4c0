"""`evenload intake` from the outside: good returns kept, bad ones named, and an exit status for each mixture."""
from __future__ import annotations

import asyncio
import json
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pytest

from app.actions.desk.key_locks import lock_keys
from app.actions.desk.publishing import confirm_sheet
from app.cli import main
from app.commands import intake
from app.device.clock import ManualClock
from app.domain.model.person import Person
from app.storage import people
from app.storage.database import open_store
from tests.actions.afar import NOW, Client, check_in

Out = pytest.CaptureFixture[str]


@dataclass
class Post:
    """Vera's letters, lying in a folder, and where the desk's store is."""

    folder: Path
    data: Path
    vera: Client

    def letter(self, name: str, *records: str, days_on: int = 0) -> str:
        """A return of hers with mornings of these ids, made so many days after now."""
        store = open_store(self.data)
        data = self.vera.sends(store, [check_in("p-vera", one) for one in records], NOW + timedelta(days=days_on))
        store.close()
        (self.folder / name).write_bytes(data)
        return str(self.folder / name)

    def names(self) -> list[str]:
        """Whoever is known at the desk."""
        store = open_store(self.data)
        with store.read() as db:
            found = [person.name for person in people.desk_people(db)]
        store.close()
        return found


@pytest.fixture
def post(tmp_path: Path, data_dir: Path, monkeypatch: pytest.MonkeyPatch) -> Post:
    """At a fixed time."""
    monkeypatch.setattr(intake, "SystemClock", lambda: ManualClock(NOW))
    (tmp_path / "post").mkdir()
    return Post(tmp_path / "post", data_dir, Client(Person("p-vera", "Vera")))


def test_a_return_is_told_in_numbers_and_twice_is_harmless(post: Post, capsys: Out) -> None:
    """Exit 0 both times."""
    path = post.letter("a.evenload-return", "c1", "c2")
    assert main(["intake", path]) == 0
    assert capsys.readouterr() == ("a.evenload-return: Vera, 2 new records, 0 corrected, 0 you already had.\n", "")
    assert main(["intake", path]) == 0
    assert capsys.readouterr() == ("a.evenload-return: Vera, 0 new records, 0 corrected, 2 you already had.\n", "")
    assert post.names() == ["Vera"]


def test_of_a_folder_the_returns_are_taken_in_and_nothing_else(post: Post, capsys: Out) -> None:
    """In the order of their names."""
    post.letter("b.evenload-return", "c2")
    post.letter("a.evenload-return", "c1")
    (post.folder / "list.txt").write_text("milk", "utf-8")
    assert main(["intake", str(post.folder), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [one["file"] for one in told["taken"]] == ["a.evenload-return", "b.evenload-return"]
    assert told["refused"] == []


def test_a_bad_file_is_named_and_holds_up_no_good_one(post: Post, capsys: Out) -> None:
    """Exit 1 where some were good, 2 where none was; a file that is not there counts as bad."""
    good = post.letter("good.evenload-return", "c1")
    bad = post.folder / "bad.evenload-return"
    bad.write_bytes(Path(good).read_bytes()[:-1])
    assert main(["intake", str(bad), str(post.folder / "gone.evenload-return"), good]) == 1
    out, err = capsys.readouterr()
    assert out.startswith("good.evenload-return: Vera") and out.count("\n") == 1
    assert [line.split(".")[0] for line in err.splitlines()] == ["gone", "bad"]
    assert main(["intake", str(bad)]) == 2
    assert capsys.readouterr().out == ""


def test_the_errors_of_bad_files_stand_in_the_json_too(post: Post, capsys: Out) -> None:
    """With the name of each; what was odd about a good one beside its numbers."""
    ahead = post.letter("ahead.evenload-return", "c1", days_on=30)
    bad = post.folder / "bad.evenload-return"
    bad.write_bytes(b"Dear Nell")
    assert main(["intake", str(bad), ahead, "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert told["taken"] == [{"file": "ahead.evenload-return", "person": "Vera", "new": 1, "newer": 0, "same": 0,
                              "older": 0, "misdated": 0, "clock_is_wrong": True, "resembles": []}]
    refused, = told["refused"]
    assert refused["file"] == "bad.evenload-return" and refused["error"]


def test_a_clock_that_is_wrong_is_told_on_standard_error(post: Post, capsys: Out) -> None:
    """A line that begins with the file's name; the records are kept all the same."""
    assert main(["intake", post.letter("ahead.evenload-return", "c1", days_on=30)]) == 0
    out, err = capsys.readouterr()
    assert "1 new record" in out
    assert err.startswith("ahead.evenload-return: ") and err.count("\n") == 1


def test_locked_keys_are_opened_by_the_passphrase_in_a_file(post: Post, tmp_path: Path, capsys: Out) -> None:
    """Without it, and with another one, exit 2 and nothing taken in; never as an argument."""
    path = post.letter("a.evenload-return", "c1")
    store = open_store(post.data)
    confirm_sheet(store)
    asyncio.run(lock_keys(store, "kettle plum ladder north"))
    store.close()
    assert main(["intake", path]) == 2 and "Your keys are locked" in capsys.readouterr().err
    file = tmp_path / "phrase.txt"
    file.write_text("kettle plum ladder south\n", "utf-8")
    assert main(["intake", path, "--passphrase-file", str(file)]) == 2
    assert "doesn’t unlock your keys" in capsys.readouterr().err and post.names() == []
    file.write_text("kettle plum ladder north\n", "utf-8")
    assert main(["intake", path, "--passphrase-file", str(file)]) == 0
    assert post.names() == ["Vera"]
