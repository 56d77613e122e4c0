"""The app for a crowd: `python -m tests.trust.crowd_app DATA_DIR [--port N]`. Linux.

A visit is kept for seconds and not for half an hour after its window has gone. Asked by SIGUSR1 it sweeps up what is
waste, and writes beside the data what is left.
"""
from __future__ import annotations

import ctypes
import gc
import json
import logging
import os
import signal
import sys
from collections import Counter
from pathlib import Path
from typing import ClassVar

from app.cli import load

KEPT_S = 4
COUNT = "count.json"
LOGGERS = ("flet", "flet_web.fastapi")


class Kept(logging.Handler):
    """Counts by Flet's own log, since what Python's collector was told to freeze is in none of its lists."""

    MADE: ClassVar = {"New session created": "visits", "New FletApp": "windows"}
    SWEPT: ClassVar = {"Session was garbage collected": "visits", "FletApp was garbage collected": "windows"}

    def __init__(self) -> None:
        super().__init__(logging.INFO)
        self.left, self.opened = Counter[str](), 0

    def emit(self, record: logging.LogRecord) -> None:
        for begins, by in ((self.MADE, 1), (self.SWEPT, -1)):
            for start, kind in begins.items():
                told = str(record.msg).startswith(start)
                self.left[kind] += by * told
                self.opened += told and (by, kind) == (1, "windows")

    def write(self, place: Path) -> None:
        """What is left, and what memory measures now, when what is free was given back, and at most, MiB."""
        gc.collect()
        ctypes.CDLL(None).malloc_trim(0)
        status = Path("/proc/self/status").read_text()
        said = dict(line.split(":", 1) for line in status.splitlines())
        now, most = (int(said[name].split()[0]) / 1024 for name in ("VmRSS", "VmHWM"))
        beside = place.with_suffix(".new")
        left = {"visits": 0, "windows": 0} | self.left
        beside.write_text(json.dumps(left | {"opened": self.opened, "memory_mib": now, "peak_mib": most}))
        beside.replace(place)


if __name__ == "__main__":
    os.environ["FLET_SESSION_TIMEOUT"] = str(KEPT_S)
    kept = Kept()
    for name in LOGGERS:
        logging.getLogger(name).setLevel(logging.INFO)
        logging.getLogger(name).addHandler(kept)
    signal.signal(signal.SIGUSR1, lambda *_: kept.write(Path(sys.argv[1]).parent / COUNT))
    load("tests.browser.served_app").main()
