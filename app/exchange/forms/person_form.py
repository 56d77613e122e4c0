"""A person as a return carries them: name, body, limits, kit, places and what they agreed to send."""
from __future__ import annotations

from datetime import date
from typing import Annotated, Any

from pydantic import Field

from app.domain.model.client import AxisLimit, Client, Condition, ConditionTerms, Place, UsualPain
from app.domain.model.exercise import Axis, Space
from app.domain.model.person import Person
from app.domain.model.thresholds import USUAL_PAIN_MOST
from app.exchange.forms.field_types import (
    BODY_SPOTS,
    Demand,
    Form,
    Id,
    SpareBySpot,
    Text,
    Word,
    becomes,
    whole,
)
from app.exchange.forms.to_json import cleaned, plain

Kit = Annotated[frozenset[Word], Field(max_length=200)]
Slugs = Annotated[frozenset[Word], Field(max_length=5000)]


class ReturnedUsualPainForm(Form):
    """A level agreed with a clinician."""

    level: Annotated[int, whole(0, USUAL_PAIN_MOST)]
    agreed_with: Text
    until: date


class ReturnedPlaceForm(Form):
    """What a room allows."""

    name: Text = ""
    kit: Kit | None = None
    floor: bool = True
    noise: bool = True
    space: Space = Space.LARGE
    minutes: Annotated[int, whole(1, 600)] | None = None
    bed: bool = True


class TermsForm(Form):
    """When a condition began, who said so and until when, and whose yes ended its first limits."""

    since: date | None = None
    said_by: Text = ""
    until: date | None = None
    cleared_by: Text = ""
    cleared: date | None = None


class AxisLimitForm(Form):
    """A limit on one axis, with who said so."""

    axis: Axis
    at_most: Demand
    said_by: Text
    until: date | None = None


class BodyForm(Form):
    """What a session is compiled for."""

    spare: SpareBySpot = Field(default_factory=dict)
    conditions: frozenset[Condition] = frozenset()
    limits: dict[Axis, Demand] = Field(default_factory=dict)
    usual_pain: Annotated[dict[str, Annotated[ReturnedUsualPainForm, becomes(UsualPain)]], BODY_SPOTS] = Field(
        default_factory=dict)
    alone: bool = False
    rises_unaided: bool = True
    shown: Slugs = frozenset()
    same_as_always: bool = False
    kit: Kit | None = None
    weights_g: Annotated[tuple[Annotated[int, whole(1, 60_000)], ...], Field(max_length=200)] | None = None
    chosen: dict[Word, Word] = Field(default_factory=dict)
    rest_side: Annotated[str, Field(pattern="^(left|right)?$")] = ""
    rest_side_because: Text = ""
    rest_limb: Annotated[str, Field(pattern="^(arm|leg)?$")] = ""
    held: Slugs = frozenset()
    terms: dict[Condition, Annotated[TermsForm, becomes(ConditionTerms)]] = Field(default_factory=dict)
    told_limits: Annotated[tuple[Annotated[AxisLimitForm, becomes(AxisLimit)], ...], Field(max_length=200)] = ()


class PersonForm(Form):
    """Who it is. The emergency contact and number stay on the device."""

    id: Id
    name: Text
    body: Annotated[BodyForm, becomes(Client)]
    places: Annotated[tuple[Annotated[ReturnedPlaceForm, becomes(Place)], ...], Field(max_length=100)] = ()
    place: Text = ""
    birth_year: Annotated[int, whole(1900, 2200)] | None = None
    country: Text = ""
    pounds: bool = False
    goals: Text = ""
    led_by: Text = ""
    sends: frozenset[Word] = frozenset()
    screened: date | None = None
    waiting: frozenset[Word] = frozenset()
    answered_list: Annotated[int, whole(1, 99)] = 1
    told_by: Text = ""
    coach_key: Text = ""
    programme: Text = ""
    started: date | None = None
    sex: Annotated[str, Field(pattern="^(woman|man)?$")] = ""


def person_table(person: Person) -> dict[str, Any]:
    """The keys of a person that travel, and no other."""
    table: dict[str, Any] = cleaned(plain(person))
    return {key: table[key] for key in PersonForm.model_fields if key in table}

