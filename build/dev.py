#!/usr/bin/env python3
"""From a fresh checkout to a running or tested program. Standard library only; Linux, macOS and Windows.

    python3 build/dev.py run [ARGUMENTS]     open the demo; further arguments go to `evenload demo`
    python3 build/dev.py test [ARGUMENTS]    ruff, mypy and pytest, long suites sampled; arguments go to pytest
    python3 build/dev.py test --all          the same with every long suite whole
    python3 build/dev.py shots FOLDER        walk through the screens and save a picture of each

The first call makes `.venv` and installs into it; later calls do so again only when pyproject.toml has changed.
On Windows: `py build\\dev.py run`.
"""
from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import chromium
import firefox

ROOT = Path(__file__).resolve().parent.parent
OLDEST = (3, 11)
SLOWEST = 10
"""So many of the slowest tests are printed at the end."""
PROCESSES = min(4, (os.cpu_count() or 1) + 1)
"""Test processes: one more than there are cores, since a browser is often waited for."""
AT_ONCE = (f"--numprocesses={PROCESSES}", "--dist=loadscope", "--no-loadscope-reorder")
"""`tests/conftest.py` says which tests stay together."""
NO_FIREFOX = "None was found, and Debian's could not be installed."
NO_BROWSER = "No Chromium, Chrome or Edge was found, and none could be installed."


class CannotGoOn(Exception):
    """Something that this machine lacks; the message says it whole."""


class Environment:
    """The virtual environment of one checkout."""

    def __init__(self, root: Path, folder: Path) -> None:
        self.root = root
        self.folder = folder
        self.bin = folder / ("Scripts" if os.name == "nt" else "bin")
        self.python = self.bin / ("python.exe" if os.name == "nt" else "python")
        self.stamp = folder / ".installed"

    def wanted(self, extra: str) -> str:
        """What the stamp says once everything is in: it changes with pyproject.toml and with the checkout's place."""
        text = (self.root / "pyproject.toml").read_bytes() + str(self.root).encode()
        return f"{extra} {hashlib.sha256(text).hexdigest()}"

    def holds(self, extra: str) -> bool:
        """Whether the packages for `extra` are in, as pyproject.toml now asks. "test" includes "run"."""
        if not self.python.exists() or not self.stamp.is_file():
            return False
        return self.stamp.read_text("utf-8") in {self.wanted(extra), self.wanted("test")}

    def make(self) -> None:
        """Makes the environment, by the interpreter's own `venv` or else by uv."""
        if subprocess.run([sys.executable, "-m", "venv", "--clear", str(self.folder)], check=False).returncode == 0:
            return
        shutil.rmtree(self.folder, ignore_errors=True)
        uv = shutil.which("uv")
        made = uv and subprocess.run([uv, "venv", "--seed", "--python", sys.executable, str(self.folder)], check=False)
        if not made or made.returncode != 0:
            shutil.rmtree(self.folder, ignore_errors=True)
            raise CannotGoOn(without_venv())

    def install(self, extra: str) -> None:
        """Installs the checkout, editable, and for "test" the tools of the tests."""
        what = f"{self.root}[test]" if extra == "test" else str(self.root)
        print(f"Installing into {self.folder.name} (once; again when pyproject.toml changes)", flush=True)
        command = [str(self.python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-e", what]
        if subprocess.run(command, check=False).returncode != 0:
            raise CannotGoOn("The packages could not be installed; pip says why above. Nothing was started.")
        self.stamp.write_text(self.wanted(extra), "utf-8")

    def ready(self, extra: str) -> None:
        """Makes and fills the environment as far as needed."""
        if self.holds(extra):
            return
        if not self.python.exists():
            self.make()
        self.install(extra)


def without_venv() -> str:
    """The sentence for a Python that cannot make virtual environments."""
    version = "{}.{}".format(*sys.version_info[:2])
    return (
        "This Python cannot make virtual environments, and uv is not installed either.\n"
        f"On Debian or Ubuntu: sudo apt install python3-venv   (or python{version}-venv), then run this again."
    )


def run(environment: Environment, arguments: list[str]) -> int:
    """Opens the demo."""
    environment.ready("run")
    program = environment.bin / ("evenload.exe" if os.name == "nt" else "evenload")
    try:
        return subprocess.call([str(program), "demo", *arguments], cwd=environment.root)
    except KeyboardInterrupt:
        return 0


def test(environment: Environment, arguments: list[str]) -> int:
    """Lints, checks the types and runs the tests; says at the very end what failed or did not run."""
    environment.ready("test")
    browser = chromium.obtain(environment.python)
    has_firefox = "--all" not in arguments or firefox.obtain()
    python = str(environment.python)
    outcome = {
        name: subprocess.call([python, "-m", *command], cwd=environment.root, env=surroundings(browser))
        for name, command in (
            ("ruff", ["ruff", "check", "."]),
            ("mypy", ["mypy"]),
            ("pytest", ["pytest", *AT_ONCE, f"--durations={SLOWEST}", *selection(browser, has_firefox), *arguments]),
        )
    }
    if not has_firefox:
        print(f"NOT RUN: the tests in Firefox. {NO_FIREFOX}", flush=True)
    return verdict(outcome, browser, os.environ)


def selection(browser: Path | None, has_firefox: bool) -> list[str]:
    """The pytest arguments that leave out the tests of a browser that is not there."""
    return ["-m", "not browser"] if browser is None else [] if has_firefox else ["-m", "not firefox"]


def surroundings(browser: Path | None) -> dict[str, str]:
    """The environment variables of a child process."""
    return dict(os.environ) | ({"EVENLOAD_BROWSER": str(browser)} if browser else {})


def verdict(outcome: Mapping[str, int], browser: Path | None, env: Mapping[str, str]) -> int:
    """The exit status, after a loud line for what failed before pytest and one for what did not run."""
    failed = [name for name, status in outcome.items() if status]
    if failed:
        print(f"FAILED: {', '.join(failed)}", flush=True)
    if browser is None:
        print(f"NOT RUN: every browser test. {NO_BROWSER}", flush=True)
    strict = env.get("CI", "").lower() in {"1", "true"}
    return 1 if failed or (browser is None and strict) else 0


def shots(environment: Environment, arguments: list[str]) -> int:
    """Saves a picture of every screen."""
    if not arguments:
        raise CannotGoOn("Say where the pictures go: python3 build/dev.py shots FOLDER")
    environment.ready("test")
    browser = chromium.obtain(environment.python)
    if browser is None:
        raise CannotGoOn(f"No pictures. {NO_BROWSER}")
    folder, *more = arguments
    command = [str(environment.python), "-m", "tests.browser.shots", str(Path(folder).resolve()), *more]
    return subprocess.call(command, cwd=environment.root, env=surroundings(browser))


TASKS: dict[str, Callable[[Environment, list[str]], int]] = {"run": run, "test": test, "shots": shots}


def main(arguments: list[str]) -> int:
    """Runs one task. 2: no such task, or this machine lacks something that was named."""
    if sys.version_info < OLDEST:
        print("Python {}.{} or newer is needed; this is {}.".format(*OLDEST, sys.version.split()[0]), file=sys.stderr)
        return 2
    if not arguments or arguments[0] not in TASKS:
        print(__doc__, file=sys.stderr)
        return 2
    try:
        return TASKS[arguments[0]](Environment(ROOT, ROOT / ".venv"), arguments[1:])
    except CannotGoOn as lack:
        print(lack, file=sys.stderr)
        return 2


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
