"""A mistake of the program's own: one sentence, a log file without anybody's records, exit status 70."""
from __future__ import annotations

import argparse
import asyncio
import logging
import os
import stat
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from app import cli
from app.commands import load
from app.storage.database import open_store

SECRET = "Maud’s hip hurts, 7 of 10"
ROOT = Path(__file__).resolve().parents[2]


def failing(args: argparse.Namespace) -> int:
    """As a mistake would: with what somebody wrote in its words, and in the values that its cause bears."""
    note = SECRET
    try:
        raise KeyError(note)
    except KeyError as cause:
        raise RuntimeError(f"cannot place {note}") from cause


def logs(folder: Path) -> list[Path]:
    """The log files there."""
    return sorted(folder.glob("evenload-error-*.log"))


def test_it_is_one_sentence_and_a_log_for_its_owner_alone(
    monkeypatch: pytest.MonkeyPatch, data_dir: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    """The log names kinds of errors and places in the code; no word, no value, no argument, no path."""
    monkeypatch.setattr(load, "run", failing)
    assert cli.main(["load", "maud.csv"]) == 70
    out, err = capsys.readouterr()
    [log] = logs(data_dir)
    assert out == "" and err.count("\n") == 1 and str(log) in err
    assert "Traceback" not in err and SECRET not in err and "RuntimeError" not in err
    text = log.read_text("utf-8")
    assert "builtins.RuntimeError" in text and "builtins.KeyError" in text and "command: load" in text
    assert "app.cli:" in text and f"{__name__}:" in text and "failing" in text
    assert not any(word in text for word in ("Maud", "maud", "hip", "cannot place", str(ROOT), str(Path.home())))
    if os.name != "nt":
        assert stat.S_IMODE(log.stat().st_mode) == 0o600


def test_values_of_a_row_are_not_in_the_log(
    monkeypatch: pytest.MonkeyPatch, data_dir: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    """A database error names its parameters when it is printed whole."""
    def twice(args: argparse.Namespace) -> int:
        store = open_store(data_dir)
        with store.begin() as db:
            for _ in range(2):
                db.exec_driver_sql("insert into setting (name, value) values (?, ?)", (SECRET, "1"))
        return 0

    monkeypatch.setattr(load, "run", twice)
    assert cli.main(["load", "x"]) == 70
    [log] = logs(data_dir)
    assert "IntegrityError" in log.read_text("utf-8")
    assert SECRET not in log.read_text("utf-8") + capsys.readouterr().err


def test_without_a_data_directory_it_lies_with_the_temporary_files(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    """None is made for a log; and where nothing can be written, the sentence stands alone."""
    monkeypatch.setattr(load, "run", failing)
    (tmp_path / "temporary").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "temporary"))
    assert cli.main(["load", "x", "--data", str(tmp_path / "none")]) == 70
    assert len(logs(tmp_path / "temporary")) == 1 and not (tmp_path / "none").exists()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone"))
    assert cli.main(["load", "x", "--data", str(tmp_path / "none")]) == 70
    assert capsys.readouterr().err.count("\n") == 2


def test_ten_logs_are_kept(monkeypatch: pytest.MonkeyPatch, data_dir: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The oldest go."""
    monkeypatch.setattr(load, "run", failing)
    for _ in range(13):
        assert cli.main(["load", "x"]) == 70
    assert len(logs(data_dir)) == 10


def test_a_real_process_shows_no_trace(tmp_path: Path) -> None:
    """Neither of the error nor of anything at its end."""
    lines = "import sys\nfrom app import cli\nfrom app.commands import load\n" \
            "load.run = lambda args: 1 // 0\nsys.exit(cli.main(['load', 'x', '--data', sys.argv[1]]))\n"
    told = subprocess.run([sys.executable, "-c", lines, str(tmp_path)], cwd=ROOT, check=False, capture_output=True,
                          text=True, timeout=60)
    assert (told.returncode, told.stdout) == (70, "")
    assert told.stderr.count("\n") == 1 and str(logs(tmp_path)[0]) in told.stderr


def test_an_error_of_a_screen_is_a_line_and_a_log_too(
    monkeypatch: pytest.MonkeyPatch, data_dir: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    """While the app is open nobody wants a trace in the terminal either; and afterwards nothing stays set."""
    async def serving() -> None:
        try:
            raise ValueError(SECRET)
        except ValueError as error:
            logging.getLogger("evenload").error("a handler failed", exc_info=error)
        logging.getLogger("elsewhere").warning("two\nlines")

    def open_app(args: argparse.Namespace) -> int:
        asyncio.run(serving())
        return 0

    monkeypatch.setattr(load, "run", open_app)
    before = list(logging.getLogger().handlers)
    assert cli.main(["load", "x"]) == 0
    err = capsys.readouterr().err
    assert err.count("\n") == 2 and SECRET not in err and err.endswith("\ntwo\n")
    assert "ValueError" in logs(data_dir)[0].read_text("utf-8")
    assert logging.getLogger().handlers == before


def test_an_interruption_and_a_closed_pipe_are_no_mistakes(
    monkeypatch: pytest.MonkeyPatch, data_dir: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    """130 as a shell expects it, and 0; not a word."""
    for error, status in ((KeyboardInterrupt, 130), (BrokenPipeError, 0)):
        def ends(args: argparse.Namespace, error: type[BaseException] = error) -> int:
            raise error
        monkeypatch.setattr(load, "run", ends)
        assert cli.main(["load", "x"]) == status
    assert capsys.readouterr() == ("", "") and logs(data_dir) == []
