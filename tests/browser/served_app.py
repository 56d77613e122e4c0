"""What `tests.browser.app_process` runs: DATA_DIR [--port N] [--began T --rate R]

Prints the address. Without --began and --rate it runs on the machine's own clock. --hands FILE: the clock's hands are
moved by what is written into that file, `{"wall_s": 3600, "mono_s": 0, "zone_min": 120}`.
"""
from __future__ import annotations

import argparse
import json
import time
from datetime import UTC, datetime, timedelta, timezone
from functools import partial
from pathlib import Path

from app.device.background import beside
from app.device.clock import Clock, FastClock, LocalDay, SystemClock
from app.device.device import open_device
from app.main import build_app, load_ahead
from app.resources import resource_dir
from app.serving.server import serve
from app.serving.tracks import shelf_in
from app.storage.database import open_store

LONGEST_MS = 1_900
"""What a fast clock may leap between two looks at it, so that a busy machine is no sleeping one."""


class SeenClock(FastClock):
    """Runs at a rate while somebody looks at it, and stands still meanwhile."""

    def __init__(self, rate: float) -> None:
        self._looked, self._seen_ms = time.monotonic(), 0.0
        super().__init__(rate)

    def _passed_ms(self) -> int:
        now = time.monotonic()
        self._seen_ms += min(LONGEST_MS, (now - self._looked) * 1000 * self.rate)
        self._looked = now
        return int(self._seen_ms)


class SetClock(SeenClock):
    """Begins at a moment of its own and runs at a rate."""

    def __init__(self, began: datetime, rate: float) -> None:
        super().__init__(rate)
        self._began = began.astimezone(UTC)


class HandClock(SystemClock):
    """The machine's time, with hands that are moved through a file."""

    def __init__(self, hands: Path) -> None:
        self._hands = hands

    def _moved(self, name: str) -> float:
        said = json.loads(self._hands.read_text("utf-8")) if self._hands.exists() else {}
        return float(said.get(name, 0))

    def monotonic_ms(self) -> int:
        return super().monotonic_ms() + int(self._moved("mono_s") * 1000)

    def now(self) -> datetime:
        return super().now() + timedelta(seconds=self._moved("wall_s"))

    def local(self, instant: datetime) -> LocalDay:
        zone = timezone(timedelta(minutes=self._moved("zone_min")))
        return LocalDay(instant.astimezone(zone).date(), int(self._moved("zone_min")))


def clock_of(args: argparse.Namespace) -> Clock:
    """The clock that was asked for."""
    if args.began:
        return SetClock(datetime.fromisoformat(args.began), args.rate)
    if args.hands:
        return HandClock(args.hands)
    return SeenClock(args.rate) if args.rate != 1 else SystemClock()


def main() -> None:
    """Serves until it is killed."""
    parser = argparse.ArgumentParser()
    parser.add_argument("data", type=Path)
    parser.add_argument("--port", type=int)
    parser.add_argument("--began")
    parser.add_argument("--hands", type=Path)
    parser.add_argument("--rate", type=float, default=1)
    args = parser.parse_args()

    def ready(address: str) -> None:
        print(address, flush=True)
        beside(load_ahead)  # as `evenload open` does

    device = partial(open_device, shelf=shelf_in(args.data))
    serve(build_app(open_store(args.data), device, clock_of(args)), data_dir=args.data,
          assets_dir=resource_dir("assets"), port=args.port, on_ready=ready,
          name="")

