"""What a screen reader finds in a tree of Flet controls: roles and names, merged as Flutter merges them."""
from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise
from typing import Any

import flet as ft
from flet.components.public_utils import unwrap_component

from tests.stories.person import Name

#: A merged node takes the last of its parts' roles.
ROLES = ("text", "img", "heading", "button", "checkbox", "textbox")
#: What a live region becomes that holds more than words: what is pressed in it is no button any more.
GROUP = "group"


@dataclass(frozen=True)
class Node:
    """One node of the accessibility tree. `control` gets its events; None: it cannot be pressed or written in."""

    role: str
    name: str = ""
    control: ft.BaseControl | None = None
    chosen: bool | None = None
    ticked: bool | None = None

    @property
    def is_pressable(self) -> bool:
        return self.role in ("button", "checkbox", "textbox")


def nodes(control: Any) -> Iterator[Node]:
    """Everything in a control, in reading order."""
    control = unwrap_component(control)
    if isinstance(control, (list, tuple)):
        for one in control:
            yield from nodes(one)
        return
    if not isinstance(control, ft.BaseControl) or not getattr(control, "visible", True):
        return
    own, inside = own_node(control), list[Node]()
    if not getattr(control, "exclude_semantics", False):
        held = (getattr(control, field) for field in fields_of(type(control)))
        inside = [node for one in held if isinstance(one, (ft.BaseControl, list, tuple)) for node in nodes(one)]
    if own is None:
        yield from inside
    elif not isinstance(control, ft.MergeSemantics) and sum(node.is_pressable for node in (own, *inside)) > 1:
        yield own  # two that can be pressed never merge
        yield from inside
    elif isinstance(control, ft.Semantics) and control.live_region and len(inside) > 1:
        headings = [node for node in inside if node.role == "heading"]
        yield from headings
        yield live(own, [node for node in inside if node.role != "heading"], holds=bool(headings))
    else:
        yield merged(own, inside)


@cache
def fields_of(kind: type[ft.BaseControl]) -> tuple[str, ...]:
    """The fields that may hold other controls."""
    return tuple(field.name for field in dataclasses.fields(kind) if not field.name.startswith(("_", "on_"))
                 and "skip" not in field.metadata)


def own_node(control: ft.BaseControl) -> Node | None:
    """What a control itself adds; None for mere layout."""
    if isinstance(control, ft.Text):
        return Node("text", control.semantics_label or control.value or "")
    if isinstance(control, ft.TextField):
        return Node("textbox", str(control.label or ""), control)
    if isinstance(control, (ft.Checkbox, ft.Switch)):
        return Node("checkbox", str(control.label or ""), control, ticked=bool(control.value))
    if isinstance(control, ft.MergeSemantics):
        return Node("text")
    if isinstance(control, ft.Semantics):
        return semantics_node(control)
    if getattr(control, "on_click", None) or isinstance(control, (ft.Button, ft.IconButton)):
        face = getattr(control, "content", None)
        name = face if isinstance(face, str) else str(getattr(control, "tooltip", None) or "")
        return Node("button", name, control)
    label = getattr(control, "semantics_label", None)
    return Node("img", label) if label else None


def semantics_node(control: ft.Semantics) -> Node | None:
    """None where it says nothing of its own."""
    roles = {"checkbox": control.checked is not None, "button": control.button, "heading": control.heading_level,
             "img": control.image}
    role = next((role for role, on in roles.items() if on), "text")
    if role == "text" and not control.label and control.selected is None and not control.live_region:
        return None
    return Node(role, control.label or "", chosen=control.selected, ticked=control.checked)


def merged(own: Node, inside: list[Node]) -> Node:
    """One node of several, as Flutter makes it of what lies in a button, a heading or a live region."""
    parts = [own, *inside]

    def first(field: str) -> Any:
        return next((value for part in parts if (value := getattr(part, field)) is not None), None)

    role = max((part.role for part in parts), key=ROLES.index)
    name = "\n".join(part.name for part in parts if part.name)
    return Node(role, name, first("control"), first("chosen"), first("ticked"))


def live(own: Node, inside: list[Node], *, holds: bool) -> Node:
    """A live region with several parts; it takes in even what can be pressed. `holds`: headings stand in it."""
    whole = merged(own, inside)
    return replace(whole, role=GROUP, control=None) if holds or whole.is_pressable else whole


# ------------------------------------------------------------------ what is looked for

Test = Callable[[Node], bool]


def named(role: str, name: Name, *, state: str = "") -> Test:
    """Of a role and a name, of which text must be the whole; and `chosen` or `ticked`, where that is asked."""
    def test(node: Node) -> bool:
        said = " ".join(node.name.split())
        whole = said == name if isinstance(name, str) else bool(name.search(said))
        return node.role == role and whole and (not state or bool(getattr(node, state)))
    return test


def saying(words: Name, role: str = "") -> Test:
    """With these words, of which text may be any part; how wide its spaces are makes no difference."""
    part_of = " ".join(words.split()).casefold() if isinstance(words, str) else ""

    def test(node: Node) -> bool:
        said = " ".join(node.name.split())
        part = part_of in said.casefold() if isinstance(words, str) else bool(words.search(said))
        return part and role in ("", node.role)
    return test


# ------------------------------------------------------------------ what would be lost

def lost_in_live_regions(shown: Iterable[ft.BaseControl]) -> list[Node]:
    """What can be pressed or written in inside a live region: Flutter makes one node of it, which nobody can press."""
    lost: list[Node] = []
    for one in shown:
        if isinstance(one, ft.Semantics) and one.live_region:
            lost += [node for node in nodes(one.content) if node.is_pressable]
    return lost


def shown_in_chromium_alone(shown: Iterable[ft.BaseControl]) -> list[ft.Image]:
    """Pictures that are sent as bare bytes, which no engine but Chromium's shows: see `app/ui/parts/raster.py`."""
    return [one for one in shown if isinstance(one, ft.Image) and not isinstance(one.src, str)]


def skipped_levels(shown: Iterable[ft.BaseControl]) -> list[str]:
    """Headings two levels below the one before, so that whoever goes from head to head misses where they belong."""
    heads = [(one.heading_level, " ".join(node.name for node in nodes(one.content))) for one in shown
             if isinstance(one, ft.Semantics) and one.heading_level]
    return [name for (before, _), (level, name) in pairwise(heads) if level > before + 1]


def every(control: Any) -> Iterator[ft.BaseControl]:
    """A control that is shown, and all in it."""
    control = unwrap_component(control)
    if isinstance(control, (list, tuple)):
        for one in control:
            yield from every(one)
    elif isinstance(control, ft.BaseControl) and getattr(control, "visible", True):
        yield control
        for field in fields_of(type(control)):
            yield from every(getattr(control, field))
