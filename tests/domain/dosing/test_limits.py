"""Today's caps: each condition, area, limit and pain, and the lowest of them."""
from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from app.domain.dosing.limits import caps_today, limits_today
from app.domain.dosing.sore_places import ALL
from app.domain.errors import UnknownName
from app.domain.model.body import BODY_REGIONS, PAIRED_REGIONS, REGION_AXES, Region, Spot, parse_body_spot, parse_spot
from app.domain.model.client import STARTER_PLACES, Client, Condition, Place
from app.domain.model.diary import Last
from app.domain.model.exercise import Axis
from tests.domain import rulebook
from tests.domain import strategies as own
from tests.domain.dosing.test_dose import KNEE, but
from tests.domain.shipped import TODAY, WELL, library
from tests.sampling import examples


@settings(max_examples=examples(150, 4_000))
@given(own.diaries | own.mild_diaries, own.bodies)
def test_caps_are_those_of_the_rulebook(diary: object, client: Client) -> None:
    """Worked out a second time, axis by axis."""
    second = rulebook.caps(client, diary)  # type: ignore[arg-type]
    assert caps_today(client, diary, TODAY) == {a: second.get(a.value, ALL) for a in Axis}  # type: ignore[arg-type]


def test_nothing_forbids_anything_for_somebody_well() -> None:
    """All of it, on every axis."""
    assert set(caps_today(Client(), WELL, TODAY).values()) == {ALL}


@pytest.mark.parametrize("condition", Condition)
def test_each_condition_caps_what_the_table_says(condition: Condition) -> None:
    """And nothing else."""
    caps = caps_today(Client(conditions=frozenset({condition})), None, TODAY)
    assert {a.value: c for a, c in caps.items() if c < ALL} == rulebook.CONDITION.get(condition.value, {})


@pytest.mark.parametrize("region", Region)
def test_each_area_caps_its_own_axes(region: Region) -> None:
    """Every region has some; left, right or neither are alike."""
    assert {a.value for a in REGION_AXES[region]} == set(rulebook.REGION[region.value].split())
    for side in ("", "left", "right"):
        caps = caps_today(Client(spare={Spot(region, side): 1}), None, TODAY)
        getting_up = {Axis.FLOOR_TRANSFER} if region in (Region.HIP, Region.BACK) else set()
        assert {a for a, c in caps.items() if c < ALL} == {*REGION_AXES[region], *getting_up}
        assert set(caps.values()) <= {1, ALL}


def test_not_answering_frees_no_joint_that_hurt_in_a_last_session() -> None:
    """Of either kind, at its worst; an answer counts in its place."""
    last, light = Last(3, 5, 5, 100, pain_at={KNEE: 4}), Last(1, 3, 3, 100, pain_at={KNEE: 6})
    unsaid = replace(WELL, pain=None, last=last)
    for diary, cap in ((replace(unsaid, last_light=light), 0), (unsaid, 1), (replace(unsaid, pain={}), ALL)):
        assert caps_today(Client(), diary, TODAY)[Axis.DEEP_KNEE_FLEXION] == cap


def test_the_lowest_cap_wins() -> None:
    """From whichever side it comes."""
    client = Client(spare={KNEE: 2}, limits={Axis.KNEELING: 1}, conditions=frozenset({Condition.PELVIC_FLOOR}))
    caps = caps_today(client, but(pain={KNEE: 5}), TODAY)
    assert (caps[Axis.KNEELING], caps[Axis.IMPACT], caps[Axis.DEEP_KNEE_FLEXION], caps[Axis.GRIP]) == (1, 1, 1, 3)
    assert caps_today(replace(client, limits={Axis.KNEELING: 0}), but(pain={KNEE: 5}), TODAY)[Axis.KNEELING] == 0


def test_the_room_caps_floor_and_noise_apart_from_the_body() -> None:
    """So that the reason names the room."""
    limits = limits_today(Client(), Place(floor=False, noise=False), None, frozenset(), TODAY)
    assert set(limits.caps.values()) == {ALL}
    assert limits.room_caps == {Axis.FLOOR_TRANSFER: 1, Axis.IMPACT: 1}


@pytest.mark.parametrize(("room", "client", "kit"), [
    (None, None, {"of the session"}), (None, {"chair"}, {"chair"}), ({"band"}, {"chair"}, {"band"}),
    (set(), {"chair"}, set())])
def test_whose_kit_counts(room: set[str] | None, client: set[str] | None, kit: set[str]) -> None:
    """The room's before the client's before all that the session needs."""
    place = Place(kit=None if room is None else frozenset(room))
    body = Client(kit=None if client is None else frozenset(client))
    assert limits_today(body, place, None, frozenset({"of the session"}), TODAY).kit == kit


def test_starter_rooms_are_what_their_names_say() -> None:
    """A quiet hotel room with a chair; a garage without a floor to lie on."""
    home, hotel, garage = STARTER_PLACES
    assert (home.kit, home.floor, home.noise) == (None, True, True)
    assert (hotel.kit, hotel.noise, hotel.space) == ({"chair"}, False, "small")
    assert (garage.floor, garage.noise) == (False, True)


def test_every_shipped_exercise_is_rated_on_every_axis() -> None:
    """0–3, and whoever gets down is rated for it."""
    for exercise in library().values():
        assert set(exercise.demand) == set(Axis)
        assert set(exercise.demand.values()) <= {0, 1, 2, 3}
        assert not exercise.on_floor or exercise.asks(Axis.FLOOR_TRANSFER) >= 2


@pytest.mark.parametrize(("words", "spot"), [
    ("left knee", Spot(Region.KNEE, "left")), ("LEFT_KNEE", Spot(Region.KNEE, "left")), ("back", Spot(Region.BACK)),
    ("balance", Spot(Region.BALANCE)), (" right  wrist ", Spot(Region.WRIST, "right"))])
def test_spots_as_people_write_them(words: str, spot: Spot) -> None:
    """And back."""
    assert parse_spot(words) == spot == parse_spot(str(spot))
    assert spot.mirrored().mirrored() == spot


@pytest.mark.parametrize("words", ["", "left", "knee left", "upper back", "left left knee", "nose"])
def test_what_is_no_spot_is_refused_with_all_that_are(words: str) -> None:
    """By name."""
    with pytest.raises(UnknownName) as caught:
        parse_spot(words)
    assert caught.value.what["known"] == tuple(r.value for r in Region)


def test_balance_and_floor_cannot_hurt() -> None:
    """They are spared, not sore."""
    assert all(parse_body_spot(r.value).region is r for r in BODY_REGIONS)
    for words in ("balance", "floor"):
        with pytest.raises(UnknownName):
            parse_body_spot(words)
    assert set(BODY_REGIONS) - PAIRED_REGIONS == {Region.NECK, Region.BACK}


@pytest.mark.parametrize(("one", "other", "meets"), [
    ("knee", "left knee", True), ("left knee", "left knee", True), ("left knee", "right knee", False),
    ("knee", "hip", False), ("back", "back", True)])
def test_a_region_without_a_side_may_be_either(one: str, other: str, meets: bool) -> None:
    """Both ways round."""
    a, b = parse_spot(one), parse_spot(other)
    assert a.meets(b) is b.meets(a) is meets
