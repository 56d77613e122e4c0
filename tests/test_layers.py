"""Who may import what, held by walking every import of the program: the rooms, and the packages inside each room.

    main → ui → actions → storage | exchange | device → domain
            └→ storage (reads only), device, domain          words → domain
"""
from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
ROOMS = ("domain", "words", "storage", "exchange", "device", "actions", "ui", "serving")
#: Which rooms a room may import from, besides itself. What stands in no room (main, cli, web, native, commands, demo)
#: wires them all.
MAY_USE = {
    "domain": set(),
    "words": {"domain"},
    "storage": {"domain"},
    "exchange": {"domain"},
    "device": {"domain"},
    "actions": {"domain", "words", "storage", "exchange", "device"},
    "ui": {"domain", "words", "storage", "device", "actions"},
    "serving": {"domain", "words", "exchange", "device"},
}
#: Package → the packages of its own room that it may import from. One that is not named here is a fault.
PACKAGES = {
    "domain": "",
    "domain.model": "domain",
    "domain.branding": "",
    "domain.sound": "domain.model",
    "domain.dosing": "domain.model",
    "domain.compile": "domain domain.model domain.dosing",
    "domain.progress": "domain domain.model domain.dosing domain.compile",
    "domain.player": "domain.model domain.dosing domain.compile",
    "domain.measures": "domain.model domain.dosing domain.checks",
    "domain.checks": "domain.model domain.dosing domain.sound",
    "domain.proofreading": "domain.model domain.compile",
    "domain.figure.rig": "domain",
    "domain.figure.drawing": "domain.figure.rig",
    "domain.figure.checking": "domain.figure.rig domain.figure.drawing",
    "domain.figure": "domain domain.figure.rig domain.figure.drawing domain.figure.checking",
    "words": "",
    "words.client": "words",
    "words.coach": "words words.client",
    "words.rules": "words words.client words.coach",
    "words.machine": "words",
    "storage": "",
    "device": "",
    "exchange": "",
    "exchange.forms": "",
    "exchange.crypto": "",
    "exchange.packs": "exchange.forms exchange.crypto",
    "exchange.letters": "exchange.forms exchange.crypto exchange.packs",
    "exchange.brands": "exchange.forms exchange.packs",
    "actions": "",
    "actions.files": "actions",
    "actions.training": "actions actions.files",
    "actions.desk": "actions actions.files",
    "ui.parts": "",
    "ui.shell": "ui.parts",
    "ui.helper": "ui.parts ui.shell",
    "ui.client": "ui.parts ui.shell",
    "ui.client.profile": "ui.client ui.parts ui.shell",
    "ui.client.today": "ui.client ui.client.profile ui.parts ui.shell",
    "ui.client.check_in": "ui.client ui.client.profile ui.parts ui.shell",
    "ui.client.checks": "ui.client ui.client.profile ui.client.today ui.parts ui.shell",
    "ui.client.diary": "ui.client ui.client.profile ui.client.today ui.parts ui.shell",
    "ui.client.player": "ui.client ui.client.player.room ui.helper ui.parts ui.shell",
    "ui.client.player.room": "ui.parts",
    "ui.client.send": "ui.client ui.client.profile ui.client.today ui.parts ui.shell",
    "ui.client.settings": "ui.client ui.client.profile ui.client.today ui.parts ui.shell",
    "ui.coach": "ui.parts ui.shell",
    "ui.coach.attention": "ui.coach ui.parts ui.shell",
    "ui.coach.person": "ui.coach ui.parts ui.shell",
    "ui.coach.publish": "ui.coach ui.parts ui.shell",
    "ui": "ui.client ui.coach ui.parts ui.shell",
    "serving": "",
    "commands": "",
    "demo": "",
}
#: What a package and a module may grow to; past that, walls are moved.
MOST_MODULES, MOST_LINES = 25, 300
#: Modules in no room that know nothing of the machine, so that any room but `domain` may use them.
PLAIN = {"app.resources", "app.data_folder"}
#: Where a library may be imported: rooms, or modules in no room.
KEEPS = {
    "flet": {"ui", "device", "main", "serving", "web", "native", "lost_records"},
    "flet_audio": {"device"},
    "flet_lottie": {"ui"},
    "flet_web": {"serving"},
    "uvicorn": {"serving"},
    "sqlalchemy": {"storage", "migrations"},
    "alembic": {"storage", "migrations"},
    "pydantic": {"exchange"},
    "cryptography": {"exchange"},
    "plyer": {"device"},
    "keyring": {"device"},
    "flet_platform_assets": {"exchange"},
    "PIL": {"exchange"},
    "js": {"exchange", "device", "web"},
    "pyodide": {"exchange", "device", "web"},
    "pyodide_js": {"exchange", "device", "web"},
    "flet_js": {"device", "web"},
    "store_files": {"device"},
    "segno": {"ui"},
    "threading": {"device", "cli"},
    "multiprocessing": {"device", "cli"},
    "concurrent": {"device", "cli"},
}
#: The domain is the same for the same values: no chance, no time of its own, no machine.
NOT_IN_DOMAIN = {"random", "secrets", "time", "os", "pathlib", "io", "shutil", "socket",
                 "asyncio", "subprocess", "sqlite3"}


def modules(root: Path) -> Iterator[tuple[str, Path]]:
    """Every module of the program and of the migrations, by its dotted name."""
    for folder in ("app", "migrations"):
        for path in sorted((root / folder).rglob("*.py")):
            if "_bundled" not in path.parts:
                name = ".".join(path.relative_to(root).with_suffix("").parts)
                yield name.removesuffix(".__init__"), path


def imports(name: str, path: Path) -> Iterator[str]:
    """Everything that a module imports, anywhere in it, by full dotted names."""
    package = name if path.name == "__init__.py" else name.rpartition(".")[0]
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = ".".join(package.split(".")[: len(package.split(".")) - node.level + 1]) if node.level else ""
            source = ".".join(filter(None, (above, node.module)))
            yield from (f"{source}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Call) and ast.unparse(node.func) in {"importlib.import_module", "__import__"}:
            yield from (word.value for word in node.args[:1] if isinstance(word, ast.Constant))


def room(name: str) -> str:
    """`app.ui.parts.strip` → `ui`; a module in no room stands for itself: `app.main` → `main`."""
    parts = name.split(".")
    return parts[1] if parts[0] == "app" and len(parts) > 1 else parts[0]


def package(name: str, path: Path) -> str:
    """The package that a module lies in, below `app`: `app.ui.parts.strip` → `ui.parts`; empty for `app.main`."""
    inside = name if path.name == "__init__.py" else name.rpartition(".")[0]
    return inside.removeprefix("app").removeprefix(".")


def fault(name: str, imported: str) -> str | None:
    """What is wrong with this import, or None."""
    here, top = room(name), imported.split(".")[0]
    if top == "app":
        return fault_inside(here, name, imported)
    if here == "domain" and (top in NOT_IN_DOMAIN or top not in sys.stdlib_module_names):
        return f"{name} imports {top}; domain imports only what is pure in the standard library"
    if top in KEEPS and here not in KEEPS[top]:
        return f"{name} imports {top}, which only {', '.join(sorted(KEEPS[top]))} may"
    return None


def fault_inside(here: str, name: str, imported: str) -> str | None:
    """The same for an import from our own program."""
    there = room(imported)
    if name in PLAIN and there not in {"domain", "app"}:
        return f"{name} imports {imported}; it is for every room, so it knows only the domain"
    if here not in ROOMS or there == here:
        return None
    if there in ROOMS:
        return None if there in MAY_USE[here] else f"{name} imports {imported}; {here} may not use {there}"
    if there == "app" or (here != "domain" and f"app.{there}" in PLAIN):
        return None
    return f"{name} imports {imported}; {here} may not use what stands above it"


def package_faults(root: Path) -> list[str]:
    """What breaks the table of packages: an unnamed one, or an import between two that it does not allow."""
    known = {name: path for name, path in modules(root) if name.startswith("app.")}
    found: list[str] = []
    for name, path in known.items():
        here = package(name, path)
        if here and here not in PACKAGES:
            found.append(f"{name} lies in {here}, which PACKAGES does not name")
            continue
        for imported in sorted(set(filter(None, (nearest(one, known) for one in imports(name, path))))):
            there = package(imported, known[imported])
            if room(imported) == room(name) and there not in {here, *PACKAGES.get(here, "").split()}:
                found.append(f"{name} imports {imported}; {here} may not use {there}")
    return found


def nearest(imported: str, known: dict[str, Path]) -> str | None:
    """The module that an imported name lies in."""
    while imported and imported not in known:
        imported = imported.rpartition(".")[0]
    return imported or None


def forbidden_calls(name: str, path: Path) -> Iterator[str]:
    """Calls that do what a forbidden import would: the domain asking for the time, a thread started elsewhere."""
    called = {node.func.attr for node in ast.walk(ast.parse(path.read_text("utf-8")))
              if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)}
    if room(name) == "domain":
        yield from (f"{name} asks for the time: {call}" for call in called & {"now", "utcnow", "today"})
    if room(name) not in {"device", "cli"}:
        yield from (f"{name} starts a thread: {call}" for call in called & {"to_thread", "run_in_executor"})


def faults(root: Path) -> list[str]:
    """Everything in the tree that breaks a rule."""
    found: list[str] = []
    for name, path in modules(root):
        found += filter(None, (fault(name, imported) for imported in imports(name, path)))
        found += forbidden_calls(name, path)
    return found


def test_the_packages_hold() -> None:
    """Each is named, imports what the table allows, and none is in it for nothing."""
    assert package_faults(ROOT) == []
    used = {package(name, path) for name, path in modules(ROOT) if name.startswith("app.")} - {""}
    assert set(PACKAGES) == used


def test_no_circle_between_packages() -> None:
    """Of the whole program, over all rooms; a module in no room stands for itself."""
    known = {name: path for name, path in modules(ROOT) if name.startswith("app.")}
    stands = {name: package(name, path) or name for name, path in known.items()}
    arrows: dict[str, set[str]] = {one: set() for one in stands.values()}
    for name, path in known.items():
        for imported in filter(None, (nearest(one, known) for one in imports(name, path))):
            arrows[stands[name]] |= {stands[imported]} - {stands[name]}
    while free := [one for one, more in arrows.items() if not more & set(arrows)]:
        for one in free:
            del arrows[one]
    assert arrows == {}


def test_no_package_and_no_module_has_grown_past_its_room() -> None:
    """25 modules flat, 300 lines."""
    flat: dict[str, int] = {}
    for name, path in modules(ROOT):
        if path.name != "__init__.py":
            flat[package(name, path)] = flat.get(package(name, path), 0) + 1
            assert len(path.read_text("utf-8").splitlines()) <= MOST_LINES, name
    assert {one: many for one, many in flat.items() if many > MOST_MODULES} == {}


def test_the_layers_hold() -> None:
    """Of the program as it is."""
    assert len(list(modules(ROOT))) > 20
    assert faults(ROOT) == []


@pytest.mark.parametrize(("module", "line"), [
    ("app/domain/dosing/dose.py", "import flet"),
    ("app/domain/dosing/dose.py", "import hypothesis"),
    ("app/domain/dosing/dose.py", "from random import choice"),
    ("app/domain/dosing/dose.py", "import time"),
    ("app/domain/dosing/dose.py", "from datetime import datetime\n\ndef late():\n    return datetime.now()"),
    ("app/domain/dosing/dose.py", "import datetime as d\nstart = d.date.today()"),
    ("app/actions/desk/intake.py", "import threading"),
    ("app/actions/desk/intake.py", "import asyncio\n\nasync def go():\n    await asyncio.to_thread(print)"),
    ("app/domain/dosing/dose.py", "from app.storage import tables"),
    ("app/domain/dosing/dose.py", "from app.words.text import worded"),
    ("app/domain/dosing/dose.py", "def late():\n    from ...storage.tables import Row"),
    ("app/domain/dosing/dose.py", "import importlib\nimportlib.import_module('sqlalchemy')"),
    ("app/storage/tables.py", "import pydantic"),
    ("app/storage/tables.py", "from app.exchange.packs.pack import Pack"),
    ("app/storage/tables.py", "from app.device.clock import Clock"),
    ("app/storage/tables.py", "from app.actions.desk.intake import take"),
    ("app/exchange/packs/pack.py", "import sqlalchemy.orm"),
    ("app/exchange/packs/pack.py", "from app import device"),
    ("app/exchange/packs/pack.py", "from ...storage import library"),
    ("app/device/sound.py", "from app.exchange.packs.pack import Pack"),
    ("app/device/sound.py", "from app.ui.parts import strip"),
    ("app/actions/desk/intake.py", "from app.ui.routes import routes"),
    ("app/actions/desk/intake.py", "import flet as ft"),
    ("app/actions/desk/intake.py", "from app.main import build_app"),
    ("app/actions/desk/intake.py", "from cryptography import hazmat"),
    ("app/ui/desk.py", "from app.exchange.packs.pack import Pack"),
    ("app/ui/desk.py", "from sqlalchemy import select"),
    ("app/ui/desk.py", "if True:\n    from app.cli import main"),
    ("app/cli.py", "import flet"),
    ("app/words/errors.py", "import flet"),
    ("app/words/errors.py", "from app.ui.parts.theme import theme"),
    ("app/serving/server.py", "import sqlalchemy"),
    ("migrations/versions/one.py", "import flet"),
])
def test_a_planted_fault_is_found(module: str, line: str, tmp_path: Path) -> None:
    """One forbidden import each, however it is written."""
    plant(tmp_path, module, line)
    assert len(faults(tmp_path)) == 1


@pytest.mark.parametrize(("module", "line"), [
    ("app/domain/dosing/dose.py", "from app.domain.model.rules import RuleId\nimport math"),
    ("app/domain/dosing/dose.py", "from .history import Past"),
    ("app/storage/tables.py", "from sqlalchemy import select\nfrom app.domain import rules\nfrom app import resources"),
    ("app/exchange/packs/pack.py", "import pydantic\nfrom cryptography import x509\nimport tomli_w"),
    ("app/device/sound.py", "import flet_audio\nimport flet"),
    ("app/actions/desk/intake.py", "from app.storage import tables\nfrom app.exchange import p\nfrom app import words"),
    ("app/ui/client/diary.py", "import flet\nfrom app.actions import a\nfrom app.storage import b\nfrom . import c"),
    ("app/main.py", "import flet\nfrom app.ui import routes\nfrom app.storage import tables"),
    ("app/cli.py", "from app.main import build_app\nfrom app.exchange import pack"),
    ("migrations/env.py", "from alembic import context\nimport sqlalchemy"),
])
def test_what_the_layers_allow_is_not_a_fault(module: str, line: str, tmp_path: Path) -> None:
    """Or else the rule would be no rule."""
    plant(tmp_path, module, line)
    assert faults(tmp_path) == []


def plant(root: Path, module: str, line: str) -> None:
    """A tree of one module."""
    place = root / module
    place.parent.mkdir(parents=True)
    place.write_text(line + "\n", "utf-8")
