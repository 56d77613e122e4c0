"""Which functions of the screens ran while stories were told in the tree."""
from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import CodeType, FrameType

UI = Path(__file__).resolve().parents[2] / "app" / "ui"
_RAN: set[CodeType] = set()


def _note(frame: FrameType, event: str, arg: object) -> None:
    """Called for every function that begins; looks no further into it."""
    _RAN.add(frame.f_code)


@contextmanager
def noting() -> Iterator[None]:
    """What runs within counts as reached. Where something else traces, as a debugger does, nothing is noted."""
    if sys.gettrace() is not None:
        yield
        return
    sys.settrace(_note)
    try:
        yield
    finally:
        sys.settrace(None)


def reached() -> set[str]:
    """`client/today/today_screen.py: TodayScreen` and so on, of everything that ran."""
    return {f"{Path(code.co_filename).relative_to(UI)}: {code.co_name}" for code in _RAN
            if Path(code.co_filename).is_relative_to(UI)}


def screens_and_panels() -> list[str]:
    """Every function of the screens that draws something: what gives back a control or several."""
    return [f"{path.relative_to(UI)}: {node.name}" for path in sorted(UI.rglob("*.py"))
            for node in ast.parse(path.read_text("utf-8")).body
            if isinstance(node, ast.FunctionDef) and node.returns and "Control" in ast.unparse(node.returns)]
