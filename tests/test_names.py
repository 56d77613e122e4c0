"""A name stands for one thing: no class of the program is named twice."""
from __future__ import annotations

import ast

from tests.test_layers import ROOT, modules

#: Names that two classes bear because they are the same thing in another form, with what the second form is.
SAME_THING: dict[str, str] = {}


def test_no_class_is_named_twice() -> None:
    """Except where the second is the same thing in another form, and said to be."""
    homes: dict[str, list[str]] = {}
    for name, path in modules(ROOT):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ClassDef):
                homes.setdefault(node.name, []).append(name)
    assert {name: where for name, where in homes.items() if len(where) > 1 and name not in SAME_THING} == {}
