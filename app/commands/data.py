"""The data directory of every command: `--data`, else EVENLOAD_DATA, else the user's own."""
from __future__ import annotations

import argparse
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from platformdirs import user_data_path

from app.storage.database import Store, open_store

VARIABLE = "EVENLOAD_DATA"


def data_dir(args: argparse.Namespace) -> Path:
    """Where this command keeps its records."""
    chosen = args.data or os.environ.get(VARIABLE)
    return Path(chosen).expanduser() if chosen else user_data_path("evenload", appauthor=False)


@contextmanager
def store_at(where: Path | str) -> Iterator[Store]:
    """The store there, made if it is not there.

    Raises:
        StorageError: it cannot be used.
    """
    store = open_store(where)
    try:
        yield store
    finally:
        store.close()


@contextmanager
def store_of(args: argparse.Namespace) -> Iterator[Store]:
    """The store of `--store`, or of the data directory."""
    with store_at(getattr(args, "store", None) or data_dir(args)) as store:
        yield store
