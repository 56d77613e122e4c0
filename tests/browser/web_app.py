"""The offline web app for tests: the shell is made once per machine and state of the sources, and branded anew.

A test may put another beginning in, such as a fast clock; what is handed out never has one.
"""
from __future__ import annotations

import gzip
import hashlib
import importlib
import io
import os
import sys
import tarfile
import tempfile
import zipfile
from collections.abc import Callable, Mapping
from importlib.metadata import version
from pathlib import Path
from typing import Any

import flet_web
import pytest

from app.exchange.brands.brand_file import BrandFiles, read_brand_files
from app.exchange.brands.icons import site_files
from app.exchange.brands.web_shell import brand_shell, packed

ROOT = Path(__file__).resolve().parents[2]
BRANDS = ROOT / "build" / "brands"
Files = dict[str, bytes]
#: Lays a store into the browser before the app opens it, where there is none.
BEGUN = """
import app.web
from pathlib import Path
empty = app.web.mount
async def begun(folder):
    where = await empty(folder)
    if not (where / app.web.FILE_NAME).exists():
        (where / app.web.FILE_NAME).write_bytes(Path("begun.db").read_bytes())
    return where
app.web.mount = begun
"""


def make_web_app(folder: Path, brand: str = "evenload", entry: str = "", store: bytes = b"") -> Path:
    """The app of a brand as a folder for any static host, with another beginning if one is given; skips without one.

    `store`: what the store holds when it is opened for the first time.
    """
    files = shell_files()
    if store:
        files["app.bin"] = with_files(files["app.bin"], {"begun.db": store})
        entry = BEGUN + (entry or "app.web.start()")
    if entry:
        files["app.bin"] = with_entry(files["app.bin"], entry)
    return write_app(folder, files, read_brand_files(BRANDS / f"{brand}.toml"))


def write_app(folder: Path, shell: Files, whole: BrandFiles) -> Path:
    """Brands a shell and writes it over what is in the folder."""
    for name, data in brand_shell(shell, whole, site_files(whole)).items():
        place = folder / name
        if not (place.is_file() and place.read_bytes() == data):
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(data)
    return folder


def shell_files() -> Files:
    """The brandless shell; skips where the registry or Node.js cannot be had."""
    web, client, python = build_scripts()
    place = Path(flet_web.get_package_web_dir())

    def runtime(folder: Path) -> Files:
        try:
            files, compiled = python.runtime_files(place, folder)
        except python.NotReachable as lack:
            pytest.skip(f"the offline web app cannot be built here: {lack}")
        if not compiled:
            pytest.skip("the offline web app is not built here: Node.js 20 or newer was not found")
        return dict(files)

    kept = cached("runtime", runtime_key(python), runtime)
    program = cached("program", sources_key(), lambda folder: dict(python.program_files(place, folder)))
    about = {"shell.json": web.about(compiled=True)}
    made: Files = client.client_files(place) | kept | program | dict(web.assets(ROOT / "assets")) | about
    return made


def build_scripts() -> tuple[Any, Any, Any]:
    """The programs in build/ that make the shell: the whole of it, its client, its Python."""
    build = str(ROOT / "build")
    sys.path.insert(0, build)
    try:
        web, client, python = (importlib.import_module(name) for name in ("web", "web_client", "web_python"))
    finally:
        sys.path.remove(build)
    return web, client, python


def cached(kind: str, key: str, make: Callable[[Path], Files]) -> Files:
    """Files that were made on this machine from the same sources, or are made now."""
    home = Path(tempfile.gettempdir()) / f"evenload-web-{os.getuid() if hasattr(os, 'getuid') else 'tests'}"
    home.mkdir(mode=0o700, exist_ok=True)
    place = home / f"{kind}-{key}.zip"
    if not place.is_file():
        with tempfile.TemporaryDirectory(dir=home) as folder:
            files = make(Path(folder) / "work")
            aside = Path(folder) / "made.zip"
            with zipfile.ZipFile(aside, "w") as archive:
                for name, data in files.items():
                    archive.writestr(name, data)
            for old in home.glob(f"{kind}-*.zip"):
                old.unlink()
            aside.replace(place)
    with zipfile.ZipFile(place) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def runtime_key(python: object) -> str:
    """Changes with what the libraries are made of."""
    names = [*getattr(python, "PURE", ()), *getattr(python, "COMPILED", ()), "flet-web"]
    return digest([f"{name} {version(name)}".encode() for name in names]
                  + [path.read_bytes() for path in (ROOT / "build/web_python.py", ROOT / "build/web/compile.mjs")])


def sources_key() -> str:
    """Changes with our own code."""
    paths = [ROOT / "build/web_python.py", *sorted((ROOT / "app").rglob("*.py")),
             *sorted((ROOT / "migrations").rglob("*.py"))]
    return digest([part for path in paths for part in (str(path.relative_to(ROOT)).encode(), path.read_bytes())])


def digest(parts: list[bytes]) -> str:
    """One name for many bytes."""
    return hashlib.sha256(b"".join(len(part).to_bytes(8, "big") + part for part in parts)).hexdigest()[:16]


def unpacked(archive: bytes) -> Files:
    """The files of a part such as app.bin."""
    with tarfile.open(fileobj=io.BytesIO(gzip.decompress(archive))) as tar:
        return {entry.name: file.read() for entry in tar if (file := tar.extractfile(entry))}


def with_entry(program: bytes, entry: str) -> bytes:
    """The program beginning otherwise: by this source, whose last line may be `start()`."""
    return with_files(program, {"entry.py": f"import sys\nsys.path.insert(1, 'lib.zip')\n{entry}".encode()})


def with_files(program: bytes, files: Mapping[str, bytes]) -> bytes:
    """The program with other sources in place of its own."""
    kept = {name: data for name, data in unpacked(program).items() if name.removesuffix("c") not in files}
    return packed(kept | dict(files))
