"""Passphrases of commands: the first line of a file, of standard input, or typed unseen. Never an argument."""
from __future__ import annotations

import argparse
import getpass
import sys

from app.actions.desk.key_locks import is_shut, unlock_keys, unlock_remembered
from app.commands.files import is_standard, name_of, read_text
from app.domain.errors import WrongValue
from app.storage.database import Store
from app.words.machine import commands as words

#: More is no passphrase but another file.
LONGEST = 1_000


def chosen_passphrase(args: argparse.Namespace) -> str | None:
    """What something is to be sealed under, typed twice at a terminal; None where nobody asked for it.

    Raises:
        UnreadableSource, TooLarge: the file cannot be read.
        WrongValue: it has no first line, or what was typed the second time is something else.
    """
    if args.passphrase_file is None:
        return None
    if not _typed(args):
        return _read(args)
    first = getpass.getpass(words.PASSPHRASE_NEW)
    if getpass.getpass(words.PASSPHRASE_AGAIN) != first:
        raise WrongValue(where="the passphrase", value="the second time", expected="the same as the first time")
    return first


def given_passphrase(args: argparse.Namespace) -> str | None:
    """What something was sealed under, asked for at a terminal; None where there is nobody to ask.

    Raises:
        UnreadableSource, TooLarge, WrongValue: as `chosen_passphrase`.
    """
    if args.passphrase_file is not None and not _typed(args):
        return _read(args)
    return getpass.getpass(words.PASSPHRASE) if sys.stdin.isatty() else None


async def open_keys_with(args: argparse.Namespace, store: Store) -> None:
    """Opens the coach's keys in that store, where they are locked and a passphrase is given or kept by the computer.

    Raises:
        WrongKeyPassphrase: it is another one.
        UnreadableSource, TooLarge, WrongValue: as `chosen_passphrase`.
    """
    if is_shut(store) and args.passphrase_file is None and await unlock_remembered(store):
        return
    if is_shut(store) and (passphrase := given_passphrase(args)) is not None:
        await unlock_keys(store, passphrase)


def _typed(args: argparse.Namespace) -> bool:
    return is_standard(args.passphrase_file) and sys.stdin.isatty()


def _read(args: argparse.Namespace) -> str:
    found = next(iter(read_text(args.passphrase_file).splitlines()), "").strip()
    if not 0 < len(found) <= LONGEST:
        raise WrongValue(where=name_of(args.passphrase_file), value=f"a line of {len(found)} characters",
                         expected="the passphrase in its first line")
    return found
