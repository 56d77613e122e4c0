"""The commands: `evenload COMMAND`. Exit 0 done, 1 the answer is "no", 2 bad input with one sentence on stderr."""
from __future__ import annotations

import argparse
import asyncio
import inspect
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from typing import NoReturn

from app.domain.errors import AppError
from app.words import errors
from app.words.machine import commands as command_words

BAD = 2
PROGRAMME = ".evenload-pack"

#: Command → where it is run. Imported when it is asked for, so that each starts as fast as it can.
RUNS = {
    "open": "serve:run_open", "demo": "serve:run_demo", "check": "check:run", "pack": "pack:run",
    "timeline": "timeline:run", "intake": "desk:run_intake", "review": "desk:run_review",
    "load": "load:run", "cues": "cues:run", "make-app": "web_app:run_make", "serve": "web_app:run_serve",
}


class Parser(argparse.ArgumentParser):
    """Says what is wrong in one sentence, without the usage."""

    def error(self, message: str) -> NoReturn:
        self.exit(BAD, f"{self.prog}: {message}.\n")


def _port(words: str) -> int:
    number = int(words)
    if not 0 <= number < 65536:
        raise argparse.ArgumentTypeError("a port is a number from 0 to 65535")
    return number


def _minutes(words: str) -> int:
    number = int(words) if words.isdecimal() else 0
    if not 1 <= number <= 240:
        raise argparse.ArgumentTypeError("minutes are a whole number from 1 to 240")
    return number


def _add_order(one: argparse.ArgumentParser) -> None:
    """What a session is compiled from."""
    one.add_argument("pack", type=Path, metavar="PACK", help="a pack, or a source folder")
    one.add_argument("session", metavar="SESSION")
    one.add_argument("--client", type=Path, metavar="FILE")
    one.add_argument("--place", metavar="FILE|NAME")
    one.add_argument("--diary", type=Path, metavar="FILE")
    one.add_argument("--minutes", type=_minutes, metavar="N")
    one.add_argument("--json", action="store_true")


def parser() -> argparse.ArgumentParser:
    """Every command with its arguments."""
    top = Parser(prog="evenload", description="Home strength sessions that answer to the body that does them.")
    common = Parser(add_help=False)
    common.add_argument("--data", metavar="DIR", help="the data directory (or EVENLOAD_DATA)")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND", parser_class=Parser)

    def command(name: str, help_: str) -> argparse.ArgumentParser:
        return commands.add_parser(name, help=help_, description=help_, parents=[common])

    for name, help_ in (("open", "opens the app in the browser, on this machine only"),
                        ("demo", "opens it on a demo coach, three clients and six weeks of records")):
        one = command(name, help_)
        one.add_argument("--port", type=_port, metavar="N")
        one.add_argument("--no-browser", action="store_true", help="only prints the address")
        if name == "open":
            one.add_argument("file", type=Path, nargs="?", metavar="FILE", help="a programme to open with")
            one.add_argument("--brand", type=Path, metavar="FILE", help="a coach's own app, with records of its own")
            one.add_argument("--role", choices=("client", "helper", "coach"))
            one.add_argument("--restore", action="store_true", help="goes back to the last good copy of the records")
    one = command("check", "proofreads a source, verifies a pack, a return or a reply")
    one.add_argument("path", type=Path, metavar="PATH")
    one.add_argument("--json", action="store_true")
    one = command("pack", "builds and signs a pack from a folder of TOML")
    one.add_argument("source", type=Path, metavar="SOURCE")
    one.add_argument("-o", "--output", type=Path, required=True, metavar="FILE")
    one.add_argument("--no-voice", action="store_true", help="no speech engine says what nobody has recorded")
    one.add_argument("--json", action="store_true")
    one = command("timeline", "compiles a session for a client, a place and a diary")
    one.formatter_class, one.epilog = argparse.RawDescriptionHelpFormatter, command_words.TIMELINE_EXAMPLE
    _add_order(one)
    one = command("cues", "writes the sound of a session as a WAV file: tones at their exact moments, spoken lines")
    _add_order(one)
    one.add_argument("-o", "--output", type=Path, required=True, metavar="FILE")
    one = command("intake", "takes returns into the coach's store")
    one.add_argument("paths", type=Path, nargs="+", metavar="PATH")
    one.add_argument("--store", metavar="URL", help="a database URL or path instead of the data directory")
    one.add_argument("--json", action="store_true")
    one = command("review", "prints who needs attention, harm first, silence after")
    one.add_argument("--store", metavar="URL")
    one.add_argument("--json", action="store_true")
    one = command("make-app", "makes a coach's own app: a folder for any web host, which then works offline")
    one.add_argument("--brand", type=Path, required=True, metavar="FILE")
    one.add_argument("--shell", type=Path, required=True, metavar="SHELL.zip", help="made once by build/web.py")
    one.add_argument("-o", "--output", type=Path, required=True, metavar="DIR")
    one = command("serve", "shows such a folder in the browser, on this machine only")
    one.add_argument("folder", type=Path, metavar="DIR")
    one.add_argument("--port", type=_port, metavar="N")
    one.add_argument("--no-browser", action="store_true", help="only prints the address")
    one = command("load", "works out weekly load, monotony and strain from a table of sessions")
    one.add_argument("path", type=Path, metavar="FILE", help="CSV with the columns date, minutes and rpe")
    one.add_argument("--json", action="store_true")
    return top


def run(args: argparse.Namespace) -> int:
    """Runs the command that was asked for.

    Raises:
        AppError: bad input; nothing was written.
    """
    module, function = RUNS[args.command].split(":")
    act = getattr(import_module(f"app.commands.{module}"), function)
    return int(asyncio.run(act(args)) if inspect.iscoroutinefunction(act) else act(args))


def _opening(arguments: Sequence[str]) -> list[str]:
    """A programme file alone is opened, as by a double click."""
    return [*(["open"] if arguments and arguments[0].endswith(PROGRAMME) else []), *arguments]


def main(argv: Sequence[str] | None = None) -> int:
    """The console script."""
    try:
        return run(parser().parse_args(_opening(sys.argv[1:] if argv is None else argv)))
    except AppError as error:
        print(errors.error_text(error), file=sys.stderr)
        return BAD
    except BrokenPipeError:
        return 0
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main())
