"""Who may import what, held by walking every import of the program.

    main → ui → actions → storage | exchange | device → domain
            └→ storage (reads only), device, domain
"""
from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
ROOMS = ("domain", "storage", "exchange", "device", "actions", "ui")
#: Which rooms a room may import from, besides itself. What stands in no room (main, cli, demo, server) wires them all.
MAY_USE = {
    "domain": set(),
    "storage": {"domain"},
    "exchange": {"domain"},
    "device": {"domain"},
    "actions": {"domain", "storage", "exchange", "device"},
    "ui": {"domain", "storage", "device", "actions"},
}
#: Modules in no room that know nothing of the machine, so that any room but `domain` may use them.
PLAIN = {"app.resources", "app.brand", "app.words.text"}
#: Where a library may be imported: rooms, or modules in no room.
KEEPS = {
    "flet": {"ui", "device", "main", "server", "web", "native"},
    "flet_audio": {"device"},
    "flet_lottie": {"ui"},
    "flet_web": {"server"},
    "uvicorn": {"server", "static_server"},
    "sqlalchemy": {"storage", "migrations"},
    "alembic": {"storage", "migrations"},
    "pydantic": {"exchange"},
    "cryptography": {"exchange"},
    "plyer": {"device"},
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


def is_plain(name: str) -> bool:
    """Whether a module in no room is one that knows nothing of the machine: resources, the brand, the words."""
    return any(name == plain or name.startswith((f"{plain}.", f"{plain}_")) for plain in PLAIN)


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
    if is_plain(name) and not is_plain(imported) and there not in {"domain", "app"}:
        return f"{name} imports {imported}; words and resources know only the domain"
    if here not in ROOMS or there == here:
        return None
    if there in ROOMS:
        return None if there in MAY_USE[here] else f"{name} imports {imported}; {here} may not use {there}"
    if there == "app" or (is_plain(imported) and here != "domain"):
        return None
    return f"{name} imports {imported}; {here} may not use what stands above it"


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
    ("app/domain/dosing/dose.py", "def late():\n    from ..storage.tables import Row"),
    ("app/domain/dosing/dose.py", "import importlib\nimportlib.import_module('sqlalchemy')"),
    ("app/storage/tables.py", "import pydantic"),
    ("app/storage/tables.py", "from app.exchange.packs.pack import Pack"),
    ("app/storage/tables.py", "from app.device.clock import Clock"),
    ("app/storage/tables.py", "from app.actions.desk.intake import take"),
    ("app/exchange/packs/pack.py", "import sqlalchemy.orm"),
    ("app/exchange/packs/pack.py", "from app import device"),
    ("app/exchange/packs/pack.py", "from ..storage import library"),
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
    ("app/domain/dosing/dose.py", "from .rules import RuleId"),
    ("app/storage/tables.py", "from sqlalchemy import select\nfrom app.domain import rules\nfrom app import resources"),
    ("app/exchange/packs/pack.py", "import pydantic\nfrom cryptography import x509\nimport tomli_w"),
    ("app/device/sound.py", "import flet_audio\nimport flet"),
    ("app/actions/desk/intake.py", "from app.storage import tables\nfrom app.exchange import p\nfrom app.words.text import say"),
    ("app/ui/client/today/today_screen.py", "import flet\nfrom app.actions import a\nfrom app.storage import b\nfrom . import c"),
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
