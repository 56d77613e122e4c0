"""Reads a form, and turns what pydantic complains about into one error of ours, with its place."""
from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import TypeVar, get_args

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from app.domain.errors import ContentError, UnknownName, WrongValue
from app.exchange.forms.field_types import Form
from app.exchange.forms.json_parts import pieces

F = TypeVar("F", bound=Form)

#: Complaints that are worth listing one by one.
MOST_LISTED = 1000
_INSTANT = "an instant as 2027-03-01T07:30:00Z"
_EXPECTED = {
    "missing": "a value", "int_type": "a whole number", "int_from_float": "a whole number", "float_type": "a number",
    "finite_number": "a number", "bool_type": "true or false", "string_type": "text", "string_unicode": "text",
    "tuple_type": "a list", "frozen_set_type": "a list", "set_type": "a list", "list_type": "a list",
    "model_type": "a table", "dict_type": "a table", "dataclass_type": "a table", "mapping_type": "a table",
    "model_attributes_type": "a table", "date_type": "a date", "date_parsing": "a date as 2027-03-01",
    "date_from_datetime_parsing": "a date as 2027-03-01", "datetime_type": "an instant",
    "too_long": "fewer entries", "too_short": "more entries", "datetime_parsing": _INSTANT, "json_invalid": "JSON",
    "datetime_from_date_parsing": _INSTANT, "union_tag_invalid": "a kind that is known",
}


def read_form(form: type[F], data: bytes | str, where: str, context: str | None = None) -> F:
    """The form, read strictly from JSON.

    Raises:
        WrongValue, UnknownName: the first thing that is wrong, with its place.
    """
    try:
        return form.model_validate_json(data, strict=True, context=context)
    except ValidationError as error:
        raise _first(error, where) from None


def read_form_in_pieces(form: type[F], data: bytes, where: str, name: str, most: Mapping[str, int]) -> F:
    """The same from a file that came from elsewhere, cut and read piece by piece, the first mistake ending all.

    Args:
        form: what it is to be. Keys that it does not know are dropped unread.
        data: the JSON.
        where: named in errors.
        name: the file's, for errors.
        most: the most entries of each of the form's lists that are read entry by entry.

    Raises:
        WrongValue, UnknownName: as `read_form`.
        TooLarge, DamagedFile: a piece that holds too many values, or nests too deep.
    """
    cut = pieces(data, name, {key: most.get(key) for key in form.model_fields})
    head = read_form(form, cut.rest, where)
    return head.model_copy(update={key: tuple(_entries(form, key, cut.lists[key], where)) for key in cut.lists})


def _entries(form: type[F], key: str, entries: Sequence[bytes], where: str) -> Iterator[object]:
    reader = _entry_reader(form, key)
    for number, entry in enumerate(entries):
        try:
            yield reader.validate_json(entry, strict=True)
        except ValidationError as error:
            raise _first(error, where, (key, str(number))) from None


@cache
def _entry_reader(form: type[Form], key: str) -> TypeAdapter[object]:
    """Reads one entry of a form's list, which is declared as `tuple[ENTRY, ...]`."""
    return TypeAdapter(get_args(form.model_fields[key].annotation)[0])


def _first(error: ValidationError, where: str, at: tuple[str, ...] = ()) -> ContentError:
    """The first of pydantic's complaints; where there are very many, listing them would take longer than reading."""
    if error.error_count() > MOST_LISTED:
        place = ", ".join(filter(None, (where, ".".join(at))))
        return WrongValue(where=place, value=None, expected=f"fewer mistakes than {error.error_count()}")
    return content_error(error.errors(include_url=False)[0], where, at)


def content_error(detail: ErrorDetails, where: str, at: tuple[str, ...] = ()) -> ContentError:
    """One complaint of pydantic's as an error of ours. `at`: where what was read stands in the whole."""
    said = [str(part) for part in detail["loc"] if not str(part).startswith("function-")]
    parts = [*at, *said]
    place = ", ".join(filter(None, (where, ".".join(parts))))
    given = detail.get("ctx", {})
    if detail["type"] == "unknown_key":
        return UnknownName(kind="key", name=given["name"], known=given["known"], where=place)
    value = None if detail["type"] == "missing" else _short(detail["input"])
    expected = _EXPECTED.get(detail["type"]) or given.get("expected", "another value")
    return WrongValue(where=place, value=value, expected=expected)


def _short(value: object) -> object:
    """A value that fits into a sentence."""
    if isinstance(value, int | float) or value is None:
        return value
    shown = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, default=str)
    return shown if len(shown) <= 60 else shown[:59] + "…"
