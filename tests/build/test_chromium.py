"""A browser for the tests is looked for in the right order and never believed in without starting it."""
from __future__ import annotations

import os
from pathlib import Path
from types import ModuleType

import pytest


def program(place: Path, text: str = "#!/bin/sh\nexit 0\n") -> Path:
    """An executable script."""
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(text)
    place.chmod(0o755)
    return place


def test_the_named_browser_comes_first(chromium: ModuleType, tmp_path: Path) -> None:
    """Then what the path holds."""
    installed = program(tmp_path / "bin" / "google-chrome")
    env = {"EVENLOAD_BROWSER": "/opt/own", "PATH": str(tmp_path / "bin")}
    assert list(chromium.places(env, "linux")) == [Path("/opt/own"), installed]


def test_macs_and_windows_keep_programs_off_the_path(chromium: ModuleType) -> None:
    """Known places, for the machine and for one user."""
    mac = list(chromium.places({"PATH": ""}, "darwin"))
    assert Path("/Applications/Google Chrome.app/Contents/MacOS/Google Chrome") in mac
    windows = list(chromium.places({"PATH": "", "PROGRAMFILES": "C:/Program Files"}, "win32"))
    assert Path("C:/Program Files/Microsoft/Edge/Application/msedge.exe") in windows


@pytest.mark.skipif(os.name == "nt", reason="Windows has no scripts of this kind")
def test_a_stub_is_not_a_browser(chromium: ModuleType, tmp_path: Path) -> None:
    """Some distributions install a script that only asks for another package."""
    assert chromium.starts(program(tmp_path / "good"))
    assert not chromium.starts(program(tmp_path / "stub", "#!/bin/sh\nexit 1\n"))
    assert not chromium.starts(program(tmp_path / "broken", "no program at all"))
    assert not chromium.starts(tmp_path / "none")


class Machine:
    """A machine on which a browser appears after some steps."""

    def __init__(self, module: ModuleType, patch: pytest.MonkeyPatch, appears_after: str | None) -> None:
        self.steps: list[str] = []
        self.appears_after = appears_after
        for name in ("installed", "from_debian", "from_driver", "downloaded"):
            patch.setattr(module, name, self.step(name))

    def step(self, name: str) -> object:
        def take(python: Path | None = None) -> object:
            self.steps.append(name)
            there = self.appears_after is not None and self.appears_after in self.steps
            return there if name.startswith("from_") else (Path("/found") if there else None)
        return take


@pytest.mark.parametrize(("appears_after", "steps"), [
    ("installed", ["installed"]),
    ("from_debian", ["installed", "from_debian", "installed"]),
    ("from_driver", ["installed", "from_debian", "from_driver", "downloaded"]),
    (None, ["installed", "from_debian", "from_driver"]),
])
def test_a_browser_is_had_by_the_least_trouble(
        chromium: ModuleType, monkeypatch: pytest.MonkeyPatch, appears_after: str | None, steps: list[str]) -> None:
    """One that is there; Debian's package; the driver's own; none."""
    machine = Machine(chromium, monkeypatch, appears_after)
    found = chromium.obtain(Path("python"))
    assert found == (Path("/found") if appears_after else None)
    assert machine.steps == steps


def test_packages_are_installed_only_with_the_right_to(chromium: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody is asked for a password in the middle of a test run."""
    monkeypatch.setattr(chromium.os, "geteuid", lambda: 1000, raising=False)
    monkeypatch.setattr(chromium.subprocess, "run", lambda *a, **k: pytest.fail("nothing may be run"))
    assert not chromium.from_debian()
