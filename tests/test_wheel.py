"""The wheel in a bare environment outside the checkout: what a coach gets who installs the program and nothing else."""
from __future__ import annotations

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import urllib.request
import venv
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from importlib.util import find_spec
from pathlib import Path
from zipfile import ZipFile

import pytest

ROOT = Path(__file__).resolve().parents[1]
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")
BUNDLED_SOURCE = Path("app", "_bundled", "assets", "programmes", "brackwater")
pytestmark = [pytest.mark.whole(keep=0), pytest.mark.skipif(os.name == "nt", reason="links need a privilege there")]


@dataclass(frozen=True)
class Installed:
    """An environment that holds the wheel and what it says it requires, and a folder beside no checkout."""

    bin: Path
    packages: Path
    here: Path

    def start(self, *arguments: str) -> subprocess.Popen[str]:
        """The command as its user would call it."""
        command = [str(self.bin / "evenload"), *arguments]
        return subprocess.Popen(command, cwd=self.here, env=self.environment(), text=True,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def run(self, *arguments: str) -> str:
        """What it prints; it must be done with 0."""
        with self.start(*arguments) as process:
            said, complained = process.communicate(timeout=120)
        assert process.returncode == 0, complained
        return said

    def environment(self) -> dict[str, str]:
        """Nothing of this process's own paths."""
        mine = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV"))}
        return mine | {"EVENLOAD_DATA": str(self.here / "data"), "TZ": "UTC"}


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Installed]:
    """Made once for this file; the libraries are links to those that the tests run on."""
    folder = tmp_path_factory.mktemp("wheel")
    wheel = built(folder)
    venv.create(folder / "bare", with_pip=False, symlinks=True)
    python = folder / "bare" / "bin" / "python"
    subprocess.run([sys.executable, "-m", "pip", "--python", str(python), "install", "--quiet", "--no-index",
                    "--no-deps", "--disable-pip-version-check", str(wheel)], check=True)
    packages = next((folder / "bare" / "lib").glob("python3*/site-packages"))
    link_required(wheel, packages)
    (folder / "here").mkdir()
    yield Installed(python.parent, packages, folder / "here")


def built(folder: Path) -> Path:
    """The wheel of this checkout, by its own build backend: the one installed here, or one that pip fetches."""
    alone = ["--no-build-isolation"] if find_spec("hatchling") else []
    subprocess.run([sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--disable-pip-version-check", *alone,
                    "--wheel-dir", str(folder), str(ROOT)], check=True)
    return next(folder.glob("evenload-*.whl"))


def link_required(wheel: Path, packages: Path) -> None:
    """Everything that the wheel requires, and what that requires in turn; no tool of the tests."""
    with ZipFile(wheel) as archive:
        metadata = next(name for name in archive.namelist() if name.endswith(".dist-info/METADATA"))
        lines = archive.read(metadata).decode().splitlines()
    wanted = [line.removeprefix("Requires-Dist: ") for line in lines if line.startswith("Requires-Dist: ")]
    seen: set[str] = set()
    while wanted:
        name = required_here(wanted.pop())
        if name is None or name in seen:
            continue
        seen.add(name)
        try:
            found = distribution(name)
        except PackageNotFoundError:
            continue  # wanted on another machine or another Python
        link(found, packages)
        wanted += found.requires or []


def required_here(requirement: str) -> str | None:
    """The name in a requirement; None where it belongs to an extra."""
    return None if "extra ==" in requirement else NAME.match(requirement.strip()).group().lower()  # type: ignore[union-attr]


def link(found: Distribution, packages: Path) -> None:
    """Its top-level files and folders."""
    for top in {Path(str(file)).parts[0] for file in found.files or ()} - {"..", "__pycache__"}:
        there = Path(str(found.locate_file(top)))
        if there.exists() and not (packages / top).exists():
            (packages / top).symlink_to(there)


def test_the_program_comes_from_the_wheel(installed: Installed) -> None:
    """Its own package, its assets and migrations, and the mark that it is typed; no tool of the tests beside it."""
    code = "import app, importlib.util; print(app.__file__, importlib.util.find_spec('pytest'))"
    told = subprocess.run([installed.bin / "python", "-c", code], cwd=installed.here, env=installed.environment(),
                          check=True, capture_output=True, text=True).stdout
    assert told.split() == [str(installed.packages / "app" / "__init__.py"), "None"]
    assert {"py.typed", "_bundled"} <= {path.name for path in (installed.packages / "app").iterdir()}


def test_a_coach_checks_packs_and_compiles(installed: Installed) -> None:
    """A source outside any checkout becomes a pack, the pack is verified, and a session of it is compiled."""
    source = installed.here / "source"
    shutil.copytree(installed.packages / BUNDLED_SOURCE, source)
    assert json.loads(installed.run("check", str(source), "--json"))["sessions"]
    installed.run("pack", "source", "-o", "mine.evenload-pack", "--no-voice")
    held = json.loads(installed.run("check", "mine.evenload-pack", "--json"))
    assert held["kind"] == "pack"
    compiled = json.loads(installed.run("timeline", "mine.evenload-pack", held["sessions"][0], "--json"))
    assert compiled["total_s"] > 0 and compiled["steps"]


def test_the_demo_starts_answers_and_stops_and_its_desk_is_reviewed(installed: Installed) -> None:
    """The page comes behind its key; ended as by Ctrl-C it ends well; its records are then read by `review`."""
    with installed.start("demo", "--no-browser", "--port", "0", "--data", "demo") as process:
        try:
            assert process.stdout
            address = next(found.group() for line in process.stdout if (found := re.search(r"http://\S+", line)))
            opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
            with opener.open(address, timeout=60) as page:
                assert page.status == 200 and b"<html" in page.read().lower()
        finally:
            process.send_signal(signal.SIGINT)
        _, complained = process.communicate(timeout=60)
    assert process.returncode == 0, complained
    listed = json.loads(installed.run("review", "--data", "demo", "--json"))
    assert listed["people"] > 0 and listed["harm"]
