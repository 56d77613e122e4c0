"""`evenload source`: the shelf and a folder of TOML hold the same, and what is wrong is said in one sentence."""
from __future__ import annotations

from pathlib import Path

import pytest

from app.actions.bench import drafting
from app.actions.bench.pen import Pen
from app.cli import main
from app.device.clock import SystemClock
from app.domain.bench import sheet_edits as edits
from app.exchange.forms.source import read_beside, read_source
from app.resources import resource_dir
from app.storage.database import open_store

BRACKWATER = resource_dir("assets") / "programmes" / "brackwater"


def evenload(folder: Path, *words: str) -> int:
    """One command on a data directory of its own."""
    return main(["--data", str(folder / "data"), "source", *words])


def _bytes(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_the_shipped_library_comes_out_as_it_went_in_and_again_byte_for_byte(tmp_path: Path) -> None:
    """Its exercises, sessions, programmes, rules and figures."""
    first, second = tmp_path / "first", tmp_path / "second"
    assert evenload(tmp_path, "import", str(BRACKWATER)) == evenload(tmp_path, "export", str(first)) == 0
    assert read_source(first) == read_source(BRACKWATER) and read_beside(first) == read_beside(BRACKWATER)
    assert evenload(tmp_path, "import", str(first)) == evenload(tmp_path, "export", str(second)) == 0
    assert _bytes(second) == _bytes(first)


def test_what_is_under_the_pen_is_in_the_export(tmp_path: Path) -> None:
    """And the other way round a new import puts the draft away."""
    evenload(tmp_path, "import", str(BRACKWATER))
    store = open_store(tmp_path / "data")
    pen = Pen(store, SystemClock(), drafting.open_session(store, SystemClock(), "brackwater", "hotel-room"))
    line = next(pen.sheet.lines())
    pen.do(edits.set_item(pen.sheet, line.number, rest_s=55), "rest 55")
    pen.keep()
    store.close()
    assert evenload(tmp_path, "export", str(tmp_path / "out")) == 0
    session = read_source(tmp_path / "out").session("hotel-room")
    assert session is not None and session.blocks[0].items[0].rest_s == 55
    evenload(tmp_path, "import", str(BRACKWATER))
    assert evenload(tmp_path, "export", str(tmp_path / "again")) == 0
    assert read_source(tmp_path / "again") == read_source(BRACKWATER)


def test_what_cannot_be_is_said_and_nothing_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 2: no source yet, a folder that is not empty, and one that holds no source."""
    assert evenload(tmp_path, "export", str(tmp_path / "out")) == 2
    assert not (tmp_path / "out").exists()
    assert evenload(tmp_path, "import", str(tmp_path / "none")) == 2
    evenload(tmp_path, "import", str(BRACKWATER))
    capsys.readouterr()
    assert evenload(tmp_path, "export", str(tmp_path)) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1 and str(tmp_path) in said
