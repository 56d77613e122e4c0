"""Finding what writes: which functions of `app.storage` change something kept, and where a room makes use of one."""
from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

#: What changes something kept, by the last name of a call: statements of SQL, and files.
CHANGES = frozenset({
    "insert", "update", "delete", "begin", "put", "exec_driver_sql", "write_bytes", "write_text", "unlink", "rename",
    "open", "mkdir", "mkstemp", "rmtree", "copyfile", "copy2", "chmod", "touch", "upgrade", "create_engine",
})
#: These ask by such a statement and change nothing.
ASKS = frozenset({"version", "_assert_whole", "_assert_sound", "_pragma", "is_whole", "alembic_config"})
STORAGE = "app.storage"


def writers(root: Path) -> dict[str, frozenset[str]]:
    """Of every module of `app.storage`, by its full name: the functions and classes' methods that write."""
    bodies = {f"{STORAGE}.{path.stem}": _bodies(ast.parse(path.read_text("utf-8")), path.stem)
              for path in sorted((root / "app/storage").glob("*.py"))}
    found = set(CHANGES)
    while more := {name for body in bodies.values() for name, calls in body.items() if calls & found} - found:
        found |= more
    return {module: frozenset(name for name, calls in body.items() if calls & found and "." not in name)
            for module, body in bodies.items()}


def _bodies(tree: ast.Module, stem: str) -> dict[str, set[str]]:
    """What each function calls, by its last name, and `module.NAME` of each statement kept at the top that it names."""
    kept = {target.id: node.value for node in tree.body if isinstance(node, ast.Assign)
            for target in ast.walk(node.targets[0]) if isinstance(target, ast.Name)}
    functions = {node.name: node for node in ast.walk(tree)
                 if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.name not in ASKS}
    found = {f"{stem}.{name}": _calls(value) for name, value in kept.items()}
    return found | {name: _calls(node) | {f"{stem}.{one.id}" for one in ast.walk(node)
                                          if isinstance(one, ast.Name) and one.id in kept}
                    for name, node in functions.items()}


def _calls(node: ast.AST) -> set[str]:
    return {_last(call.func) for call in ast.walk(node) if isinstance(call, ast.Call)}


def writes(path: Path, known: dict[str, frozenset[str]]) -> Iterator[str]:
    """Each place where a module begins a transaction, sends SQL of its own, or names a function that writes.

    Naming is enough: what is handed on as a value is called elsewhere.
    """
    tree = ast.parse(path.read_text("utf-8"))
    modules: dict[str, str] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module == STORAGE:
            modules |= {alias.asname or alias.name: f"{STORAGE}.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module in known:
            yield from (f"{path.name}: {alias.name}" for alias in node.names if alias.name in known[str(node.module)])
        elif isinstance(node, ast.Import):
            modules |= {alias.asname or alias.name: alias.name for alias in node.names if alias.name in known}
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute):
            home = modules.get(ast.unparse(node.value), "")
            if node.attr in known.get(home, ()) or node.attr in {"begin", "execute", "exec_driver_sql", "engine"}:
                yield f"{path.name}: {ast.unparse(node)}"


def _last(called: ast.expr) -> str:
    """The last name of what is called: `table.c.x.update` → `update`."""
    return called.attr if isinstance(called, ast.Attribute) else called.id if isinstance(called, ast.Name) else ""
