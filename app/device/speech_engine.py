"""A speech engine of the coach's machine that writes what it says to a file, where there is one."""
from __future__ import annotations

import asyncio
import logging
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

log = logging.getLogger(__name__)
WITHIN_S = 20.0
#: Words a minute: slower than people talk.
PACE = "145"
ENGINES = ("espeak-ng", "espeak")


@dataclass(frozen=True)
class Engine:
    """A program that speaks into a file. Only lines of a pack are given to it, never as options."""

    program: str

    async def say(self, words: str, language: str) -> bytes | None:
        """The file that it wrote, or None where it could not; it never raises and never takes longer than 20 s."""
        return await asyncio.to_thread(self._say, words, language)

    def _say(self, words: str, language: str) -> bytes | None:
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "line.wav"
            try:
                subprocess.run(self._command(words, language, path), check=True, capture_output=True,
                               stdin=subprocess.DEVNULL, timeout=WITHIN_S)
                return path.read_bytes()
            except (OSError, subprocess.SubprocessError) as lack:
                log.debug("%s: %r", self.program, lack)
                return None

    def _command(self, words: str, language: str, path: Path) -> Sequence[str]:
        if Path(self.program).name == "say":
            return [self.program, "-r", PACE, "-o", str(path), "--file-format=WAVE", "--data-format=LEI16@16000",
                    "--", words]
        return [self.program, "-v", language, "-s", PACE, "-w", str(path), "--", words]


def find_engine() -> Engine | None:
    """The engine of this machine, or None."""
    names = (*ENGINES, "say") if sys.platform == "darwin" else ENGINES
    return next((Engine(found) for name in names if (found := shutil.which(name))), None)
