"""Checkouts of the program, each measured on its own code and by its own environment where it has one."""
from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
SCRIPTS = Path(__file__).resolve().parent
PACKAGE = "measured"


class CannotMeasure(Exception):
    """A script ended with an error; the message holds its last words."""


class Samples(NamedTuple):
    """What one run of a script found: ms of the program and of the floor, by turns, and what was measured."""

    spent: tuple[float, ...]
    floor: tuple[float, ...]
    facts: dict[str, float]


@dataclass(frozen=True)
class Version:
    """One checkout. Its own `app` and `tests` are the ones imported, and the scripts of this one."""

    name: str
    root: Path

    @property
    def python(self) -> str:
        """Its environment's, else the one that runs the benchmark."""
        own = self.root / ".venv" / "bin" / "python"
        return str(own) if own.exists() else sys.executable

    def environment(self) -> dict[str, str]:
        """Days begin at the same moment on every machine."""
        return dict(os.environ) | {"TZ": "UTC", "PYTHONPATH": os.pathsep.join((str(self.root), str(SCRIPTS)))}

    def command(self, module: str, *arguments: object) -> list[str]:
        """A module as a process of this checkout."""
        return [self.python, "-m", module, *map(str, arguments)]

    def run(self, module: str, *arguments: object) -> str:
        """What it prints.

        Raises:
            CannotMeasure: it ended with an error.
        """
        done = subprocess.run(self.command(module, *arguments), cwd=self.root, env=self.environment(), text=True,
                              capture_output=True, check=False)
        if done.returncode:
            raise CannotMeasure(f"{self.name}, {module}: {''.join(done.stderr.splitlines()[-1:])}")
        return done.stdout

    def measure(self, script: str, *arguments: object) -> Samples:
        """The figures of one of the scripts.

        Raises:
            CannotMeasure: it ended with an error.
        """
        told = json.loads(self.run(f"{PACKAGE}.{script}", *arguments).splitlines()[-1])
        return Samples(tuple(told["spent"]), tuple(told["floor"]), told["facts"])


HERE = Version("this", ROOT)
