"""`evenload open` and `evenload demo`: the app in the browser of this machine."""
from __future__ import annotations

import argparse
import asyncio
import os
import sys
import webbrowser
from collections.abc import Mapping
from functools import partial
from pathlib import Path

from app.actions import people
from app.actions.files.bundled import Bundled, take_bundled
from app.actions.people import Role
from app.commands.data_directory import data_dir, store_at
from app.commands.files import read_file
from app.commands.progress import Progress
from app.commands.records import go_back
from app.data_folder import WAY_IN
from app.device.background import beside
from app.device.clock import SystemClock
from app.device.device import open_device
from app.device.in_use import held
from app.device.linked_files import GivenFiles, route_of
from app.domain.branding.brand import EVENLOAD, Brand
from app.domain.errors import WrongValue
from app.exchange.brands.brand_file import read_brand, read_brand_files
from app.exchange.brands.icons import site_files
from app.exchange.brands.ready_brand import read_brand_packs
from app.exchange.crypto.file_kinds import Kind, require_kind
from app.exchange.crypto.text_form import unwrapped
from app.main import build_app, load_ahead
from app.resources import brand_file, resource_dir
from app.serving.server import serve
from app.serving.tracks import shelf_in
from app.storage.database import Store, copy_of_the_day, store_file
from app.words import errors
from app.words.machine import commands

DONE = 0


def run_open(args: argparse.Namespace) -> int:
    """Serves until interrupted. A copy of the store is set aside once a day.

    Raises:
        AlreadyOpen: the app is open on this data directory.
        StorageError: the store cannot be used, or there is no copy to go back to.
        FileError: the file to open with is no programme.
        ContentError: the brand file is wrong, or does not offer the role.
    """
    path = args.brand or brand_file()
    brand = read_brand(path) if path else EVENLOAD
    if args.role and args.role not in brand.roles:
        raise WrongValue(where="--role", value=args.role, expected=" or ".join(brand.roles))
    given = _given(args.file)
    files = site_files(read_brand_files(path)) if path else None
    with held(data_dir(args)):
        if args.restore:
            print(commands.went_back(*go_back(store_file(data_dir(args)))), flush=True)
        with store_at(data_dir(args)) as store:
            copy_of_the_day(store, SystemClock().now().date())
            packs = partial(read_brand_packs, path, brand)
            _take_packs(store, brand, packs)
            if args.role:
                people.choose_role(store, Role(args.role))
            _serve(store, data_dir(args), args, brand, files, given, packs)
    return DONE


def _given(file: Path | None) -> tuple[Path, ...]:
    """A programme that the app is to open with, looked at first.

    Raises:
        UnreadableSource, FileError: there is none, or it is no programme.
    """
    if file is None:
        return ()
    require_kind(unwrapped(read_file(file), file.name), file.name, Kind.PACK)
    return (file,)


def _take_packs(store: Store, brand: Brand, packs: Bundled) -> None:
    """What came with the app is taken in, and what was refused is said."""
    for error in asyncio.run(take_bundled(store, SystemClock(), brand, packs())):
        print(errors.error_text(error), file=sys.stderr)


def run_demo(args: argparse.Namespace) -> int:
    """Makes a fresh folder with six weeks of records and serves it. Nobody's data is touched."""
    from app.demo.folder import demo_folder
    from app.demo.story import tell_story

    folder = demo_folder(args.data)
    with held(folder), store_at(folder) as store:
        with Progress() as progress:
            tell_story(store, SystemClock(), lambda done, of: progress.stage(commands.demo_told(done, of)))
        print(commands.demo_at(str(folder)), flush=True)
        _serve(store, folder, args)
    return DONE


def has_display() -> bool:
    """Whether a browser window can open; without one a text browser might take over the terminal."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _serve(
    store: Store, folder: Path, args: argparse.Namespace, brand: Brand = EVENLOAD,
    files: Mapping[str, bytes] | None = None, given: tuple[Path, ...] = (), packs: Bundled = tuple,
) -> None:
    def ready(address: str) -> None:
        page = (folder / WAY_IN).resolve()
        print(commands.open_at(brand.name, address))
        print(commands.opens_once(str(page)), flush=True)
        beside(load_ahead)
        if not args.no_browser and has_display():
            webbrowser.open(page.as_uri())  # every user of this machine can read a browser's arguments

    device = partial(open_device, shelf=shelf_in(folder), linked=GivenFiles(*given))
    main = build_app(store, device, SystemClock(), brand, packs)
    serve(main, data_dir=folder, assets_dir=resource_dir("assets"), port=args.port, on_ready=ready, brand=brand,
          files=files, start=route_of(given[0].name) if given else "/")
    print(commands.closed(brand.name), file=sys.stderr)
