"""The rules to be read: in plain words for somebody who trains, exact for a coach. From the tables that decide."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.actions.desk.publishing import published_rules
from app.actions.people import Role, current_person, current_role
from app.domain.model.rules import RuleTable, rule_table
from app.domain.model.source import Source
from app.storage import packs
from app.ui.client.nav import client_nav
from app.ui.coach.coach_layout import coach_page
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.rules import exact_rules, plain_rules
from app.words.rules.section import Section

WIDEST = 4
"""A column takes between one and this many parts of the width."""
SHORT, LONG_WORD = 28, 8
"""Letters that a part holds easily, and of a word that wants two parts."""


@ft.component
def WhyScreen(shell: Shell) -> ft.Control:
    """`/why`, or `/why/SECTION`."""
    c, is_coach = shell.card(), current_role(shell.store) is Role.COACH
    sections = (exact_rules.for_coach(published_rules(shell.store)) if is_coach
                else plain_rules.for_client(_table(shell)))
    found = next((s for s in sections if s.id == shell.route_id()), None)
    body = _section(c, found) if found else _menu(c, shell, sections, is_coach)
    where, words = ("/why", plain_rules.TO_RULES) if found else (
        ("/publish", plain_rules.TO_PUBLISH) if is_coach else ("/today", plain_rules.TO_TODAY))
    back = c.button(words, safe(shell, bind(shell.go, where)))
    if is_coach:
        return coach_page(shell, "publish", [*body, c.side_by_side([back])])
    page = c.page(body, [back], client_nav(shell, "today") if current_person(shell.store) else None)
    page.key = f"why-{found.id if found else ''}"
    return page


def _table(shell: Shell) -> RuleTable:
    """The table of the coach whose programme is followed; the shipped one where there is none."""
    source = _source(shell)
    return source.rules.table() if source else rule_table()


def _source(shell: Shell) -> Source | None:
    person = current_person(shell.store)
    if person is None or not person.coach_key:
        return None
    with shell.store.read() as db:
        pack = packs.newest_pack(db, person.coach_key)
    return pack.source if pack else None


def _menu(c: Card, shell: Shell, sections: Sequence[Section], is_coach: bool) -> list[ft.Control]:
    """The first section whole, the others by name."""
    head = exact_rules.TITLE if is_coach else plain_rules.TITLE
    lead = exact_rules.NOT_MEDICAL if is_coach else plain_rules.LEAD
    rows: list[ft.Control] = [
        c.row(s.title, "", safe(shell, bind(shell.go, f"/why/{s.id}")), name=s.title) for s in sections[1:]
    ]
    return [c.title(head), c.lead(lead), *_section(c, sections[0], c.head(sections[0].title)), c.rule(t.RULE_THICK),
            c.rows(rows, 2)]


def _section(c: Card, section: Section, head: ft.Control | None = None) -> list[ft.Control]:
    words: list[ft.Control] = [c.body(line) for line in section.words]
    beside = c.is_wide and c.scale <= t.LARGE_PRINT
    rows = _grid(c, section) if beside else [_stacked(c, section, row) for row in section.rows]
    return [head or c.title(section.title, t.T_HEAD if c.scale > t.LARGE_PRINT else t.T_TITLE), *words,
            *([c.rows(rows)] if rows else [])]


def _stacked(c: Card, section: Section, row: tuple[str, ...]) -> ft.Control:
    """One row under another on a phone: its name, then each cell with its head where there are several."""
    told = [(head, cell) for head, cell in zip(section.heads[1:], row[1:], strict=False) if cell]
    if not told:
        return c.body(row[0])
    lines: list[ft.Control] = [c.body(cell if len(told) == 1 else f"{head}: {cell}") for head, cell in told]
    return c.stack([c.strong(row[0]), *lines], 2)


def _grid(c: Card, section: Section) -> list[ft.Control]:
    """Rows with their heads above, each column as wide as its words ask for."""
    if not section.heads:
        return [c.body(row[0]) for row in section.rows]
    parts = [_parts(column) for column in zip(*section.rows, strict=True)]
    heads = [c.text(head, t.T_CAPTION, t.EXTRA, expand=wide) for head, wide in zip(section.heads, parts, strict=True)]
    rows: list[ft.Control] = [_line(heads)]
    for row in section.rows:
        cells = [c.text(cell, weight=t.REGULAR if at else t.SEMI, expand=wide)
                 for at, (cell, wide) in enumerate(zip(row, parts, strict=True))]
        rows.append(_line(cells))
    return rows


def _parts(cells: Sequence[str]) -> int:
    longest = max(len(cell) for cell in cells)
    has_long_words = any(len(word) >= LONG_WORD for cell in cells for word in cell.split())
    return min(WIDEST, max(1 + longest // SHORT, 1 + has_long_words))


def _line(cells: Sequence[ft.Control]) -> ft.Control:
    return ft.Row(list(cells), spacing=t.GAP, vertical_alignment=ft.CrossAxisAlignment.START)
