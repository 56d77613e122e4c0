"""`evenload backup`, `restore` and `erase`: the records of a data directory as a whole."""
from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from app.actions.backup import asks_passphrase, backup_of, opened_backup, put_file_back, sealed_backup_of
from app.actions.erasing import erase_device, not_ours
from app.commands.data_directory import data_dir
from app.commands.files import OWNER_ALONE, name_of, read_file, require_place, said_beside, write_file
from app.commands.passphrases import chosen_passphrase, given_passphrase
from app.device.clock import SystemClock
from app.device.in_use import held
from app.domain.errors import DamagedDatabase, EraseUnfinished, NoCopy, WrongValue
from app.storage.copies import discard_copies, last_good_copy, restore_copy
from app.storage.database import Store, open_store, store_file
from app.words.errors import error_text
from app.words.machine import commands as words

DONE, NO = 0, 1


async def run_backup(args: argparse.Namespace) -> int:
    """Writes a whole copy, also while the app is open. Its owner alone may read it; under a passphrase, who knows that.

    Raises:
        WrongValue: there are no records, or no such place.
        EasyPassphrase, UnreadableSource: of the passphrase; nothing was written.
        StorageError: they cannot be copied.
    """
    require_place(args.output)
    place = _place_with_records(args)
    passphrase = chosen_passphrase(args)
    store = open_store(place)
    try:
        if passphrase is None:
            _, data = backup_of(store, SystemClock())
        else:
            _, data = await sealed_backup_of(store, SystemClock(), passphrase)
    finally:
        store.close()
    write_file(args.output, data, OWNER_ALONE)
    said = words.backed_up(str(args.output)) if passphrase is None else words.backed_up_sealed(str(args.output))
    _say(args, {"file": str(args.output), "bytes": len(data), "sealed": passphrase is not None}, said,
         said_beside(args.output))
    return DONE


async def run_restore(args: argparse.Namespace) -> int:
    """Puts a copy in the place of the records: the file that was named, or the last good copy beside them.

    Raises:
        AlreadyOpen: the app is open.
        NoCopy: no file was named, and there is no good copy.
        SecretError: the copy is sealed, and the passphrase is missing or another one.
        FileError, StorageError: what was named is no copy, or of a newer version; nothing was changed.
    """
    place = store_file(data_dir(args))
    with held(place.parent):
        if args.file is None:
            came, aside = go_back(place)
        else:
            came = name_of(args.file)
            data = read_file(args.file)
            passphrase = given_passphrase(args) if asks_passphrase(data) else None
            kept = put_file_back(place, came, await opened_backup(came, data, passphrase))
            aside = kept.name if kept else ""
    _say(args, {"from": came, "kept": aside}, words.went_back(came, aside))
    return DONE


def go_back(place: Path) -> tuple[str, str]:
    """Goes back to the last good copy; gives its name, and that of what was set aside.

    Raises:
        NoCopy: there is none.
        StorageError: it cannot be put in place.
    """
    copy = last_good_copy(place)
    if copy is None:
        raise NoCopy(path=str(place))
    aside = restore_copy(place, copy)
    return copy.name, aside.name if aside else ""


def run_erase(args: argparse.Namespace) -> int:
    """Erases everything in the data directory. Exit 1, and nothing erased, without `--yes`; 1 where traces stay.

    Raises:
        AlreadyOpen: the app is open.
        WrongValue: there are no records.
    """
    place = _place_with_records(args)
    if not args.yes:
        _say(args, {"erased": False, "complete": False, "left": []}, words.would_erase(str(place.parent)))
        return NO
    unfinished = ""
    with held(place.parent):
        store = _opened_to_be_erased(place)
        try:
            erase_device(store)
        except EraseUnfinished as error:
            unfinished = error_text(error)
        finally:
            left = not_ours(store)
            store.close()
    _say(args, {"erased": True, "complete": not unfinished, "left": list(left)},
         unfinished or words.erased(str(place.parent), left))
    return NO if unfinished else DONE


def _place_with_records(args: argparse.Namespace) -> Path:
    place = store_file(data_dir(args))
    if not place.exists() and last_good_copy(place) is None:
        raise WrongValue(where=str(data_dir(args)), value=None, expected="a data directory with records")
    return place


def _opened_to_be_erased(place: Path) -> Store:
    """The store; a damaged one is set aside, and without its copies an empty one stands in its place."""
    try:
        return open_store(place)
    except DamagedDatabase:
        discard_copies(place)
        return open_store(place)


def _say(args: argparse.Namespace, shape: dict[str, Any], told: str, where: Any = None) -> None:
    print(json.dumps(shape, ensure_ascii=False) if args.json else told, file=where)
