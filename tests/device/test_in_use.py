"""One running app to a data directory."""
from __future__ import annotations

import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from app.cli import main
from app.data_folder import LOCK, WAY_IN
from app.device.in_use import held
from app.device.track_folder import swept
from app.domain.errors import AlreadyOpen, NoAccess
from app.words.errors import error_text

HOLD = "import sys, time, pathlib\nfrom app.device.in_use import held\nwith held(pathlib.Path(sys.argv[1])):\n" \
       "    print('held', flush=True)\n    time.sleep(60)"


def holder(folder: Path) -> subprocess.Popen[str]:
    """Another process that has the folder."""
    process = subprocess.Popen([sys.executable, "-c", HOLD, str(folder)], stdout=subprocess.PIPE, text=True)
    assert process.stdout and process.stdout.readline() == "held\n"
    return process


def test_a_second_one_is_told_where_the_first_is(tmp_path: Path) -> None:
    """By its page, where there is one; killed, it holds nothing any more."""
    other = holder(tmp_path)
    with pytest.raises(AlreadyOpen) as refused, held(tmp_path):
        raise AssertionError("both have it")
    assert "Close it there first" in error_text(refused.value)
    (tmp_path / WAY_IN).write_text("x")
    with pytest.raises(AlreadyOpen) as refused, held(tmp_path):
        raise AssertionError("both have it")
    assert WAY_IN in error_text(refused.value)
    other.send_signal(signal.SIGKILL)
    other.wait()
    with held(tmp_path):
        assert stat.S_IMODE((tmp_path / LOCK).stat().st_mode) & 0o077 == 0 or sys.platform == "win32"
    with held(tmp_path):
        pass


def test_a_second_open_deletes_nothing_of_the_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its sound tracks are being played from; its records are not even opened."""
    folder = tmp_path / "data"
    track = swept(folder / "tracks") / "abcdefghijklmnopqrstuv.wav"
    track.write_bytes(b"RIFF")
    other = holder(folder)
    try:
        begun = time.monotonic()
        for more in ([], ["--restore"], ["--role", "coach"]):
            assert main(["open", "--data", str(folder), "--no-browser", *more]) == 2
            assert "already open" in capsys.readouterr().err
        assert time.monotonic() - begun < 20
    finally:
        other.kill()
        other.wait()
    assert track.exists() and not (folder / "evenload.db").exists()


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    """A file stands in its place."""
    (tmp_path / "file").write_text("x")
    with pytest.raises(NoAccess), held(tmp_path / "file"):
        raise AssertionError("it holds a file")
