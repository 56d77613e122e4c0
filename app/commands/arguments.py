"""Every command with its arguments, and what is said of a wrong one."""
from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from app import __version__
from app.commands.files import STANDARD, is_standard
from app.words.machine import command_help as words

BAD = 2
PROGRAMME = ".evenload-pack"
#: What runs until it is interrupted. The result of every other command is data.
SERVES = frozenset({"open", "demo", "serve"})
#: Where a command reads from. Standard input can be read once.
READ = ("path", "paths", "pack", "client", "place", "diary", "file", "passphrase_file")


class Parser(argparse.ArgumentParser):
    """Says what is wrong in one sentence, without the usage."""

    def error(self, message: str) -> NoReturn:
        self.exit(BAD, f"{self.prog}: {message}.\n")


def parse(argv: Sequence[str]) -> argparse.Namespace:
    """What was asked for. A programme file alone is opened, as by a double click.

    Raises:
        SystemExit: help or the version was asked for (0), or an argument is wrong (2); what to say was said.
    """
    top = parser()
    args = top.parse_args(_opening(argv))
    given = [getattr(args, name, None) for name in READ]
    files = [one for value in given for one in (value if isinstance(value, list) else [value])]
    if sum(str(one) == STANDARD for one in files) > 1:
        top.error(f"standard input ({STANDARD}) can be read only once")
    return args


def parser() -> Parser:
    """The parser itself."""
    form = argparse.RawDescriptionHelpFormatter
    top = Parser(prog="evenload", description=words.PROGRAM, epilog=words.GENERAL, formatter_class=form,
                 parents=[_general(None)])
    top.add_argument("--version", action="version", version=f"evenload {__version__}", help=words.VERSION)
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND", parser_class=Parser)
    # left alone by a command that does not name it, so that it may also stand before the command
    general = _general(argparse.SUPPRESS)
    adds = {"open": _add_open, "demo": _add_serving, "check": _add_check, "pack": _add_pack, "timeline": _add_order,
            "cues": _add_cues, "intake": _add_intake, "review": _add_store, "make-app": _add_make, "serve": _add_serve,
            "load": _add_load, "keys": _add_store, "backup": _add_backup, "restore": _add_restore, "erase": _add_erase}
    for name, add in adds.items():
        one = commands.add_parser(name, help=words.SUMMARIES[name], description=words.SUMMARIES[name],
                                  epilog=words.DETAILS[name], formatter_class=form, parents=[general])
        add(one)
        if name not in SERVES:
            one.add_argument("--json", action="store_true", help=words.JSON)
    return top


def _general(otherwise: str | None) -> Parser:
    """What stands before the command or after it. `otherwise`: the value where it is not given."""
    common = Parser(add_help=False)
    common.add_argument("--data", metavar="DIR", default=otherwise, help=words.DATA)
    common.add_argument("-v", "--verbose", action="store_true", default=otherwise or False, help=words.VERBOSE)
    return common


def _file(given: str) -> Path:
    """`-` alone is standard input or output; `./-` is a file of that name."""
    path = Path(given)
    return path.absolute() if is_standard(path) and given != STANDARD else path


def _port(given: str) -> int:
    number = int(given) if given.isdecimal() and len(given) < 6 else -1
    if not 0 <= number < 65536:
        raise argparse.ArgumentTypeError("a port is a number from 0 to 65535")
    return number


def _minutes(given: str) -> int:
    number = int(given) if given.isdecimal() and len(given) < 4 else 0
    if not 1 <= number <= 240:
        raise argparse.ArgumentTypeError("minutes are a whole number from 1 to 240")
    return number


def _add_serving(one: argparse.ArgumentParser) -> None:
    one.add_argument("--port", type=_port, metavar="N", help="where it is served; else one is chosen")
    one.add_argument("--no-browser", action="store_true", help="only prints the address")


def _add_open(one: argparse.ArgumentParser) -> None:
    _add_serving(one)
    one.add_argument("file", type=Path, nargs="?", metavar="FILE", help="a programme to open with")
    one.add_argument("--brand", type=Path, metavar="FILE", help="a coach's own app, with records of its own")
    one.add_argument("--role", choices=("client", "helper", "coach"), help="which side is shown at the start")
    one.add_argument("--restore", action="store_true", help="goes back to the last good copy of the records")


def _add_check(one: argparse.ArgumentParser) -> None:
    one.add_argument("path", type=_file, metavar="PATH", help="a source folder, or a pack, return or reply")


def _add_output(one: argparse.ArgumentParser) -> None:
    one.add_argument("-o", "--output", type=_file, required=True, metavar="FILE", help="where it is written")


def _add_pack(one: argparse.ArgumentParser) -> None:
    one.add_argument("source", type=Path, metavar="SOURCE", help="a folder of TOML and media")
    _add_output(one)
    _add_passphrase(one, words.KEYS_WITH)
    one.add_argument("--no-voice", action="store_true", help="no speech engine says what nobody has recorded")


def _add_order(one: argparse.ArgumentParser) -> None:
    """What a session is compiled from."""
    one.add_argument("pack", type=_file, metavar="PACK", help="a pack, or a source folder")
    one.add_argument("session", metavar="SESSION", help="the id of one of its sessions")
    one.add_argument("--client", type=_file, metavar="FILE", help="whose body it is for")
    one.add_argument("--place", metavar="FILE|NAME", help="where they are")
    one.add_argument("--diary", type=_file, metavar="FILE", help="this morning's answers")
    one.add_argument("--minutes", type=_minutes, metavar="N", help="how long they have")


def _add_cues(one: argparse.ArgumentParser) -> None:
    _add_order(one)
    _add_output(one)


def _add_store(one: argparse.ArgumentParser) -> None:
    one.add_argument("--store", metavar="URL", help="a database URL or path instead of the data directory")


def _add_intake(one: argparse.ArgumentParser) -> None:
    one.add_argument("paths", type=_file, nargs="+", metavar="PATH", help="returns, or folders of them")
    _add_passphrase(one, words.KEYS_WITH)
    _add_store(one)


def _add_make(one: argparse.ArgumentParser) -> None:
    one.add_argument("--brand", type=Path, required=True, metavar="FILE", help="the coach's brand file")
    one.add_argument("--shell", type=Path, required=True, metavar="SHELL.zip", help="made once by build/web.py")
    one.add_argument("-o", "--output", type=Path, required=True, metavar="DIR", help="a new or an empty folder")


def _add_serve(one: argparse.ArgumentParser) -> None:
    one.add_argument("folder", type=Path, metavar="DIR", help="a folder made by make-app")
    _add_serving(one)


def _add_passphrase(one: argparse.ArgumentParser, what: str) -> None:
    """Never the passphrase itself: arguments can be read by everybody on the machine."""
    one.add_argument("--passphrase-file", type=_file, metavar="FILE", help=what)


def _add_backup(one: argparse.ArgumentParser) -> None:
    _add_output(one)
    _add_passphrase(one, words.SEAL_WITH)


def _add_restore(one: argparse.ArgumentParser) -> None:
    one.add_argument("file", type=_file, nargs="?", metavar="FILE", help="a copy; else the last good one beside them")
    _add_passphrase(one, words.OPEN_WITH)


def _add_erase(one: argparse.ArgumentParser) -> None:
    one.add_argument("--yes", action="store_true", help="does it; without this nothing is erased")


def _add_load(one: argparse.ArgumentParser) -> None:
    one.add_argument("path", type=_file, metavar="FILE", help="CSV with the columns date, minutes and rpe")


def _opening(arguments: Sequence[str]) -> list[str]:
    """With `open` before a programme file that stands where a command would."""
    at = 0
    while at < len(arguments) and arguments[at].startswith("-") and arguments[at] != STANDARD:
        at += 2 if arguments[at] == "--data" else 1
    named = at < len(arguments) and arguments[at].endswith(PROGRAMME)
    return [*arguments[:at], *(["open"] if named else []), *arguments[at:]]
