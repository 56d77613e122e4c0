"""build/ is source, and stays it."""
from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent


def test_the_tripwire_stands() -> None:
    """A folder where a mistaken `flet build` would write a file, so that it stops before deleting anything."""
    assert (ROOT / "build" / ".python-version" / "README.md").is_file()
    with pytest.raises(IsADirectoryError if (ROOT / "build").as_posix().startswith("/") else PermissionError):
        (ROOT / "build" / ".python-version").open("w")


def test_build_is_never_ignored_whole() -> None:
    """Git would lose it, and with it the source distribution."""
    lines = {line.strip() for line in (ROOT / ".gitignore").read_text().splitlines()}
    assert not lines & {"build", "build/", "/build", "/build/", "build/*", "/build/*"}


@pytest.mark.skipif(shutil.which("git") is None or not (ROOT / ".git").exists(), reason="not a git checkout")
def test_git_keeps_the_scripts_and_ignores_what_builds_leave() -> None:
    """Asked of git itself."""
    def ignored(path: str) -> bool:
        asked = subprocess.run(["git", "check-ignore", "--no-index", "-q", path], cwd=ROOT, check=False)
        return asked.returncode == 0

    assert not any(map(ignored, ["build/dev.py", "build/.python-version/README.md", "assets/sounds/work.wav"]))
    assert all(map(ignored, ["build/flutter/x", "build/site-packages/x", "build/apk/x", "dist/x", ".venv/x"]))


def test_nothing_makes_build_a_package() -> None:
    """It would stand in the way of the tool of that name."""
    assert not (ROOT / "build" / "__init__.py").exists()
