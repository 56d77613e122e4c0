"""One command does the whole set-up, once, and says at the end what did not run."""
from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest


class Shell:
    """Takes the place of starting programs: writes the commands down and lets some fail."""

    def __init__(self, dev: ModuleType, patch: pytest.MonkeyPatch) -> None:
        self.commands: list[list[str]] = []
        self.failing: set[str] = set()
        self.dev = dev
        patch.setattr(dev.subprocess, "run", self.run)
        patch.setattr(dev.subprocess, "call", lambda command, **more: self.run(command, **more).returncode)

    def run(self, command: list[str], **_: object) -> SimpleNamespace:
        self.commands.append([str(part) for part in command])
        failed = any(word in self.failing for word in self.commands[-1])
        if not failed and "venv" in command:
            python = Path(command[-1]) / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
            python.parent.mkdir(parents=True, exist_ok=True)
            python.touch()
        return SimpleNamespace(returncode=int(failed))

    def started(self, word: str) -> list[list[str]]:
        return [command for command in self.commands if word in command]


@pytest.fixture
def shell(dev: ModuleType, monkeypatch: pytest.MonkeyPatch) -> Shell:
    monkeypatch.setattr(dev.chromium, "obtain", lambda python: Path("/usr/bin/chromium"))
    monkeypatch.setattr(dev.firefox, "obtain", lambda: True)
    monkeypatch.delenv("CI", raising=False)
    return Shell(dev, monkeypatch)


@pytest.fixture
def checkout(dev: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A fresh checkout."""
    (tmp_path / "pyproject.toml").write_text("[project]")
    monkeypatch.setattr(dev, "ROOT", tmp_path)
    return tmp_path


def test_the_first_run_makes_the_environment_and_opens_the_demo(dev: ModuleType, shell: Shell, checkout: Path) -> None:
    """With the arguments passed on and without the tools of the tests."""
    assert dev.main(["run", "--port", "9000"]) == 0
    assert [command[1:3] for command in shell.commands[:2]] == [["-m", "venv"], ["-m", "pip"]]
    assert shell.commands[1][-1] == str(checkout)
    assert shell.commands[2][1:] == ["demo", "--port", "9000"]


def test_a_later_run_installs_nothing(dev: ModuleType, shell: Shell, checkout: Path) -> None:
    """Unless pyproject.toml has changed since; and what the tests need includes what a run needs."""
    dev.main(["run"])
    dev.main(["run"])
    assert len(shell.started("pip")) == 1
    dev.main(["test"])
    dev.main(["run"])
    assert len(shell.started("pip")) == 2
    assert shell.started("pip")[1][-1] == f"{checkout}[test]"
    (checkout / "pyproject.toml").write_text("[project] # changed")
    dev.main(["run"])
    assert len(shell.started("pip")) == 3
    assert len(shell.started("venv")) == 1


def test_a_moved_checkout_is_installed_again(dev: ModuleType, shell: Shell, checkout: Path, tmp_path: Path) -> None:
    """An editable installation knows its place."""
    dev.main(["run"])
    moved = dev.Environment(tmp_path / "elsewhere", checkout / ".venv")
    moved.root.mkdir()
    (moved.root / "pyproject.toml").write_text("[project]")
    assert not moved.holds("run")


def test_a_failed_installation_is_tried_again(
        dev: ModuleType, shell: Shell, checkout: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is no half installation that passes for a whole one."""
    shell.failing = {"pip"}
    assert dev.main(["test"]) == 2
    assert "could not be installed" in capsys.readouterr().err
    assert not shell.started("pytest")
    shell.failing = set()
    assert dev.main(["test"]) == 0


@pytest.mark.parametrize("uv", ["/usr/bin/uv", None])
def test_without_venv_uv_is_tried_and_else_the_package_named(
        dev: ModuleType, shell: Shell, checkout: Path, monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str], uv: str | None) -> None:
    """Debian leaves it out of its Python."""
    shell.failing = {sys.executable} if uv is None else {"--clear"}
    monkeypatch.setattr(dev.shutil, "which", lambda name: uv)
    assert dev.main(["run"]) == (0 if uv else 2)
    assert bool(shell.started("--seed")) is bool(uv)
    assert ("sudo apt install python3-venv" in capsys.readouterr().err) is (uv is None)


def test_the_test_command_runs_all_three_and_pytest_last(dev: ModuleType, shell: Shell, checkout: Path) -> None:
    """A complaint of one hides nothing of the others, and pytest's closing lines come last."""
    shell.failing = {"ruff"}
    assert dev.main(["test", "--all"]) == 1
    ran = [command[2:] for command in shell.commands if command[2:3] in (["ruff"], ["mypy"], ["pytest"])]
    assert ran == [["ruff", "check", "."], ["mypy"], ["pytest", *dev.AT_ONCE, "--durations=10", "--all"]]


@pytest.mark.parametrize("name", ["ruff", "mypy", "pytest"])
def test_any_complaint_fails_the_whole(
        dev: ModuleType, shell: Shell, checkout: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    """And is named at the end."""
    shell.failing = {name}
    assert dev.main(["test"]) == 1
    assert capsys.readouterr().out.rstrip().endswith(f"FAILED: {name}")


@pytest.mark.parametrize(("ci", "status"), [("true", 1), ("", 0)])
def test_without_a_browser_the_rest_runs_and_one_line_says_so(
        dev: ModuleType, shell: Shell, checkout: Path, monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str], ci: str, status: int) -> None:
    """On a build machine that is a failure."""
    monkeypatch.setattr(dev.chromium, "obtain", lambda python: None)
    monkeypatch.setenv("CI", ci)
    assert dev.main(["test"]) == status
    assert shell.started("pytest")[-1][2:] == ["pytest", *dev.AT_ONCE, "--durations=10", "-m", "not browser"]
    last = capsys.readouterr().out.rstrip().splitlines()[-1]
    assert last.startswith("NOT RUN: every browser test.")


def test_firefox_is_looked_for_by_the_whole_run_alone(
        dev: ModuleType, shell: Shell, checkout: Path, monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str]) -> None:
    """Where there is none, a line says what did not run."""
    looked: list[bool] = []
    monkeypatch.setattr(dev.firefox, "obtain", lambda: looked.append(True))
    assert dev.main(["test"]) == 0 and not looked
    assert dev.main(["test", "--all"]) == 0 and looked
    assert "NOT RUN: the tests in Firefox." in capsys.readouterr().out
    assert shell.started("pytest")[-1][-3:] == ["-m", "not firefox", "--all"]


def test_the_browser_is_handed_on(dev: ModuleType) -> None:
    """By the environment, so that pytest alone can be given one too."""
    assert dev.surroundings(Path("/usr/bin/chromium"))["EVENLOAD_BROWSER"] == "/usr/bin/chromium"


def test_pictures_need_a_folder_and_a_browser(
        dev: ModuleType, shell: Shell, checkout: Path, monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str]) -> None:
    """Each lack in its own sentence, and nothing started."""
    assert dev.main(["shots"]) == 2
    assert "shots FOLDER" in capsys.readouterr().err
    monkeypatch.setattr(dev.chromium, "obtain", lambda python: None)
    assert dev.main(["shots", "pictures"]) == 2
    assert not shell.started("tests.browser.shots")


@pytest.mark.parametrize("arguments", [[], ["destroy"], ["--help"]])
def test_anything_else_shows_the_tasks(
        dev: ModuleType, arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """And starts nothing."""
    assert dev.main(arguments) == 2
    assert "build/dev.py test" in capsys.readouterr().err


def test_an_old_python_is_told_so(
        dev: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """In a sentence, before anything is made."""
    monkeypatch.setattr(dev.sys, "version_info", (3, 9, 1))
    assert dev.main(["run"]) == 2
    assert "3.11 or newer is needed" in capsys.readouterr().err


def test_it_needs_nothing_but_python() -> None:
    """Not even what an environment around it offers."""
    root = Path(__file__).resolve().parent.parent.parent
    shown = subprocess.run([sys.executable, "-E", "-S", str(root / "build" / "dev.py")], capture_output=True, text=True,
                           check=False)
    assert "build/dev.py run" in shown.stderr
