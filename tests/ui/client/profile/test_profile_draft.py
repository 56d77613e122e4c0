"""What is entered becomes what is kept."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.model.body import Region, Spot
from app.domain.model.client import Client, Condition
from app.domain.model.person import Person
from app.ui.client.profile.profile_draft import (
    ProfileDraft,
    birth_year,
    draft_of,
    finished,
    weights_g,
    weights_words,
    with_country,
)
from app.ui.client.profile.questions import WELCOME


@pytest.mark.parametrize(("words", "grams"), [
    ("2, 4", (2000, 4000)), ("4 2", (2000, 4000)), ("2.5;5", (2500, 5000)), ("2,", (2000,)), ("", ()),
    ("two", None), ("0", None), ("80", None), ("-2", None), ("nan", None), ("inf", None),
])
def test_weights(words: str, grams: tuple[int, ...] | None) -> None:
    """In kilograms, lightest first, or not at all."""
    assert weights_g(words, pounds=False) == grams


def test_pounds_there_and_back() -> None:
    """What was written is what is shown again."""
    grams = weights_g("5, 10", pounds=True)
    assert grams == (2268, 4536)
    assert weights_words(grams, pounds=True) == "5, 10"


@pytest.mark.parametrize(("words", "year"), [
    ("1950", 1950), (" 1950 ", 1950), ("", None), ("1850", None), ("2030", None), ("19x0", None),
])
def test_birth_year(words: str, year: int | None) -> None:
    """One that can be, or none."""
    assert birth_year(words, 2026) == year


def test_a_country_s_number_waits_to_be_confirmed() -> None:
    """A number that changes is no longer confirmed; one that was typed stays."""
    confirmed = replace(ProfileDraft(), number="112", number_right=True)
    assert with_country(confirmed, "UK").number == "999"
    assert not with_country(confirmed, "UK").number_right
    assert with_country(confirmed, "nl").number_right
    assert with_country(replace(confirmed, number="144", number_typed=True), "UK").number == "144"


def test_who_cannot_get_up_is_limited() -> None:
    """The answer stands as a circumstance and as a condition."""
    body = finished(replace(ProfileDraft(), alone=True, rises=False), 2026).body
    assert (body.alone, body.rises_unaided) == (True, False)
    assert Condition.CANNOT_RISE in body.conditions
    assert Condition.CANNOT_RISE not in finished(replace(ProfileDraft(), rises=True), 2026).body.conditions


def test_without_dumbbells_there_are_no_weights() -> None:
    """Whatever was typed before."""
    person = replace(Person("", "Ada"), body=Client(kit=frozenset({"chair"})))
    assert finished(replace(ProfileDraft(person), weights="2, 4"), 2026).body.weights_g == ()


def test_changing_nothing_changes_nothing() -> None:
    """What the settings were not asked to change stays as it was."""
    ada = Person(
        "ada", "Ada", body=Client({Spot(Region.KNEE, "left"): 1}, frozenset({Condition.INSULIN, Condition.CANNOT_RISE}),
                                  alone=True, rises_unaided=False, kit=frozenset({"dumbbell"}), weights_g=(2000, 2500)),
        birth_year=1950, led_by="Jo", country="NL", emergency_contact="Jo", told_by="Dr Moss",
    )
    assert finished(draft_of(ada), 2026) == ada
    assert finished(draft_of(replace(ada, body=Client())), 2026).body == Client()


def test_nothing_is_answered_beforehand() -> None:
    """A fresh draft lacks something on every page that must be answered."""
    lacking = {q.key for q in WELCOME if q.lacks(ProfileDraft(), 2026)}
    assert lacking == {"names", "emergency", "around", "stops"}
    blank = ProfileDraft()
    assert blank.person.sends == frozenset() and not blank.body.conditions and blank.ticked is None
