"""The app of a phone or a desktop, built from a stage: its `main.py` has two lines and calls `run`."""
from __future__ import annotations

import asyncio
import contextlib
import logging
import os
import sys
from collections.abc import Awaitable, Callable, Sequence
from functools import partial
from pathlib import Path

import flet as ft

from app.actions.files.bundled import take_bundled
from app.device.clock import SystemClock
from app.device.device import open_device
from app.device.in_use import held
from app.device.linked_files import GivenFiles, route_of
from app.domain.branding.brand import EVENLOAD, Brand
from app.domain.errors import AppError
from app.exchange.brands.brand_file import read_brand
from app.exchange.brands.ready_brand import read_brand_packs
from app.exchange.crypto.file_kinds import Kind
from app.lost_records import show_lost
from app.main import build_app
from app.resources import brand_file, resource_dir
from app.storage.database import Store, copy_of_the_day, open_store
from app.ui.parts.theme import FAMILY

#: Where the platform wants an app's records; Flet's hosts set it.
STORAGE = "FLET_APP_STORAGE_DATA"
Main = Callable[[ft.Page], Awaitable[None] | None]
log = logging.getLogger("evenload")


def run() -> None:
    """Opens the store, takes in the packs that came along, and shows the app, or why it cannot be shown.

    Raises:
        KeyError: nobody said where the records go.
    """
    path, given = brand_file(), given_files(sys.argv[1:])
    brand = read_brand(path) if path else EVENLOAD
    with contextlib.ExitStack() as holding:
        _run(brand, path, given, holding)


def _run(brand: Brand, path: Path | None, given: tuple[Path, ...], holding: contextlib.ExitStack) -> None:
    try:
        holding.enter_context(held(Path(os.environ[STORAGE])))
        device = partial(open_device, linked=GivenFiles(*given))
        main: Main = build_app(_open(brand, path), device, SystemClock(), brand, partial(read_brand_packs, path, brand))
    except AppError as error:
        main = partial(show_lost, brand=brand, error=error)
        given = ()
    ft.run(partial(_show, main, given[0].name if given else ""), assets_dir=str(resource_dir("assets")))


def given_files(arguments: Sequence[str]) -> tuple[Path, ...]:
    """Programme files among the arguments of the program; phones give none."""
    named = [Path(one) for one in arguments if one.endswith(Kind.PACK.suffix)]
    return tuple(path for path in named if path.is_file())


async def _show(main: Main, opens: str, page: ft.Page) -> None:
    # a browser is given the three weights by the list of fonts among the assets, which a native client does not read
    page.fonts = {FAMILY: "fonts/Card-400.ttf"}
    shown = main(page)
    if shown is not None:
        await shown
    if opens:
        page.navigate(route_of(opens))


def _open(brand: Brand, path: Path | None) -> Store:
    """Raises:
        StorageError: the store cannot be used.
    """
    store, clock = open_store(Path(os.environ[STORAGE])), SystemClock()
    copy_of_the_day(store, clock.now().date())
    for error in asyncio.run(take_bundled(store, clock, brand, read_brand_packs(path, brand))):
        log.error("a pack that came with the app was refused", exc_info=error)
    return store
