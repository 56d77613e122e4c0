#!/usr/bin/env python3
"""Makes the brandless shell of the offline web app, once; `evenload make-app` puts a brand into it in seconds.

    .venv/bin/python build/web.py shell -o SHELL.zip

It needs the installed program, the package registry (for two libraries compiled for the browser) and Node.js 20 or
newer for byte-compiling. Without Node.js it makes a shell that works the same and starts several seconds slower.
"""
from __future__ import annotations

import argparse
import json
import sys
import tempfile
from importlib.metadata import distribution
from pathlib import Path

import flet_web
import web_client
import web_python
from web_client import ChangedClient, Files
from web_python import NotReachable

#: Grows when `evenload make-app` has to treat a shell otherwise.
FORM = 1
WITHOUT_NODE = ("Node.js 20 or newer was not found: the shell is made without byte-compiling. It works the same, "
                "and each start takes several seconds longer.")


def shell_files() -> tuple[Files, bool]:
    """Every file of the shell by its path, and whether it is byte-compiled.

    Raises:
        ChangedClient: another release of Flet than these changes were written for.
        NotReachable: the registry does not give the compiled libraries.
    """
    web = Path(flet_web.get_package_web_dir())
    with tempfile.TemporaryDirectory() as folder:
        runtime, compiled = web_python.runtime_files(web, Path(folder) / "runtime")
        program = web_python.program_files(web, Path(folder) / "program")
    return web_client.client_files(web) | runtime | program | assets(web_python.ROOT / "assets"), compiled


def assets(folder: Path) -> Files:
    """What the page fetches of our own: scripts that stand round the client, fonts and their list, sounds, icons."""
    found = web_python.read_all(folder / "fonts", "fonts/") | web_python.read_all(folder / "sounds", "sounds/")
    found |= web_python.read_all(folder / "icons", "icons/") | {"favicon.png": (folder / "favicon.png").read_bytes()}
    found |= {name: (folder / name).read_bytes() for name in web_client.SCRIPTS if name.startswith("page/")}
    return found | {"assets/FontManifest.json": fonts((folder / "assets" / "FontManifest.json").read_bytes())}


def fonts(listed: bytes) -> bytes:
    """The list of fonts with the client's own fall-back in it: otherwise it asks the host for one at each start."""
    return json.dumps([*json.loads(listed), {"family": "Roboto", "fonts": [{"asset": "fonts/roboto.woff2"}]}]).encode()


def about(*, compiled: bool) -> bytes:
    """What `evenload make-app` asks a shell first."""
    return json.dumps({"form": FORM, "flet": distribution("flet-web").version, "compiled": compiled}).encode()


def make_shell(place: Path) -> None:
    """Writes the shell, or nothing."""
    files, compiled = shell_files()
    if not compiled:
        print(WITHOUT_NODE, file=sys.stderr)
    files["shell.json"] = about(compiled=compiled)
    with tempfile.TemporaryDirectory() as folder:
        for name, data in files.items():
            web_python.write(Path(folder) / name, data)
        whole = web_python.zipped(Path(folder))
    aside = place.with_name(place.name + ".part")
    aside.write_bytes(whole)
    aside.replace(place)
    print(f"{place}: {len(files)} files, {len(whole) / 1e6:.1f} MB")


def main(arguments: list[str]) -> int:
    """Makes what was asked for. 2: something that it needs is not there; nothing was written."""
    parser = argparse.ArgumentParser(description="The offline web app.")
    tasks = parser.add_subparsers(dest="task", required=True)
    shell = tasks.add_parser("shell", help="makes the brandless shell")
    shell.add_argument("-o", "--output", type=Path, required=True, metavar="SHELL.zip")
    try:
        make_shell(parser.parse_args(arguments).output)
    except (ChangedClient, NotReachable) as lack:
        print(lack, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
