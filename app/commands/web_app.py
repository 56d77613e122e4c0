"""`evenload make-app` and `evenload serve`: a studio's own offline app, made and looked at."""
from __future__ import annotations

import argparse
import json
import webbrowser

from app.actions.desk.web_app_build import make_app
from app.commands.progress import Progress
from app.domain.errors import WrongValue
from app.exchange.brands.brand_file import read_brand_files
from app.exchange.brands.web_shell import LISTING
from app.words import brand
from app.words.machine import commands

DONE = 0


def run_make(args: argparse.Namespace) -> int:
    """Writes the folder.

    Raises:
        ContentError, FileError: the brand or the shell is wrong; nothing was written.
    """
    with Progress() as progress:
        progress.stage(commands.MAKING_APP)
        whole = read_brand_files(args.brand)
        made = make_app(whole, args.shell, args.output, lambda done, of: progress.step(commands.app_files(done, of)))
    if args.json:
        print(json.dumps({"name": whole.brand.name, "folder": str(made.folder), "files": made.files,
                          "bytes": made.size}, ensure_ascii=False))
    else:
        print(brand.made(whole.brand.name, str(made.folder), made.files, made.size))
    return DONE


def run_serve(args: argparse.Namespace) -> int:
    """Serves a folder on this machine until interrupted.

    Raises:
        WrongValue: the folder is none that `make-app` made.
        PortTaken: the port cannot be had.
    """
    from app.commands.serve import has_display
    from app.serving.static_server import serve_folder

    if not (args.folder / LISTING).is_file():
        raise WrongValue(where=str(args.folder), value=None, expected="a folder made by make-app")

    def ready(address: str) -> None:
        print(brand.shown_at(address), flush=True)
        if not args.no_browser and has_display():
            webbrowser.open(address)

    serve_folder(args.folder, port=args.port, on_ready=ready)
    return DONE
