"""Diaries as the first version dosed them (`first_version.json`, written by that version): what holds and what changed.

Each answer at its edges, one at a time, and forty at random. What another part of the program changed since is listed
with its reason in `tests/findings.md`.
"""
from __future__ import annotations

import json

import pytest

from app.domain.dosing.dose import decide_dose
from app.domain.model.rules import rule_table
from app.exchange.forms.command_inputs import client_from_json, diary_from_json
from tests.domain.shipped import TODAY
from tests.test_layers import ROOT

FIRST = json.loads((ROOT / "tests" / "domain" / "dosing" / "first_version.json").read_text("utf-8"))
ROUNDS = 3
#: Name of a diary whose dose is another one now, and why. None: what was asked then is answered as it was.
CHANGED: dict[str, str] = {}


@pytest.mark.parametrize("told", FIRST, ids=lambda told: told["name"])
def test_a_diary_of_the_first_version_gives_the_dose_that_it_gave(told: dict[str, object]) -> None:
    """Level, rounds, work, rest, load and what is carried into the next session."""
    diary, client = diary_from_json(json.dumps(told["diary"])), client_from_json(json.dumps(told["client"]))
    got = decide_dose(diary, client, ROUNDS, TODAY, strength=bool(told["strength"]), table=rule_table())
    dose = [got.level, got.rounds, got.work, got.rest, got.load, got.carried]
    assert (dose == told["dose"]) is (told["name"] not in CHANGED)


def test_they_reach_every_level() -> None:
    """So that no step of the table went unnoticed."""
    assert {told["dose"][0] for told in FIRST} == set(range(9))
    assert len({told["name"] for told in FIRST}) == len(FIRST) > 140
