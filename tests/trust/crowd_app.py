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

from app.cli import load

KEPT_S = 4
COUNT = "count.json"
LOGGERS = ("flet", "flet_web.fastapi")


class Kept(logging.Handler):
    """Counts by Flet's own log, since what Python's collector was told to freeze is in none of its lists."""

    MADE = {"New session created": "visits", "New FletApp": "windows"}
    SWEPT = {"Session was garbage collected": "visits", "FletApp was garbage collected": "windows"}

    def __init__(self) -> None:
        super().__init__(logging.INFO)
        self.left = Counter[str]()

    def emit(self, record: logging.LogRecord) -> None:
        for begins, by in ((self.MADE, 1), (self.SWEPT, -1)):
            for start, kind in begins.items():
                self.left[kind] += by * str(record.msg).startswith(start)

    def write(self, place: Path) -> None:
        """What is in memory, and what that measures, MiB, when the allocator has given back what is free."""
        gc.collect()
        ctypes.CDLL(None).malloc_trim(0)
        status = Path("/proc/self/status").read_text()
        resident = next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmRSS")) / 1024
        beside = place.with_suffix(".new")
        beside.write_text(json.dumps({"visits": 0, "windows": 0} | self.left | {"memory_mib": resident}))
        beside.replace(place)


if __name__ == "__main__":
    os.environ["FLET_SESSION_TIMEOUT"] = str(KEPT_S)
    kept = Kept()
    for name in LOGGERS:
        logging.getLogger(name).setLevel(logging.INFO)
        logging.getLogger(name).addHandler(kept)
    signal.signal(signal.SIGUSR1, lambda *_: kept.write(Path(sys.argv[1]).parent / COUNT))
    load("tests.browser.served_app").main()
