"""Sessions and programmes as a coach writes them, in TOML or in a pack's `content.json`; loads in kilograms."""
from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any

from pydantic import AfterValidator, Field, model_validator

from app.domain.model.programme import Programme, Week
from app.domain.model.session import MOST_STEPS, STEPS_UNSAID, USUAL_STEPS, Block, BlockKind, Item, Session
from app.exchange.forms.field_types import Form, Line, Name, Slug, Text, becomes, number, refuse, whole

Rest = Annotated[int, whole(0, 600)]


class ItemForm(Form):
    """One station: an exercise and exactly one of seconds, repetitions or a hold."""

    exercise: Slug
    work_s: Annotated[int, whole(5, 600)] | None = None
    reps: Annotated[int, whole(1, 60)] | None = None
    hold_s: Annotated[int, whole(5, 120)] | None = None
    rest_s: Rest | None = None
    load_kg: Annotated[float, number(0, 60)] | None = None
    accessory: bool = False
    one_side_because: Line = ""
    steps: Annotated[int, whole(0, MOST_STEPS)] | None = None

    @model_validator(mode="after")
    def _one_amount(self) -> ItemForm:
        if sum(amount is not None for amount in (self.work_s, self.reps, self.hold_s)) != 1:
            refuse("exactly one of work_s, reps and hold_s")
        return self


def item_of(form: ItemForm) -> Item:
    """The item, its weight in grams."""
    stated = form.stated()
    for key in ("work_s", "reps", "hold_s"):
        stated[key] = stated[key] or 0
    if stated["steps"] is None:  # a pack that says nothing was made when two were usual
        stated["steps"] = STEPS_UNSAID
    return Item(load_g=round((stated.pop("load_kg") or 0) * 1000), **stated)


class BlockForm(Form):
    """One [[block]]."""

    kind: BlockKind
    rounds: Annotated[int, whole(1, 10)] = 1
    rest_s: Rest = 0
    round_rest_s: Rest = 0
    item: Annotated[tuple[Annotated[ItemForm, AfterValidator(item_of)], ...], Field(min_length=1, max_length=60)]


def _block(form: BlockForm) -> Block:
    stated = form.stated()
    return Block(items=stated.pop("item"), **stated)


class SessionForm(Form):
    """One file of `sessions/`."""

    id: Slug
    name: Name
    about: Text = ""
    target_rpe: Annotated[int, whole(1, 10)] = 5
    block: Annotated[tuple[Annotated[BlockForm, AfterValidator(_block)], ...], Field(min_length=1, max_length=20)]


def session_of(form: SessionForm) -> Session:
    """The session."""
    stated = form.stated()
    return Session(blocks=stated.pop("block"), **stated)


class WeekForm(Form):
    """One [[week]]."""

    sessions: Annotated[tuple[Slug, ...], Field(max_length=14)]
    lighter: bool = False
    note: Line = ""


class ProgrammeForm(Form):
    """One file of `programmes/`."""

    id: Slug
    name: Name
    about: Text = ""
    week: Annotated[tuple[Annotated[WeekForm, becomes(Week)], ...], Field(min_length=1, max_length=104)]


def programme_of(form: ProgrammeForm) -> Programme:
    """The programme."""
    stated = form.stated()
    return Programme(weeks=stated.pop("week"), **stated)


def session_table(session: Session) -> dict[str, Any]:
    """The keys that give this session back."""
    head = {"id": session.id, "name": session.name, "about": session.about, "target_rpe": session.target_rpe}
    return _said(head) | {"block": [block_table(block) for block in session.blocks]}


def programme_table(programme: Programme) -> dict[str, Any]:
    """The keys that give this programme back."""
    head = {"id": programme.id, "name": programme.name, "about": programme.about}
    weeks = [{"sessions": list(week.sessions)} | _said({"lighter": week.lighter, "note": week.note})
             for week in programme.weeks]
    return _said(head) | {"week": weeks}


def with_usual_steps(table: Any) -> Any:
    """A session's TOML table with the steps that are usual where the coach says nothing of them."""
    for item in _items_in(table):
        item.setdefault("steps", USUAL_STEPS)
    return table


def without_usual_steps(table: dict[str, Any]) -> dict[str, Any]:
    """The same to be written as TOML: what is usual is not said, and two steps are."""
    for item in _items_in(table):
        if item.setdefault("steps", STEPS_UNSAID) == USUAL_STEPS:
            del item["steps"]
    return table


def _items_in(table: Any) -> Iterator[dict[str, Any]]:
    """Every item of a table as somebody wrote it, which may be anything."""
    blocks = table.get("block") if isinstance(table, dict) else None
    for block in blocks if isinstance(blocks, list) else []:
        items = block.get("item") if isinstance(block, dict) else None
        yield from (item for item in (items if isinstance(items, list) else []) if isinstance(item, dict))


def block_table(block: Block) -> dict[str, Any]:
    """The keys that give this block back."""
    head = {"kind": block.kind.value, "rounds": block.rounds, "rest_s": block.rest_s,
            "round_rest_s": block.round_rest_s}
    return head | {"item": [_item_table(item) for item in block.items]}


def _item_table(item: Item) -> dict[str, Any]:
    amounts = {"work_s": item.work_s, "reps": item.reps, "hold_s": item.hold_s}
    table: dict[str, Any] = {"exercise": item.exercise} | {key: n for key, n in amounts.items() if n}
    if item.rest_s is not None:
        table["rest_s"] = item.rest_s
    if item.load_g:
        table["load_kg"] = item.load_g / 1000
    if item.steps != STEPS_UNSAID:
        table["steps"] = item.steps
    return table | _said({"accessory": item.accessory, "one_side_because": item.one_side_because})


def _said(table: dict[str, Any]) -> dict[str, Any]:
    """Without the keys that say nothing."""
    return {key: value for key, value in table.items() if value not in ("", False)}
