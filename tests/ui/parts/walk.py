"""Every control under one, for tests that ask what a screen is made of."""
from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any

import flet as ft


def controls(root: Any) -> Iterator[ft.BaseControl]:
    """The control and all that lies in it."""
    if isinstance(root, ft.BaseControl):
        yield root
        for field in dataclasses.fields(root):
            if field.name != "parent" and not field.name.startswith("_"):
                yield from controls(getattr(root, field.name, None))
    elif isinstance(root, (list, tuple)):
        for item in root:
            yield from controls(item)


def spoken(control: ft.Control) -> str:
    """What a screen reader would say of a button: the words in it."""
    return "\n".join(c.semantics_label or c.value for c in controls(control) if isinstance(c, ft.Text))
