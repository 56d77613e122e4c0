"""`evenload FILE.evenload-pack` opens the app with that programme, or says in one sentence why not."""
from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from app import native
from app.cli import main
from app.commands import serve
from app.device.linked_files import GivenFiles
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.text_form import to_text
from app.exchange.letters.replies import write_reply
from app.exchange.packs.pack import build_pack
from tests.exchange.fixed import CLIENT, COACH, REPLY, SOURCE, run


@pytest.fixture
def served(monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """What would have been served."""
    seen: dict[str, Any] = {}
    monkeypatch.setattr(serve, "serve", lambda main, **more: seen.update(more))
    monkeypatch.setattr(serve, "GivenFiles", lambda *paths: seen.setdefault("linked", GivenFiles(*paths)))
    return seen


@pytest.mark.parametrize("words", [[], ["open"]])
@pytest.mark.parametrize("as_text", [False, True])
def test_a_programme_is_what_the_address_leads_to(
    words: list[str], as_text: bool, served: dict[str, Any], tmp_path: Path, data_dir: Path,
) -> None:
    """Of the file itself nothing is kept yet: the page asks first."""
    data = run(build_pack(SOURCE, coach=COACH))
    file = tmp_path / "six weeks & more.evenload-pack"
    file.write_bytes(to_text(data, Kind.PACK).encode() if as_text else data)
    assert main([*words, str(file), "--no-browser"]) == 0
    assert served["start"] == "/get?file=six%20weeks%20%26%20more.evenload-pack"
    assert run(served["linked"].fetch(file.name, 10_000_000)) == file.read_bytes()


def test_without_a_file_it_opens_as_ever(served: dict[str, Any], data_dir: Path) -> None:
    """At its first page."""
    assert main(["open", "--no-browser"]) == 0
    assert served["start"] == "/"


@pytest.mark.parametrize(("name", "said"), [
    ("nowhere.evenload-pack", "can’t be read"), ("letter.evenload-pack", "isn’t a programme file, diary or message"),
    ("reply.evenload-pack", "is a message from a coach"), ("folder.evenload-pack", "can’t be read"),
])
def test_what_is_no_programme_is_one_sentence(
    name: str, said: str, served: dict[str, Any], tmp_path: Path, data_dir: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    """Exit status 2, and nothing is served."""
    (tmp_path / "letter.evenload-pack").write_bytes(b"Dear Nell")
    (tmp_path / "folder.evenload-pack").mkdir()
    reply = run(write_reply(REPLY, coach=COACH.signing, readers=[CLIENT.sealing.public]))
    (tmp_path / "reply.evenload-pack").write_bytes(reply)
    assert main([str(tmp_path / name), "--no-browser"]) == 2
    told = capsys.readouterr().err
    assert said in told and told.count("\n") == 1
    assert not served and not list(data_dir.iterdir())


def test_a_native_program_takes_programmes_alone_from_its_arguments(tmp_path: Path) -> None:
    """What else a system hands over, such as options of its own, is no file of ours."""
    file = tmp_path / "a.evenload-pack"
    file.write_bytes(b"")
    assert native.given_files(["-psn_0_1", str(file), str(tmp_path / "gone.evenload-pack"), str(tmp_path)]) == (file,)
