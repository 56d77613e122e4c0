"""`evenload source`: between the coach's shelf in the store and a folder of TOML, without loss in either direction."""
from __future__ import annotations

import argparse
import json

from app.actions.bench import shelf_source
from app.commands.data_directory import store_of
from app.device.clock import SystemClock
from app.words.machine import commands as words

IMPORT, EXPORT = "import", "export"


def run(args: argparse.Namespace) -> int:
    """Takes a folder over onto the shelf, or writes what is on the shelf, drafts included, as a new folder.

    Raises:
        ContentError: the folder cannot be read, or holds something where a new one is wanted; nothing was changed.
        UnknownName: there is no such source on the shelf.
    """
    with store_of(args) as store:
        if args.way == IMPORT:
            source = shelf_source.take_folder_over(store, SystemClock(), args.folder)
        else:
            wanted = args.source or shelf_source.current_source(store)
            source = shelf_source.give_as_folder(store, wanted, args.folder)
    told = {"source": source.id, "folder": str(args.folder), "exercises": len(source.exercises),
            "sessions": len(source.sessions), "programmes": len(source.programmes)}
    if args.json:
        print(json.dumps(told, ensure_ascii=False))
    else:
        print((words.taken_over if args.way == IMPORT else words.given_as_folder)(source.id, str(args.folder)))
    return 0
