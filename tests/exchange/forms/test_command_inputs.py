"""Client files for the command line: what a side to rest and a usual pain must say."""
from __future__ import annotations

import json

import pytest

from app.domain.errors import WrongValue
from app.domain.model.diary import Fall
from app.exchange.forms.command_inputs import client_from_json, diary_from_json


@pytest.mark.parametrize(("told", "place"), [
    ({"level": 3, "agreed_with": "physiotherapist"}, "until"), ({"level": 3, "until": "2027-01-01"}, "agreed_with")])
def test_b8_a_usual_pain_without_an_end_or_a_name_is_refused_and_never_dropped(told: dict[str, object], place: str
                                                                               ) -> None:
    """The sentence names the place."""
    with pytest.raises(WrongValue) as caught:
        client_from_json(json.dumps({"usual_pain": {"left knee": told}}))
    assert caught.value.what["where"] == f"client, usual_pain.left knee.{place}"


@pytest.mark.parametrize(("limb", "kept"), [("arm", "arm"), ("leg", "leg"), ("both", ""), (None, "")])
def test_a_side_to_rest_names_its_limb(limb: str | None, kept: str) -> None:
    """Without one it is both; another word is refused."""
    side = {"side": "left", "because": "plaster"} | ({"limb": limb} if limb else {})
    got = client_from_json(json.dumps({"rest_side": side}))
    assert (got.rest_side, got.rest_limb) == ("left", kept)
    with pytest.raises(WrongValue):
        client_from_json(json.dumps({"rest_side": side | {"limb": "toe"}}))


def test_d4_a_fall_a_flare_and_a_last_light_session_have_their_keys() -> None:
    """What is left out of them is not known, and not "no"."""
    got = diary_from_json(json.dumps({"fall": {"days_ago": 2, "hurt": False}, "flare_days": 1,
                                      "last_light": {"days_ago": 1, "rpe": 6, "target_rpe": 4}}))
    assert got.fall == Fall(2, False) and got.flare_days == 1
    assert got.last_light is not None and got.last_light.rpe == 6
    assert got.last is not None and got.last.rpe is None
    assert diary_from_json("{}").fall is None
