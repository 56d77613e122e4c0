"""The commands: `evenload COMMAND`.

Exit 0 done, 1 the answer is "no", 2 bad input with one sentence on stderr, 70 a mistake of the program's own.
"""
from __future__ import annotations

import argparse
import asyncio
import contextlib
import gc
import inspect
import logging
import os
import sys
from collections.abc import Iterator, Sequence
from importlib import import_module
from types import ModuleType

from app.commands.arguments import BAD, parse
from app.domain.errors import AppError
from app.words import errors

UNEXPECTED = 70
INTERRUPTED = 130

#: Command → where it is run. Imported when it is asked for, so that each starts as fast as it can.
RUNS = {
    "open": "serve:run_open", "demo": "serve:run_demo", "check": "check:run", "pack": "pack:run",
    "timeline": "timeline:run", "intake": "intake:run", "review": "review:run",
    "load": "load:run", "cues": "cues:run", "make-app": "web_app:run_make", "serve": "web_app:run_serve",
    "keys": "keys:run", "backup": "records:run_backup", "restore": "records:run_restore", "erase": "records:run_erase",
}


def load(module: str) -> ModuleType:
    """Imports a module and what it needs without looking through any of it for waste: loading is most of a start."""
    gc.disable()
    try:
        return import_module(module)
    finally:
        gc.freeze()
        gc.enable()


def run(args: argparse.Namespace) -> int:
    """Runs the command that was asked for.

    Raises:
        AppError: bad input; nothing was written.
    """
    module, function = RUNS[args.command].split(":")
    act = getattr(load(f"app.commands.{module}"), function)
    status = int(asyncio.run(act(args)) if inspect.iscoroutinefunction(act) else act(args))
    sys.stdout.flush()
    return status


@contextlib.contextmanager
def logging_for(args: argparse.Namespace) -> Iterator[None]:
    """What is logged meanwhile goes to standard error in single lines: warnings, and with `-v` what is being done."""
    from app.commands.unexpected import CommandLog

    root, ours, handler = logging.getLogger(), logging.getLogger("app"), CommandLog(args)
    before = ours.level
    root.addHandler(handler)
    ours.setLevel(handler.level)
    try:
        yield
    finally:
        root.removeHandler(handler)
        ours.setLevel(before)


def main(argv: Sequence[str] | None = None) -> int:
    """The console script."""
    args = None
    try:
        args = parse(sys.argv[1:] if argv is None else argv)
        with logging_for(args):
            return run(args)
    except AppError as error:
        print(errors.error_text(error), file=sys.stderr)
        return BAD
    except BrokenPipeError:
        _let_go_of_output()
        return 0
    except KeyboardInterrupt:
        return INTERRUPTED
    except Exception as error:  # the last line before a trace would be shown
        from app.commands.unexpected import report

        print(report(error, args), file=sys.stderr)
        return UNEXPECTED


def _let_go_of_output() -> None:
    """Nobody reads any more: what is still to be flushed at the end goes nowhere, without a word."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


if __name__ == "__main__":
    sys.exit(main())
