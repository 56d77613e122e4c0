"""What a client file says of conditions and of limits of their own; hand-made mistakes are refused by name."""
from __future__ import annotations

import json
from datetime import date

import pytest

from app.domain.errors import AppError
from app.domain.model.client import AxisLimit, Condition, ConditionTerms
from app.domain.model.exercise import Axis
from app.exchange.forms.command_inputs import client_from_json


def read(**keys: object) -> object:
    """A client file of these keys."""
    return client_from_json(json.dumps(keys))


def test_a_client_file_says_when_a_condition_began_and_whose_yes_ended_its_first_limits() -> None:
    """By the condition's name, in words or as an id."""
    client = client_from_json(json.dumps({
        "conditions": ["hip replacement", "copd"],
        "terms": {"hip replacement": {"since": "2026-01-05", "said_by": "Mr Low", "cleared_by": "Ms Field, "
                                      "physiotherapist", "cleared": "2026-04-01"}},
        "told_limits": [{"axis": "bearing_down", "at_most": 1, "said_by": "Dr Moss", "until": "2026-12-01"}],
    }))
    assert client.conditions == {Condition.HIP_REPLACEMENT, Condition.COPD}
    assert client.terms == {Condition.HIP_REPLACEMENT: ConditionTerms(
        date(2026, 1, 5), "Mr Low", None, "Ms Field, physiotherapist", date(2026, 4, 1))}
    assert client.told_limits == (AxisLimit(Axis.BEARING_DOWN, 1, "Dr Moss", date(2026, 12, 1)),)


@pytest.mark.parametrize("keys", [
    {"terms": {"hip_replacement": {"cleared": "2026-04-01"}}},
    {"terms": {"hip_replacement": {"cleared_by": "Ms Field"}}},
    {"terms": {"a bad hip": {}}},
    {"terms": {"hip_replacement": {"until": "soon"}}},
    {"told_limits": [{"axis": "bearing_down", "at_most": 1}]},
    {"told_limits": [{"axis": "nose", "at_most": 1, "said_by": "Dr Moss"}]},
    {"told_limits": [{"axis": "grip", "at_most": 4, "said_by": "Dr Moss"}]},
])
def test_half_a_yes_and_a_limit_without_a_name_are_refused(keys: dict[str, object]) -> None:
    """As is an axis or a condition that there is none of."""
    with pytest.raises(AppError):
        read(**keys)


@pytest.mark.parametrize("condition", Condition)
def test_every_condition_can_be_written_in_a_client_file(condition: Condition) -> None:
    """One side with the side that rests."""
    more = {"rest_side": {"side": "left", "because": "plaster"}} if condition is Condition.ONE_SIDE else {}
    assert client_from_json(json.dumps({"conditions": [condition.value], **more})).conditions == {condition}
