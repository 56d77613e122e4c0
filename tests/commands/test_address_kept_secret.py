"""The address that lets somebody in is in nobody else's sight: not among a browser's arguments, and not in a log."""
from __future__ import annotations

import stat
import sys
import webbrowser
from pathlib import Path
from typing import Any

import pytest

from app.cli import main
from app.commands import serve
from app.data_folder import WAY_IN
from app.serving.way_in import Keys, WayInPage

ADDRESS = "http://127.0.0.1:8427/?key="


def opened(monkeypatch: pytest.MonkeyPatch, folder: Path, *words: str) -> tuple[list[str], str]:
    """What a browser was started with, and the key in its page."""
    started: list[str] = []
    keys = Keys()

    def served(_: Any, *, data_dir: Path, on_ready: Any, **more: Any) -> None:
        WayInPage(data_dir / WAY_IN, keys, lambda key: f"{ADDRESS}{key}")
        on_ready(f"{ADDRESS}{keys.new()}")

    monkeypatch.setattr(serve, "serve", served)
    monkeypatch.setattr(serve, "has_display", lambda: True)
    monkeypatch.setattr(webbrowser, "open", started.append)
    assert main(["open", "--data", str(folder), *words]) == 0
    return started, (folder / WAY_IN).read_text("utf-8").partition("key=")[2].partition('"')[0]


def test_a_browser_is_started_with_a_page_and_not_with_a_key(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    """Every user of the machine can read its arguments; the page only its owner can read."""
    [argument], key = opened(monkeypatch, tmp_path / "data")
    told = capsys.readouterr()
    assert argument == (tmp_path / "data" / WAY_IN).resolve().as_uri() and "key=" not in argument
    assert len(key) >= 40 and key not in told.out + told.err
    assert sys.platform == "win32" or stat.S_IMODE((tmp_path / "data" / WAY_IN).stat().st_mode) == 0o600
    assert WAY_IN in told.out and ADDRESS in told.out


def test_without_a_browser_none_is_started(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """As on a machine that is looked at from elsewhere."""
    assert opened(monkeypatch, tmp_path / "data", "--no-browser")[0] == []
