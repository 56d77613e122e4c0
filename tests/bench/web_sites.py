"""Two folders for a static host: the whole app, and a bare one of the same making, with one text on its page."""
from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import flet_web

from app.exchange.brands.brand_file import read_brand_files
from tests.browser.web_app import BRANDS, ROOT, Files, build_scripts, cached, digest, runtime_key, write_app

#: What the bare page says.
BARE_WORDS = "Nothing but this"
#: Begun as ours is: its library in the same archive, one component-free page.
BARE_ENTRY = f"""import sys

sys.path.insert(1, "lib.zip")
import flet as ft


def main(page):
    page.add(ft.Text("{BARE_WORDS}"))


ft.run(main)
"""
BARE_PURE, BARE_COMPILED = ("flet",), ("msgpack",)
#: The one family that the client itself asks for at each start.
BARE_FONTS = [{"family": "MaterialIcons", "fonts": [{"asset": "fonts/MaterialIcons-Regular.otf"}]}]
SIZES = Path(__file__).with_name("web_sizes.mjs")


def make_bare_app(folder: Path) -> Path:
    """The bare app: the same client, Python and service worker, without our program and its libraries."""
    web, client, python = build_scripts()
    place = Path(flet_web.get_package_web_dir())

    def runtime(work: Path) -> Files:
        files, compiled = python.runtime_files(place, work, BARE_PURE, BARE_COMPILED)
        assert compiled, "Node.js 20 or newer is needed"
        return dict(files)

    def program(work: Path) -> Files:
        python.write(work / "entry.py", BARE_ENTRY.encode())
        python.compile_all(place, work)
        return {"app.bin": python.packed(work)}

    files = client.client_files(place) | cached("bare-runtime", runtime_key(python), runtime)
    files |= cached("bare-program", digest([BARE_ENTRY.encode()]), program)
    files |= {"assets/FontManifest.json": web.fonts(json.dumps(BARE_FONTS).encode()),
              "shell.json": web.about(compiled=True)}
    return write_app(folder, files, read_brand_files(BRANDS / "evenload.toml"))


def sizes(folder: Path) -> dict[str, dict[str, float]]:
    """What a browser keeps of an app, by its engine: number of files, bytes as they are, bytes in brotli.

    The service worker's own choice is asked, in Node.js.
    """
    told = subprocess.run(["node", str(SIZES), str(folder)], cwd=ROOT, check=True, capture_output=True, text=True)
    found: dict[str, dict[str, Any]] = json.loads(told.stdout)
    return found
