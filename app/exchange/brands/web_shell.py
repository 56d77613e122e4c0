"""A brand put into the shell of the offline web app: one mapping of files in, another out.

The shell is made once by `build/web.py`; what happens here needs nothing but the installed program.
"""
from __future__ import annotations

import gzip
import hashlib
import html
import io
import json
import re
import tarfile
from collections.abc import Mapping

from app.domain.errors import DamagedFile, NewerFormat, NotOurFile
from app.exchange.brands.brand_file import BrandFiles
from app.exchange.brands.ready_brand import READY_FILE, ready_brand

Files = Mapping[str, bytes]

FORM = 1
ABOUT = "shell.json"
#: What a folder was made of: path → SHA-256. Kept by no browser.
LISTING = "files.json"
#: Nothing is loaded from elsewhere. The client compiles WebAssembly, starts workers of its own, and sets styles.
POLICY = "; ".join((
    "default-src 'self'",
    "script-src 'self' 'wasm-unsafe-eval' blob:",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "media-src 'self' data: blob:",
    "connect-src 'self' data: blob:",
    "font-src 'self' data:",
    "worker-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'none'",
))
#: Read by people or by `make-app`, never by the app.
_NOT_PRECACHED = re.compile(r"^licences/|^(sw\.js|shell\.json|files\.json)$")
#: What Python and everything that it loads at a start is made of.
_PYTHON = re.compile(r"^(app|native)\.bin$|^lib\.zip$|^pyodide/")
_PLACE = re.compile(r"\{\{(\w+)\}\}")
_HASH_DIGITS = 32
_SMALL_ICON = "icons/icon-192.png"


def brand_shell(shell: Files, whole: BrandFiles, site: Files) -> dict[str, bytes]:
    """Every file of a studio's own app, by path. `site`: its manifest and icons, as `icons.site_files` makes them.

    Raises:
        NotOurFile, NewerFormat, DamagedFile: the shell is none, or of another version of the program.
    """
    _require_shell(shell)
    brand = whole.brand
    own = {**whole.files, READY_FILE: ready_brand(brand)}
    if brand.icon:  # the app asks only whether it is there
        own[brand.icon] = site[_SMALL_ICON]
    files = {**shell, **site, "brand.bin": packed(own)}
    files["index.html"] = _filled(_words(shell, "index.html"), {
        "policy": POLICY, "theme": brand.light.paper, "description": brand.description, "name": brand.name,
        "short_name": brand.short_name, "ground": brand.light.paper, "ground_dark": brand.dark.paper,
    }).encode()
    files["memory.mjs"] = _with_version(_words(shell, "memory.mjs"), files)
    parts = {name: _hash(data) for name, data in sorted(files.items()) if not _NOT_PRECACHED.search(name)}
    files["sw.js"] = _service_worker(_words(shell, "sw.js"), parts).encode()
    files[LISTING] = json.dumps({name: _hash(files[name]) for name in sorted(files)}, indent=0).encode()
    return files


def packed(files: Files) -> bytes:
    """A gzipped ustar archive, the same bytes for the same files."""
    made = io.BytesIO()
    with tarfile.open(fileobj=made, mode="w", format=tarfile.USTAR_FORMAT) as archive:
        for name in sorted(files):
            entry = tarfile.TarInfo(name)
            entry.size = len(files[name])
            archive.addfile(entry, io.BytesIO(files[name]))
    return gzip.compress(made.getvalue(), 6, mtime=0)


def _require_shell(shell: Files) -> None:
    try:
        form = json.loads(shell[ABOUT])["form"]
    except (KeyError, ValueError, TypeError, RecursionError) as error:
        raise NotOurFile(name=ABOUT) from error
    if not isinstance(form, int):
        raise NotOurFile(name=ABOUT)
    if form != FORM:
        raise NewerFormat(name=ABOUT, found=form, known=FORM)
    for name in ("index.html", "sw.js", "memory.mjs"):
        if name not in shell:
            raise DamagedFile(name=name, why="missing")


def _words(shell: Files, name: str) -> str:
    try:
        return shell[name].decode()
    except UnicodeDecodeError as error:
        raise DamagedFile(name=name, why="not UTF-8") from error


def _filled(page: str, values: Mapping[str, str]) -> str:
    if unknown := {place[1] for place in _PLACE.finditer(page)} - values.keys():
        raise DamagedFile(name="index.html", why=f"places: {min(unknown)}")
    return _PLACE.sub(lambda place: html.escape(values[place[1]]), page)


def _with_version(script: str, files: Files) -> bytes:
    """Python's kept memory is of exactly these parts."""
    parts = {name: _hash(data) for name, data in files.items() if _PYTHON.search(name)}
    version = _hash(json.dumps(parts, sort_keys=True).encode())
    return _with_values(script, "memory.mjs", {"/*VERSION*/": version}).encode()


def _service_worker(script: str, parts: Mapping[str, str]) -> str:
    values = {"/*PARTS*/{}": json.dumps(parts, separators=(",", ":")), "/*POLICY*/": POLICY}
    return _with_values(script, "sw.js", values)


def _with_values(script: str, name: str, values: Mapping[str, str]) -> str:
    for place, value in values.items():
        if script.count(place) != 1:
            raise DamagedFile(name=name, why="places")
        script = script.replace(place, value)
    return script


def _hash(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:_HASH_DIGITS]
