"""The page of rules is what the tables say."""
from __future__ import annotations

import importlib

from app.words.rules.exact_rules import for_coach


def test_the_page_is_up_to_date() -> None:
    """After a change to a table: .venv/bin/python build/rules_page.py."""
    script = importlib.import_module("rules_page")
    assert script.PAGE.read_text("utf-8") == script.page()


def test_every_section_and_every_row_is_on_it() -> None:
    """With as many cells as heads, whatever stands in them."""
    script = importlib.import_module("rules_page")
    page = script.page()
    for section in for_coach():
        assert f"## {section.title}\n" in page
        assert all(len(row) == len(section.heads) for row in section.rows)
        assert all(line in page for line in section.words)
    tables = [line for line in page.splitlines() if line.startswith("|")]
    assert len(tables) == sum(len(s.rows) + 2 for s in for_coach() if s.rows)
    assert script._row(("a|b", "c\nd")) == "| a\\|b | c d |"
