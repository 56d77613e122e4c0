"""The data directory of every command: `--data`, else EVENLOAD_DATA, else the user's own."""
from __future__ import annotations

import argparse
import logging
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from platformdirs import user_data_path

from app.exchange.crypto.keys import KeyPair
from app.storage import keys, packs
from app.storage.database import Store, open_store, store_file
from app.words.machine import commands as words

VARIABLE = "EVENLOAD_DATA"
log = logging.getLogger(__name__)


def data_dir(args: argparse.Namespace) -> Path:
    """Where this command keeps its records."""
    chosen = args.data or os.environ.get(VARIABLE)
    return Path(chosen).expanduser() if chosen else user_data_path(_folder(args), appauthor=False)


def _folder(args: argparse.Namespace) -> str:
    """Its usual name: two apps on one machine keep their records apart."""
    brand = getattr(args, "brand", None)
    if brand is None:
        return "evenload"
    from app.exchange.brands.brand_file import read_brand  # most commands start without it

    return f"evenload-{read_brand(brand).id}"


@contextmanager
def store_at(where: Path | str) -> Iterator[Store]:
    """The store there, made if it is not there.

    Raises:
        StorageError: it cannot be used.
    """
    store = open_store(where)
    log.info(words.records_in(store.name))
    try:
        yield store
    finally:
        store.close()


@contextmanager
def store_of(args: argparse.Namespace) -> Iterator[Store]:
    """The store of `--store`, or of the data directory."""
    with store_at(getattr(args, "store", None) or data_dir(args)) as store:
        yield store


def sealing_keys(args: argparse.Namespace) -> list[KeyPair]:
    """Every key of the data directory that could open a return or a reply; none where there is no store yet."""
    if not store_file(data_dir(args)).is_file():
        return []
    with store_of(args) as store, store.read() as db:
        return [KeyPair(k.private, k.public) for k in keys.keys_of_kind(db, "sealing") if k.private]


def known_coaches(args: argparse.Namespace) -> list[bytes]:
    """Signing keys of the coaches that were agreed on here, and of the coach whose own store it is."""
    if not store_file(data_dir(args)).is_file():
        return []
    with store_of(args) as store, store.read() as db:
        own = keys.keys(db, keys.COACH, "signing")
        return [bytes.fromhex(c.signing_key) for c in packs.pinned_coaches(db)] + ([own.public] if own else [])
