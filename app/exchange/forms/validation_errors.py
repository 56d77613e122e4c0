"""Reads a form, and turns what pydantic complains about into one error of ours, with its place."""
from __future__ import annotations

import json
from typing import TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from app.domain.errors import ContentError, UnknownName, WrongValue
from app.exchange.forms.field_types import Form

F = TypeVar("F", bound=Form)

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
        raise content_error(error.errors(include_url=False)[0], where) from None


def content_error(detail: ErrorDetails, where: str) -> ContentError:
    """One complaint of pydantic's as an error of ours."""
    parts = [str(part) for part in detail["loc"] if not str(part).startswith("function-")]
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
