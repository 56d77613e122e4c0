#!/usr/bin/env python3
"""Writes the rules as a page: .venv/bin/python build/rules_page.py [FILE], by default app/domain/RULES.md.

From the same tables that decide and that the app shows under "Why?". Run it after a change to any of them.
"""
from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "app" / "domain" / "RULES.md"
sys.path.insert(0, str(ROOT))

from app.words.rules.exact_rules import NOT_MEDICAL, TITLE, for_coach  # noqa: E402
from app.words.rules.section import Section  # noqa: E402

HEAD = f"""# {TITLE}

Written by `build/rules_page.py` from the tables in `app/domain`; do not edit. {NOT_MEDICAL}
"""


def page() -> str:
    """The whole page."""
    return "\n".join([HEAD, *(section_text(section) for section in for_coach())])


def section_text(section: Section) -> str:
    """One section: its sentences, then its rows as a table."""
    pieces = [f"## {section.title}", "", *(f"{line}\n" for line in section.words)]
    if section.rows:
        pieces += [_row(section.heads), _row(tuple("---" for _ in section.heads)), *map(_row, section.rows), ""]
    return "\n".join(pieces)


def _row(cells: tuple[str, ...]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def write(path: Path = PAGE) -> None:
    """Writes it."""
    path.write_text(page(), "utf-8")


if __name__ == "__main__":
    write(*(Path(argument) for argument in sys.argv[1:2]))
