"""Roles and names reckoned from controls, on small pages; `tests/browser/test_names_and_roles.py` asks Chromium."""
from __future__ import annotations

import flet as ft

from tests.tree.nodes import Node, every, lost_in_live_regions, nodes


def button(name: str) -> ft.Control:
    """As ours are: a container to press with words in it."""
    return ft.Container(ft.Text(name), on_click=lambda _: None)


def test_a_button_in_a_live_region_is_lost_and_is_told() -> None:
    """The region is one group; beside the region the same button is found."""
    words = ft.Text("Your coach doesn’t know yet.")
    within = ft.Semantics(content=ft.Column([words, button("Send")]), live_region=True)
    beside = ft.Column([ft.Semantics(content=words, live_region=True), button("Send")])
    assert [node.name for node in lost_in_live_regions(every(ft.Column([within])))] == ["Send"]
    assert not [node for node in nodes(within) if node.role == "button"]
    assert lost_in_live_regions(every(beside)) == []
    assert [(node.role, node.name) for node in nodes(beside)] == [("text", words.value), ("button", "Send")]


def test_words_in_a_button_are_its_name() -> None:
    """And what is hidden is not there."""
    hidden = ft.Text("unseen", visible=False)
    found = list(nodes(ft.Column([button("Start"), hidden])))
    assert [(node.role, node.name) for node in found] == [("button", "Start")]
    assert all(isinstance(node, Node) and node.is_pressable for node in found)
