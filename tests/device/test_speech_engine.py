"""A speech engine as a program of the machine: found or not, and never a reason for a pack to fail."""
from __future__ import annotations

import asyncio
import os
import sys
import time
from pathlib import Path

import pytest

from app.device import speech_engine
from app.device.speech_engine import Engine, find_engine

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="the stand-in is a shell script")


def program(folder: Path, name: str, does: str) -> str:
    """A stand-in for an engine: a script."""
    path = folder / name
    path.write_text(f"#!/bin/sh\n{does}\n", "utf-8")
    path.chmod(0o755)
    return str(path)


def test_a_machine_without_an_engine_has_none(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Nothing on the way to programs."""
    monkeypatch.setenv("PATH", str(tmp_path))
    assert find_engine() is None


def test_the_engine_is_given_words_language_and_a_file(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """What it writes comes back; words that look like an option are words."""
    program(tmp_path, "espeak-ng", 'while [ "$1" != -w ]; do shift; done; echo "$@" > "$2"')
    monkeypatch.setenv("PATH", f"{tmp_path}{os.pathsep}/bin{os.pathsep}/usr/bin")
    found = find_engine()
    assert found
    said = asyncio.run(found.say("-x is no option", "en"))
    assert said and said.endswith(b"-- -x is no option\n")


@pytest.mark.parametrize("does", ["exit 3", "true", "sleep 60"])
def test_an_engine_that_fails_or_hangs_gives_nothing(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, does: str
) -> None:
    """In time, and without raising."""
    monkeypatch.setattr(speech_engine, "WITHIN_S", 0.3)
    began = time.monotonic()
    assert asyncio.run(Engine(program(tmp_path, "espeak", does)).say("one", "en")) is None
    assert time.monotonic() - began < 5


def test_a_program_that_is_gone_gives_nothing(tmp_path: Path) -> None:
    """Removed between finding and asking."""
    assert asyncio.run(Engine(str(tmp_path / "espeak")).say("one", "en")) is None
