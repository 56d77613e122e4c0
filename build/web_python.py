"""The Python side of the offline web app: our code, the libraries it imports, and the standard library.

Pure libraries come from the environment that this runs in, so that what was tested is what is shipped; the two that are
compiled come from the package registry, built for the browser.
"""
from __future__ import annotations

import gzip
import io
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from importlib.metadata import distribution
from pathlib import Path

from constraints import FILE, pinned

Files = dict[str, bytes]

ROOT = Path(__file__).resolve().parent.parent
PURE = ("flet", "flet-audio", "flet-lottie", "pydantic", "annotated-types", "typing-extensions", "typing-inspection",
        "sqlalchemy", "alembic", "mako", "markupsafe", "tomli-w",
        "segno")
COMPILED = ("pydantic-core", "msgpack")
TAGS = ("--platform", "pyemscripten_2026_0_wasm32", "--python-version", "3.14", "--implementation", "cp",
        "--abi", "cp314")
#: Never imported in a browser; each was tried.
DROPPED = re.compile(
    r"""(^|/)(__pycache__|bin|tests)(/|$)
    | \.(pyi|pyx|pxd|so|pyd|c|h|exe|typed)$
    | ^sqlalchemy/dialects/(mssql|mysql|oracle|postgresql)/
    | ^sqlalchemy/(testing|ext/mypy)/ | ^sqlalchemy/connectors/(aioodbc|pyodbc)\.py$
    | ^pydantic/v1/ | ^pydantic/(mypy|_hypothesis_plugin)\.py$
    | ^alembic/(testing|templates)/ | ^alembic/ddl/(mssql|mysql|oracle|postgresql)\.py$
    | ^mako/(testing|ext)/
    | ^segno/(cli|helpers)\.py$
    | ^flet/(testing|fastapi)/ | ^flet/(pytest_plugin|cli)\.py$""", re.VERBOSE)
#: Alembic asks for every database's own module, and there is one database here. An index that is told what another
#: one wants looks that one up; this is all of it that is asked.
REPLACED = {
    "alembic/ddl/__init__.py": b"from . import sqlite\nfrom .impl import DefaultImpl as DefaultImpl\n",
    "sqlalchemy/dialects/postgresql/__init__.py": b"""import sys

from ...engine.default import DefaultDialect
from ...schema import Index

base = sys.modules[__name__]


class dialect(DefaultDialect):
    name = "postgresql"
    construct_arguments = [(Index, {"where": None})]
""",
}
#: What is loaded at a start is never given up, so nothing is looked through for waste before the first screen.
#: Numbers drawn at random out of a kept memory would be the same at each start.
ENTRY = b"""import gc
import random
import sys

gc.disable()
random.seed()
sys.path.insert(1, "lib.zip")
from app.web import start

start()
"""
#: Of our own code: servers, commands and the demo stay at home.
AT_HOME = re.compile(r"(^|/)__pycache__(/|$)|^(commands|demo|serving|_bundled)/|"
                     r"^(cli|words/machine/(server|command_help))\.py$")
#: Of the standard library.
UNUSED = ("idlelib", "turtledemo", "ensurepip", "lib2to3", "pydoc_data", "test", "curses", "tkinter")
LICENCE = re.compile(r"(^|/)(licen[cs]e|copying|notice|authors)[^/]*$", re.IGNORECASE)
OLDEST_NODE = 20
#: A fixed moment, so that the same sources give the same files.
MOMENT = (2026, 1, 1, 0, 0, 0)


class NotReachable(Exception):
    """The package registry does not answer, or has no such wheel."""


def runtime_files(web: Path, folder: Path, pure: Sequence[str] = PURE,
                  compiled: Sequence[str] = COMPILED) -> tuple[Files, bool]:
    """The libraries and Python's own, byte-compiled if that can be done here, and their licences; made in `folder`."""
    root, licences = folder / "root", folder / "licences"
    lib, native, std = (root / name for name in ("lib", "native", "std"))
    lay_pure(lib, licences, pure)
    lay_compiled(native, licences, compiled)
    lay_standard_library(std, web)
    done = compile_all(web, root)
    files = {"native.bin": packed(native), "lib.zip": zipped(lib), "pyodide/python_stdlib.zip": zipped(std)}
    return files | read_all(licences, "licences/"), done


def program_files(web: Path, folder: Path) -> Files:
    """Our own code, byte-compiled if that can be done here; migrations stay readable, as Alembic wants them."""
    lay_app(folder)
    compile_all(web, folder)
    lay_migrations(folder)
    return {"app.bin": packed(folder)}


def lay_pure(lib: Path, licences: Path, names: Sequence[str]) -> None:
    """Writes the libraries that are Python alone, and the licence of each."""
    for name in names:
        found = distribution(name)
        for file in found.files or ():
            lay(lib, licences / name, file.as_posix(), Path(str(found.locate_file(file))).read_bytes)
    for name, data in REPLACED.items():
        if (lib / name.partition("/")[0]).is_dir():
            write(lib / name, data)


def lay_compiled(native: Path, licences: Path, names: Sequence[str]) -> None:
    """Writes the libraries that were compiled for the browser, and the licence of each."""
    with tempfile.TemporaryDirectory() as folder:
        for wheel in compiled_wheels(Path(folder), names):
            with zipfile.ZipFile(wheel) as archive:
                for file in archive.namelist():
                    lay(native, licences / wheel.name.partition("-")[0], file, partial(archive.read, file))


def lay(folder: Path, licences: Path, name: str, read: Callable[[], bytes]) -> None:
    """Writes one file of a library, unless it is of no use here."""
    top = name.partition("/")[0]
    if top.endswith(".dist-info"):
        if LICENCE.search(name):
            write(licences / name.rpartition("/")[2], read())
    elif not name.startswith("..") and not (DROPPED.search(name) and not (".so" in name and "wasm32" in name)):
        write(folder / name, read())


def read_all(folder: Path, before: str) -> Files:
    """Every file under a folder by its path, with something before it."""
    return {before + file.relative_to(folder).as_posix(): file.read_bytes()
            for file in sorted(folder.rglob("*")) if file.is_file()}


def write(place: Path, data: bytes) -> None:
    """Writes a file and the folders above it."""
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_bytes(data)


def compiled_wheels(folder: Path, names: Sequence[str] = COMPILED) -> list[Path]:
    """The compiled libraries for the browser, at the versions that are installed here, compared with their hashes.

    Raises:
        NotReachable: pip cannot get them; it says why on stderr.
    """
    wanted = {name: distribution(name).version for name in names}
    asked = folder / "wanted.txt"
    asked.write_text(with_hashes(wanted), "utf-8")
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", "--no-deps",
               "--only-binary", ":all:", *TAGS, "-d", str(folder), "-r", str(asked)]
    if subprocess.run(command, check=False, stdout=subprocess.DEVNULL).returncode:
        of = " and ".join(f"{name}=={version}" for name, version in wanted.items())
        raise NotReachable(f"The package registry gave no wheels for {of}; pip says why above.")
    return sorted(folder.glob("*.whl"))


def with_hashes(wanted: Mapping[str, str]) -> str:
    """Requirements for pip; with the hashes of `constraints.txt` where it has all of these versions, else said so."""
    known = pinned(FILE.read_text("utf-8"))
    others = [name for name, version in wanted.items() if known.get(name, ("",))[0] != version]
    if others:
        print(f"Not compared with {FILE.name}, which has other versions: {', '.join(others)}", file=sys.stderr)
    hashes = {name: [] if others else [f"--hash={one}" for one in known[name][1]] for name in wanted}
    return "".join(" ".join([f"{name}=={version}", *hashes[name]]) + "\n" for name, version in wanted.items())


def lay_app(folder: Path) -> None:
    """Writes our code and the module that begins it all."""
    for file in sorted((ROOT / "app").rglob("*.py")):
        name = file.relative_to(ROOT / "app").as_posix()
        if not AT_HOME.search(name):
            write(folder / "app" / name, file.read_bytes())
    write(folder / "entry.py", ENTRY)


def lay_migrations(folder: Path) -> None:
    """Writes the migrations."""
    for file in sorted((ROOT / "migrations").rglob("*.py")):
        write(folder / "migrations" / file.relative_to(ROOT / "migrations"), file.read_bytes())


def lay_standard_library(folder: Path, web: Path) -> None:
    """Unpacks Python's own library without what nothing here imports."""
    with zipfile.ZipFile(web / "pyodide/python_stdlib.zip") as archive:
        archive.extractall(folder)
    for name in UNUSED:
        shutil.rmtree(folder / name, ignore_errors=True)


def compile_all(web: Path, root: Path) -> bool:
    """Byte-compiles everything under `root` by the Python that will run it; False, nothing done, without Node.js."""
    node = shutil.which("node")
    if node is None or node_version(node) < OLDEST_NODE:
        return False
    script = Path(__file__).resolve().parent / "web" / "compile.mjs"
    subprocess.run([node, str(script), str(web / "pyodide"), str(root)], check=True)
    return True


def node_version(node: str) -> int:
    """The main version of Node.js; 0 for something that is none."""
    said = subprocess.run([node, "--version"], check=False, capture_output=True, text=True).stdout
    found = re.match(r"v(\d+)\.", said)
    return int(found[1]) if found else 0


def zipped(folder: Path) -> bytes:
    """A zip archive that Python imports from."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for file in sorted(place for place in folder.rglob("*") if place.is_file()):
            entry = zipfile.ZipInfo(file.relative_to(folder).as_posix(), MOMENT)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, file.read_bytes(), compresslevel=9)
    return made.getvalue()


def packed(folder: Path) -> bytes:
    """A gzipped ustar archive that the worker unpacks."""
    made = io.BytesIO()
    with tarfile.open(fileobj=made, mode="w", format=tarfile.USTAR_FORMAT) as archive:
        for file in sorted(place for place in folder.rglob("*") if place.is_file()):
            entry = tarfile.TarInfo(file.relative_to(folder).as_posix())
            entry.size = file.stat().st_size
            with file.open("rb") as data:
                archive.addfile(entry, data)
    return gzip.compress(made.getvalue(), 9, mtime=0)
