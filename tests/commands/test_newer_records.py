"""Records that a newer version wrote: an older program says so in plain words and leaves them alone."""
from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import flet as ft
import pytest

from app import native
from app.cli import main
from app.data_folder import LOCK
from app.domain.errors import NewerDatabase
from app.storage.database import open_store
from app.storage.schema import LINEAGE
from app.words import errors
from app.words.machine import web
from tests.storage import story


@pytest.fixture
def newer(tmp_path: Path) -> Path:
    """A data directory with a story in it, at a version of the tables that is not known here."""
    store = open_store(tmp_path / "data")
    with store.begin() as db:
        story.tell(db)
    with store.begin() as db:
        db.exec_driver_sql("update alembic_version set version_num = '9000'")
    store.close()
    return tmp_path / "data"


def contents(folder: Path) -> dict[str, bytes]:
    """Every file and its bytes, without the empty one that says who has the folder open."""
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.name != LOCK}


def sentence(folder: Path) -> str:
    """What is said of it."""
    return errors.error_text(NewerDatabase(path=str(folder / "evenload.db"), found="9000", known=LINEAGE.head))


def test_the_command_ends_with_the_sentence(capsys: pytest.CaptureFixture[str], newer: Path) -> None:
    """Status 2, nothing on stdout, not one byte changed."""
    before = contents(newer)
    assert main(["open", "--data", str(newer), "--no-browser"]) == 2
    out, err = capsys.readouterr()
    assert (out, err) == ("", f"{sentence(newer)}\n") and "Update first; nothing was changed" in err
    assert contents(newer) == before


def test_the_app_of_a_phone_shows_it_in_place_of_everything_else(newer: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One page with the sentence; not one byte changed."""
    begun: list[Callable[[Any], Awaitable[None]]] = []
    monkeypatch.setenv(native.STORAGE, str(newer))
    monkeypatch.setattr(ft, "run", lambda shown, **_: begun.append(shown))
    before = contents(newer)
    native.run()
    page = SimpleNamespace(width=412.0, height=915.0, platform_brightness=ft.Brightness.LIGHT, update=lambda: None)
    asyncio.run(begun[0](page))
    said = list(words(page.controls))
    assert web.LOST_TITLE in said and sentence(newer) in said
    assert contents(newer) == before


def words(control: object) -> list[str]:
    """Every text below a control or in a list of them."""
    if isinstance(control, list):
        return [line for one in control for line in words(one)]
    if isinstance(control, ft.Text):
        return [str(control.value)]
    below = [getattr(control, name, None) for name in ("content", "controls")]
    return [line for part in below if part for line in words(part)]
