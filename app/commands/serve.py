"""`evenload open` and `evenload demo`: the app in the browser of this machine."""
from __future__ import annotations

import argparse
import os
import sys
import webbrowser
from pathlib import Path

from app import text
from app.actions import people
from app.actions.people import Role
from app.commands.data import data_dir, store_at
from app.device.clock import SystemClock
from app.device.device import open_device
from app.domain.errors import NoCopy
from app.main import build_app
from app.resources import resource_dir
from app.server import serve
from app.storage.copies import last_good_copy, restore_copy
from app.storage.database import Store, copy_of_the_day, store_file

DONE = 0


def run_open(args: argparse.Namespace) -> int:
    """Serves until interrupted. A copy of the store is set aside once a day.

    Raises:
        StorageError: the store cannot be used, or there is no copy to go back to.
    """
    if args.restore:
        _go_back(store_file(data_dir(args)))
    with store_at(data_dir(args)) as store:
        copy_of_the_day(store, SystemClock().now().date())
        if args.role:
            people.choose_role(store, Role(args.role))
        _serve(store, data_dir(args), args)
    return DONE


def _go_back(path: Path) -> None:
    copy = last_good_copy(path)
    if copy is None:
        raise NoCopy(path=str(path))
    aside = restore_copy(path, copy)
    print(text.went_back(copy.name, aside.name if aside else ""), flush=True)


def run_demo(args: argparse.Namespace) -> int:
    """Makes a fresh folder with six weeks of records and serves it. Nobody's data is touched."""
    from app.demo.folder import demo_folder
    from app.demo.story import tell_story

    folder = demo_folder(args.data)
    with store_at(folder) as store:
        tell_story(store, SystemClock())
        print(text.demo_at(str(folder)), flush=True)
        _serve(store, folder, args)
    return DONE


def _has_display() -> bool:
    """Whether a browser window can open; without one a text browser might take over the terminal."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _serve(store: Store, folder: Path, args: argparse.Namespace) -> None:
    def ready(address: str) -> None:
        print(text.open_at(address), flush=True)
        if not args.no_browser and _has_display():
            webbrowser.open(address)

    main = build_app(store, open_device, SystemClock())
    serve(main, data_dir=folder, assets_dir=resource_dir("assets"), port=args.port, on_ready=ready)
    print(text.CLOSED, file=sys.stderr)
