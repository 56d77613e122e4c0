"""Every sentence that somebody reads or hears, each in its place: `python -m tests.read_aloud [--country us]`.

First the pages of the demo as they stand, each sentence where it is read first; then the program's words, module by
module, with what stories and tests filled in; then the demo's library, and the help of every command. A few minutes.
Exit 1: a sentence was never filled in, which is then named.
"""
from __future__ import annotations

import argparse
import ast
import importlib
import io
import re
import sys
import tempfile
import tomllib
from collections.abc import Iterator, Mapping
from contextlib import redirect_stdout, suppress
from dataclasses import fields, is_dataclass
from datetime import date
from functools import wraps
from pathlib import Path
from types import FunctionType
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[1]
WORDS = ROOT / "app" / "words"
LIBRARY = ROOT / "assets" / "programmes" / "brackwater"
TOLD = ("tests/stories", "tests/tree", "tests/words", "tests/ui", "tests/commands", "tests/actions", "tests/device",
        "tests/test_library_clients.py")
"""What fills the sentences in."""
QUIET = ("-p", "no:terminal", "-p", "no:xdist", "-p", "no:cacheprovider", "-m", "not browser and not firefox")
EXAMPLES = 2
"""Of one sentence with something filled in."""
SAMPLES = {"str": "Maud Ellery", "int": 3, "float": 2.5, "bool": True, "date": date(2026, 3, 2),
           "Path": Path("maud.evr"), "Sequence[str]": ("Maud Ellery", "Ruben Falk")}
"""By what a function takes, for those that nobody called."""


def sentences(value: object) -> Iterator[str]:
    """Every text within: of a tuple, a mapping's values, a record's fields. An id is none, nor is a bare number."""
    if isinstance(value, str):
        if re.search(r"[^\W\d_]", value) and not re.fullmatch(r"[a-z0-9_./-]*", value):
            yield value
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from sentences(one)
    elif isinstance(value, tuple | list | frozenset):
        for one in value:
            yield from sentences(one)
    elif is_dataclass(value):
        for field in fields(value):
            yield from sentences(getattr(value, field.name))


class Heard:
    """What the functions of the words gave back, a few examples each. It must be there before anybody imports one."""

    def __init__(self) -> None:
        self._said: dict[tuple[str, str], list[tuple[str, ...]]] = {}
        for path in sorted(WORDS.rglob("*.py")):
            module = importlib.import_module(module_name(path))
            for name, function in vars(module).items():
                if isinstance(function, FunctionType) and function.__module__ == module.__name__:
                    setattr(module, name, self._listening(function))

    def of(self, module: str, name: str) -> list[tuple[str, ...]]:
        """Its examples: as they were heard, else of sample values; empty where there are none for what it takes."""
        if not self._said[module, name]:
            function = getattr(importlib.import_module(module), name)
            taken = {key: kind for key, kind in function.__annotations__.items() if key != "return"}
            with suppress(KeyError, IndexError):
                function(**{key: SAMPLES[kind] for key, kind in taken.items()})
        return self._said[module, name]

    def _listening(self, function: FunctionType) -> FunctionType:
        said = self._said.setdefault((function.__module__, function.__name__), [])

        @wraps(function)
        def heard(*values: Any, **named: Any) -> Any:
            found = function(*values, **named)
            if len(said) < EXAMPLES and (one := tuple(sentences(found)) or (str(found),)) and one not in said:
                said.append(one)
            return found

        return heard  # type: ignore[return-value]


def module_name(path: Path) -> str:
    """`app.words.parts`."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def pages(folder: Path) -> Iterator[tuple[str, list[str]]]:
    """(heading, sentences) of every address of the demo; what was said on an earlier page is not said again."""
    from tests.browser.prepared import MORNING, prepare
    from tests.stories.addresses import EVERYBODY, addresses
    from tests.stories.turns import Demo
    from tests.tree.window import window

    before: set[str] = set()
    demo = Demo(prepare("demo", folder / "data"))
    for name in EVERYBODY:
        demo.turn_of(name)
        with window(demo.data, began=MORNING) as walker:
            for address in addresses(demo, name):
                said = list(dict.fromkeys(one for line in walker.go(address).says() for one in sentences(line)))
                yield f"{name or 'The coach'} at {address}", [one for one in said if one not in before]
                before.update(said)


def program(heard: Heard, silent: list[str]) -> Iterator[tuple[str, list[str]]]:
    """(heading, sentences) of every module of the words; notes in `silent` what was never filled in."""
    for path in sorted(WORDS.rglob("*.py")):
        tree, module = ast.parse(path.read_text("utf-8")), importlib.import_module(module_name(path))
        said: list[str] = []
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and isinstance(getattr(module, node.name, None), FunctionType):
                examples = heard.of(module.__name__, node.name)
                if not examples and not node.name.startswith("_") and "str" in ast.unparse(node.returns or node.args):
                    silent.append(f"{module.__name__}: {node.name}")
                if not node.name.startswith("_"):
                    said += [f"({node.name.replace('_', ' ')}) {' / '.join(one)}" for one in examples]
            for name in _assigned(node):
                said += sentences(getattr(module, name))
        about = (ast.get_docstring(tree) or "").splitlines()[:1]
        yield f"{module.__name__}. {' '.join(about)}", said


def _assigned(node: ast.stmt) -> list[str]:
    targets = node.targets if isinstance(node, ast.Assign) else [node.target] if isinstance(node, ast.AnnAssign) else []
    return [one.id for target in targets for one in ast.walk(target) if isinstance(one, ast.Name)]


def library() -> Iterator[tuple[str, list[str]]]:
    """(file, sentences) of what the demo's coach wrote."""
    for path in sorted(LIBRARY.rglob("*.toml")):
        yield str(path.relative_to(LIBRARY)), list(sentences(tomllib.loads(path.read_text("utf-8"))))


def commands() -> Iterator[tuple[str, list[str]]]:
    """(command, its help)."""
    from app.commands.arguments import parse
    from app.words.machine.command_help import SUMMARIES

    for name in ("", *SUMMARIES):
        page = io.StringIO()
        with redirect_stdout(page), suppress(SystemExit):
            parse([*([name] if name else []), "--help"])
        yield f"evenload {name}", page.getvalue().splitlines()


def main() -> int:
    """Tells all of it."""
    asked = argparse.ArgumentParser(prog="python -m tests.read_aloud", description=__doc__)
    asked.add_argument("--country", default="", help="whose English, such as us")
    country = asked.parse_args().country
    heard, silent = Heard(), list[str]()
    from app.words.english import american, is_american

    english = american if is_american(country) else str
    with tempfile.TemporaryDirectory() as folder:
        shown = list(pages(Path(folder)))
        pytest.main(["-o", "addopts=--import-mode=importlib", *QUIET, *TOLD])
    for title, chapter in (("Pages", shown), ("Words", program(heard, silent)), ("Library", library()),
                           ("Commands", commands())):
        print(f"\n# {title}")
        for heading, said in chapter:
            if said:
                print(f"\n## {heading}\n", *map(english, dict.fromkeys(said)), sep="\n")
    for one in silent:
        print(f"never filled in: {one}", file=sys.stderr)
    return 1 if silent else 0


if __name__ == "__main__":
    sys.exit(main())
