"""Values survive the way into text and back."""
from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.model.body import Region, Spot
from app.domain.model.client import Client
from app.domain.model.exercise import Axis, Exercise
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Timeline
from app.domain.model.programme import Programme
from app.domain.model.record import CheckIn, Clearance, Record
from app.domain.model.session import Session
from app.storage.codec import decode_any, encode, from_text, parse_utc, to_text, utc_text
from tests.storage import story, values

st.register_type_strategy(datetime, st.datetimes(timezones=st.just(UTC)))
st.register_type_strategy(Spot, values.spots)


@pytest.mark.parametrize("kind", [Exercise, Session, Programme, Dose, Timeline, Client, Clearance, CheckIn])
@given(data=st.data())
def test_any_value_of_the_domain_comes_back_equal(kind: Any, data: st.DataObject) -> None:
    """Whatever a field may hold by its type."""
    value = data.draw(st.from_type(kind))
    text = to_text(value)
    assert from_text(kind, text) == value
    assert to_text(from_text(kind, text)) == text


@pytest.mark.parametrize("value", [story.SOURCE, story.INES, story.TOMAS, story.session_done("s", "p")])
def test_a_true_to_life_value_comes_back_equal(value: Any) -> None:
    """With every level of nesting filled."""
    assert from_text(type(value), to_text(value)) == value


@given(values.records)
def test_one_of_several_kinds_is_told_apart(record: Record) -> None:
    """A union of dataclasses carries its kind."""
    assert decode_any(Record, json.loads(to_text(record, Record))) == record


def test_keys_that_a_later_version_added_are_ignored() -> None:
    """And what it left out takes its default."""
    data = {**encode(story.TOMAS), "favourite_colour": "ochre"}
    del data["country"]
    assert from_text(Person, json.dumps(data)) == story.TOMAS


def test_the_text_does_not_depend_on_the_order_in_which_things_were_told() -> None:
    """Otherwise equal records would have different hashes."""
    knee, back = Spot(Region.KNEE), Spot(Region.BACK)
    one = CheckIn(story.stamp("a", "p"), pain={knee: 1, back: 2})
    other = CheckIn(story.stamp("a", "p"), pain={back: 2, knee: 1})
    assert to_text(one) == to_text(other)


def test_a_none_that_is_not_the_default_is_kept() -> None:
    """Left out, it would come back as the default."""

    @dataclass(frozen=True)
    class Odd:
        level: int | None = 5
        demand: dict[Axis, int] = field(default_factory=dict)

    assert encode(Odd(None)) == {"level": None, "demand": {}}


@given(st.datetimes(timezones=st.timezones() | st.just(timezone(timedelta(hours=-9, minutes=-30)))))
def test_instants_sort_as_text(instant: datetime) -> None:
    """In any zone, to the microsecond, at fixed width."""
    if not 2 < instant.year < 9_998:
        return
    # compared in UTC: Python calls an hour that a clock strikes twice unequal to any other zone's
    text, utc = utc_text(instant), instant.astimezone(UTC)
    assert parse_utc(text) == utc
    assert len(text) == 27
    assert utc_text(utc + timedelta(microseconds=1)) > text


def test_a_time_without_a_zone_is_refused() -> None:
    """It is no instant."""
    with pytest.raises(ValueError, match="zone"):
        utc_text(datetime(2026, 3, 2))


def test_an_empty_answer_and_no_answer_stay_different() -> None:
    """"Nothing hurts" is not "did not say"."""
    said, silent = CheckIn(story.stamp("a", "p"), pain={}), CheckIn(story.stamp("a", "p"))
    assert from_text(CheckIn, to_text(said)).pain == {}
    assert from_text(CheckIn, to_text(silent)).pain is None
