"""How far a command is: one line on standard error, where it is a terminal, and gone at the end."""
from __future__ import annotations

import io
import sys
from pathlib import Path
from typing import Any

import pytest

from app.actions.desk.web_app_build import Made
from app.cli import main
from app.commands import progress, serve, web_app
from app.commands.progress import Progress
from app.exchange.letters.returns import write_return
from app.resources import resource_dir
from app.words.machine import commands as words
from tests.commands.terminal import Terminal
from tests.exchange.fixed import CLIENT, READERS, RETURN, run

ROOT = Path(__file__).resolve().parents[2]


class Watch:
    """A clock that is moved by hand."""

    def __init__(self) -> None:
        self.s = 100.0

    def __call__(self) -> float:
        return self.s


def test_small_steps_are_told_after_a_second_and_not_faster_than_they_are_read() -> None:
    """What is done within a second needs no line."""
    out, watch = Terminal(), Watch()
    with Progress(out, watch) as shown:
        for step in range(1, 151):
            watch.s += 0.01
            shown.step(f"{step} of 150")
    told = out.lines()
    assert told[0] in ("100 of 150", "101 of 150")
    assert 4 <= len(told) <= 6


def test_a_stage_is_told_at_once_and_the_line_is_wiped(monkeypatch: pytest.MonkeyPatch) -> None:
    """A shorter one leaves nothing of the longer; none is wider than the terminal."""
    monkeypatch.setenv("COLUMNS", "20")
    out = Terminal()
    with Progress(out, Watch()) as shown:
        shown.stage("Something rather long for it")
        shown.stage("Short")
    assert out.getvalue() == f"\rSomething rather lo\rShort{' ' * 14}\r{' ' * 5}\r"


def test_where_nobody_looks_nothing_is_written() -> None:
    """A log file holds no half lines."""
    out = io.StringIO()
    with Progress(out, Watch()) as shown:
        shown.stage("Begins")
    assert out.getvalue() == ""


def test_it_is_wiped_before_an_error_is_told() -> None:
    """And the error goes on."""
    out = Terminal()
    with pytest.raises(KeyError), Progress(out, Watch()) as shown:
        shown.stage("Begins")
        raise KeyError
    assert out.getvalue().endswith("\r      \r")


def looked_at(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """A terminal in place of standard error, with no second to wait for."""
    out = Terminal()
    monkeypatch.setattr(sys, "stderr", out)
    monkeypatch.setattr(progress, "AFTER_S", 0.0)
    monkeypatch.setattr(progress, "EVERY_S", 0.0)
    return out


def test_intake_pack_and_make_app_tell_how_far_they_are(
    tmp_path: Path, data_dir: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Returns by number, a pack by stages, an app by files."""
    terminal = looked_at(monkeypatch)
    for name in ("a", "b"):
        sealed = run(write_return(RETURN, client=CLIENT, readers=READERS))
        (tmp_path / f"{name}.evenload-return").write_bytes(sealed)
    assert main(["intake", str(tmp_path)]) == 2
    assert terminal.lines()[:2] == [words.returns_read(1, 2), words.returns_read(2, 2)]
    source = resource_dir("assets") / "programmes" / "brackwater"
    assert main(["pack", str(source), "-o", str(tmp_path / "b.evenload-pack"), "--no-voice"]) == 0
    assert terminal.lines()[-4:] == list(words.BUILDING.values())

    def make_app(whole: Any, shell: Path, folder: Path, wrote: Any) -> Made:
        wrote(1, 2)
        return Made(folder, 2, 1000)

    monkeypatch.setattr(web_app, "make_app", make_app)
    brand = str(ROOT / "build/brands/saltmarsh.toml")
    assert main(["make-app", "--brand", brand, "--shell", "s.zip", "-o", str(tmp_path / "app")]) == 0
    assert terminal.lines()[-2:] == [words.MAKING_APP, words.app_files(1, 2)]


def test_the_demo_tells_how_far_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By the people whose weeks are lived through."""
    terminal = looked_at(monkeypatch)
    monkeypatch.setattr(serve, "serve", lambda main, **more: None)
    monkeypatch.setattr("app.demo.story._live", lambda *_: None)
    assert main(["demo", "--no-browser", "--data", str(tmp_path / "demo")]) == 0
    assert terminal.lines()[:4] == [words.demo_told(done, 4) for done in range(4)]
