"""The whole app in a process of its own: python -m tests.browser.app_process DATA_DIR [--port N] [--began T --rate R]

Prints the address. Without --began and --rate it runs on the machine's own clock.
"""
from __future__ import annotations

import argparse
from datetime import UTC, datetime
from pathlib import Path

from app.device.clock import Clock, FastClock, SystemClock
from app.device.device import open_device
from app.main import build_app
from app.resources import resource_dir
from app.server import serve
from app.storage.database import open_store


class SetClock(FastClock):
    """Begins at a moment of its own and runs at a rate."""

    def __init__(self, began: datetime, rate: float) -> None:
        super().__init__(rate)
        self._began = began.astimezone(UTC)


def clock_of(args: argparse.Namespace) -> Clock:
    """The clock that was asked for."""
    if args.began:
        return SetClock(datetime.fromisoformat(args.began), args.rate)
    return FastClock(args.rate) if args.rate != 1 else SystemClock()


def main() -> None:
    """Serves until it is killed."""
    parser = argparse.ArgumentParser()
    parser.add_argument("data", type=Path)
    parser.add_argument("--port", type=int)
    parser.add_argument("--began")
    parser.add_argument("--rate", type=float, default=1)
    args = parser.parse_args()
    serve(build_app(open_store(args.data), open_device, clock_of(args)), data_dir=args.data,
          assets_dir=resource_dir("assets"), port=args.port, on_ready=lambda address: print(address, flush=True))


if __name__ == "__main__":
    main()
