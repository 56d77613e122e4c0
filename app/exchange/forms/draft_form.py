"""A session under the pen as the tables of the source's format: the same keys, and blocks that may still be empty."""
from __future__ import annotations

import json
from typing import Annotated, Any

from pydantic import AfterValidator, Field

from app.domain.bench.sheet import SessionSheet, numbered
from app.domain.model.session import Block
from app.exchange.forms.session_form import BlockForm, ItemForm, SessionForm, block_table, item_of, session_table
from app.exchange.forms.to_json import to_json
from app.exchange.forms.validation_errors import read_form


class BlockOnPaperForm(BlockForm):
    """One [[block]], with or without lines."""

    item: Annotated[tuple[Annotated[ItemForm, AfterValidator(item_of)], ...], Field(max_length=60)] = ()


def _block(form: BlockOnPaperForm) -> Block:
    stated = form.stated()
    return Block(items=stated.pop("item"), **stated)


class SheetForm(SessionForm):
    """A session under the pen: its head, and blocks that may be empty or none."""

    block: Annotated[tuple[Annotated[BlockOnPaperForm, AfterValidator(_block)], ...], Field(max_length=20)] = ()


def sheet_to_text(sheet: SessionSheet) -> str:
    """Its table as JSON text that depends on what is written alone."""
    head = session_table(sheet.session()) | {"block": [block_table(block.written()) for block in sheet.blocks]}
    return to_json(head).decode()


def sheet_from_text(text: str) -> SessionSheet:
    """The sheet, its rows numbered from 1.

    Raises:
        WrongValue, UnknownName: a key or a value that cannot be.
    """
    form = read_form(SheetForm, text, "the session")
    return numbered(form.id, form.name, form.block, form.target_rpe, form.about)  # type: ignore[arg-type]


def table_from_text(text: str) -> dict[str, Any]:
    """The table of a session as a source has it: without blocks that hold nothing."""
    table: dict[str, Any] = json.loads(text)
    return table | {"block": [block for block in table.get("block", []) if block.get("item")]}
