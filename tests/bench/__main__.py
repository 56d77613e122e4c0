"""Prints the table of what the program is measured by.

    python -m tests.bench                      every row, of this checkout
    python -m tests.bench --against CHECKOUT   the same of two checkouts, by turns, with the ratio of the two
    python -m tests.bench --quick              fewer clients, returns and turns: to see that it runs
    python -m tests.bench --only attention     some rows alone: start, compile, track, intake, attention, memory, cues

Everything is a ratio to a floor of the same run. On Linux, with a Chromium; nothing here asserts a time. Starts in a
browser without a server are measured by `python -m tests.bench.web`.
"""
from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from tests.bench.rows import ROWS, Order, lines
from tests.bench.table import printed
from tests.bench.versions import HERE, Version


def parser() -> argparse.ArgumentParser:
    """The arguments."""
    one = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__,
                                  formatter_class=argparse.RawDescriptionHelpFormatter)
    one.add_argument("--against", type=Path, metavar="CHECKOUT", help="another checkout, measured by turns with this")
    one.add_argument("--quick", action="store_true", help="300 clients, 100 returns, one turn")
    one.add_argument("--clients", type=int, metavar="N", help="of the attention list; 5,000 unless said")
    one.add_argument("--returns", type=int, metavar="N", help="of the intake; 1,000 unless said")
    one.add_argument("--turns", type=int, metavar="N", help="how often the versions take turns; 3 unless said")
    one.add_argument("--only", nargs="+", choices=tuple(ROWS), metavar="ROW", help="some rows alone")
    return one


def order_of(args: argparse.Namespace) -> Order:
    """What to measure, and how much of it."""
    other = (Version("other", args.against.resolve()),) if args.against else ()
    few = args.quick
    return Order((HERE, *other), args.turns or (1 if few else 3), args.clients or (300 if few else 5_000),
                 args.returns or (100 if few else 1_000), os.environ.get("EVENLOAD_BROWSER", "/usr/bin/chromium"),
                 tuple(args.only or ROWS))


def main(arguments: Sequence[str]) -> None:
    """Measures and prints."""
    order = order_of(parser().parse_args(arguments))
    found = list(lines(order, lambda name: print(f"measuring: {name}", file=sys.stderr, flush=True)))
    print("\n".join(printed(found, [one.name for one in order.versions])))
    print(f"load of the machine: {', '.join(f'{one:.1f}' for one in os.getloadavg())}")


if __name__ == "__main__":
    main(sys.argv[1:])
