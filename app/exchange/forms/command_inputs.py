"""Client, place and diary files for the command line: plain JSON, written by hand, so an unknown key is refused."""
from __future__ import annotations

import json
from datetime import date
from typing import Annotated, Any, TypeVar

from pydantic import model_validator

from app.domain.errors import UnknownName, UnreadableSource, WrongValue
from app.domain.model.body import Spot
from app.domain.model.client import STARTER_PLACES, AxisLimit, Client, Condition, ConditionTerms, Place, UsualPain
from app.domain.model.diary import AnsweredBy, Diary, Fall, Last, Symptom
from app.domain.model.exercise import Axis, Limb, Space
from app.domain.model.thresholds import CLEAN_NEEDED, USUAL_PAIN_MOST
from app.exchange.forms.field_types import (
    BODY_SPOTS,
    BY_HAND,
    Demand,
    DoseLevel,
    Form,
    Line,
    Name,
    PainBySpot,
    Slug,
    SpareBySpot,
    Word,
    ZeroToTen,
    becomes,
    number,
    refuse,
    whole,
)
from app.exchange.forms.validation_errors import F, read_form

V = TypeVar("V")
Item = Annotated[int, whole(1, 5)]
Hours = Annotated[dict[str, Annotated[int, whole(0, 10_000)]], BODY_SPOTS]
Rise = Annotated[dict[str, Annotated[int, whole(-10, 10)]], BODY_SPOTS]
GRAMS = 1000
MOST_KG = 60


class UsualPainFileForm(Form):
    """A long-standing level, agreed with a named kind of clinician until a date; all three are needed."""

    level: Annotated[int, whole(0, USUAL_PAIN_MOST)]
    agreed_with: Line = ""
    until: date | None = None


BOTH_LIMBS = "both"


class RestSideForm(Form):
    """A side that is not to be trained, and why."""

    side: str
    limb: str = BOTH_LIMBS
    because: Line = ""


class TermsFileForm(Form):
    """Of a condition: when it began, who said so, until when, and whose yes ended its first limits."""

    since: date | None = None
    said_by: Line = ""
    until: date | None = None
    cleared_by: Line = ""
    cleared: date | None = None

    @model_validator(mode="after")
    def _yes_with_a_name(self) -> TermsFileForm:
        if (self.cleared is None) is not (not self.cleared_by.strip()):
            refuse("cleared with its day and cleared_by with who said so, both or neither")
        return self


class AxisLimitFileForm(Form):
    """A limit on any axis, with who said so and, if known, until when."""

    axis: Axis
    at_most: Demand
    said_by: Name
    until: date | None = None


class ClientForm(Form):
    """A client file. Everything may be left out."""

    spare: SpareBySpot | None = None
    conditions: tuple[str, ...] = ()
    limits: dict[Axis, Demand] | None = None
    usual_pain: Annotated[dict[str, UsualPainFileForm], BODY_SPOTS] | None = None
    alone: bool = False
    rises_unaided: bool = True
    shown: frozenset[Slug] = frozenset()
    same_as_always: bool = False
    kit: frozenset[Word] | None = None
    weights_kg: tuple[Annotated[float, number(0, MOST_KG)], ...] | None = None
    chosen: dict[Slug, Slug] | None = None
    rest_side: RestSideForm | None = None
    terms: dict[str, Annotated[TermsFileForm, becomes(ConditionTerms)]] | None = None
    told_limits: tuple[Annotated[AxisLimitFileForm, becomes(AxisLimit)], ...] = ()


class PlaceFileForm(Form):
    """A place file. Its kit stands in for the client's; `noise` true means that noise is allowed."""

    name: Line = ""
    kit: frozenset[Word] | None = None
    floor: bool = True
    noise: bool = True
    space: Space = Space.LARGE
    bed: bool = True
    minutes: Annotated[int, whole(1, 240)] | None = None


class LastForm(Form):
    """The last session."""

    days_ago: Annotated[int, whole(0, 10_000)] | None = None
    rpe: ZeroToTen | None = None
    target_rpe: ZeroToTen | None = None
    completed: Annotated[float, number(0, 1)] | None = None
    pain: ZeroToTen | None = None
    pain_at: PainBySpot | None = None
    interrupted: bool = False


def _last(form: LastForm) -> Last:
    stated = form.stated()
    share = stated.pop("completed")
    return Last(completed=None if share is None else int(share * 100 + 1e-6), **{k: v for k, v in stated.items()
                                                                                if v is not None})


class FallForm(Form):
    """The last fall."""

    days_ago: Annotated[int, whole(0, 10_000)]
    hurt: bool


class DiaryForm(Form):
    """A diary file. An absent key is an unanswered question."""

    symptoms: frozenset[Symptom] | None = None
    pain: PainBySpot | None = None
    pain_rise: Rise | None = None
    pain_hours: Hours | None = None
    soreness: PainBySpot | None = None
    soreness_hours: Hours | None = None
    slept: Item | None = None
    energy: Item | None = None
    calm: Item | None = None
    last: LastForm | None = None
    last_light: LastForm | None = None
    first_session: bool = False
    previous_level: DoseLevel = 0
    cleared: bool = True
    clean_sessions: Annotated[int, whole(0, 1000)] = CLEAN_NEEDED
    answered_by: AnsweredBy = AnsweredBy.SELF
    fall: FallForm | None = None
    flare_days: Annotated[int, whole(1, 3)] | None = None


def _condition(words: str, where: str) -> Condition:
    slug = words.strip().lower().replace(" ", "_").replace("-", "_")
    if slug not in {c.value for c in Condition}:
        raise UnknownName(kind="condition", name=words, known=tuple(c.value for c in Condition), where=where)
    return Condition(slug)


def _stated(form: Form) -> dict[str, Any]:
    """What was said; a key left away takes the domain's own default."""
    return {key: value for key, value in form.stated().items() if value is not None}


def _agreed(form: UsualPainFileForm, where: str) -> UsualPain:
    """The agreement. One that names nobody or never ends is none, and is refused rather than dropped."""
    if not form.agreed_with.strip():
        raise WrongValue(where=f"{where}.agreed_with", value=form.agreed_with, expected="who it was agreed with")
    if form.until is None:
        raise WrongValue(where=f"{where}.until", value=None, expected="the day on which it ends, as 2027-03-31")
    return UsualPain(form.level, form.agreed_with.strip(), form.until)


def client_from_json(data: str, where: str = "client") -> Client:
    """A client from the text of a client file.

    Raises:
        WrongValue, UnknownName: what it says cannot be, with its place.
    """
    stated = _stated(_read(ClientForm, data, where))
    stated["conditions"] = frozenset(_condition(c, f"{where}, conditions") for c in stated["conditions"])
    told: dict[str, ConditionTerms] = stated.pop("terms", {})
    stated["terms"] = {_condition(name, f"{where}, terms"): terms for name, terms in told.items()}
    usual: dict[Spot, UsualPainFileForm] = stated.pop("usual_pain", {})
    stated["usual_pain"] = {spot: _agreed(form, f"{where}, usual_pain.{spot}") for spot, form in usual.items()}
    weights = stated.pop("weights_kg", None)
    if weights is not None:
        stated["weights_g"] = tuple(sorted(round(w * GRAMS) for w in weights if w > 0))
    side: RestSideForm | None = stated.pop("rest_side", None)
    if side:
        if side.side not in ("left", "right"):
            raise WrongValue(where=f"{where}, rest_side.side", value=side.side, expected="left or right")
        if side.limb not in (Limb.ARM.value, Limb.LEG.value, BOTH_LIMBS):
            raise WrongValue(where=f"{where}, rest_side.limb", value=side.limb, expected="arm, leg or both")
        stated |= {"rest_side": side.side, "rest_side_because": side.because,
                   "rest_limb": "" if side.limb == BOTH_LIMBS else side.limb}
    if Condition.ONE_SIDE in stated["conditions"] and not side:
        raise WrongValue(where=f"{where}, rest_side", value=None, expected="the side not to train, and why")
    return Client(**stated)


def place_from_json(data: str, where: str = "place") -> Place:
    """A place from the text of a place file.

    Raises:
        WrongValue, UnknownName: what it says cannot be, with its place.
    """
    return Place(**_stated(_read(PlaceFileForm, data, where)))


def place_named(name: str, places: tuple[Place, ...] = STARTER_PLACES) -> Place:
    """The place of that name, upper or lower case alike.

    Raises:
        UnknownName: there is none.
    """
    wanted = name.strip().lower().replace("_", " ").replace("-", " ")
    for place in places:
        if place.name.lower() == wanted:
            return place
    raise UnknownName(kind="place", name=name, known=tuple(p.name for p in places))


def diary_from_json(data: str, where: str = "diary") -> Diary:
    """A diary from the text of a diary file. `"last": null` says that there was no session yet.

    Raises:
        WrongValue, UnknownName: what it says cannot be, with its place.
    """
    form = _read(DiaryForm, data, where)
    stated = _stated(form)
    stated["last"] = _last(form.last) if form.last else Last()
    if form.fall:
        stated["fall"] = Fall(form.fall.days_ago, form.fall.hurt)
        if form.fall.hurt and "cleared" not in form.model_fields_set:
            stated["cleared"] = False
    if form.last_light:
        stated["last_light"] = _last(form.last_light)
    if form.last is None and "last" in form.model_fields_set:
        stated["first_session"] = True
    return Diary(**stated)


def _read(form: type[F], data: str, where: str) -> F:
    _one_key_once(data, where)
    return read_form(form, data, where, BY_HAND)


def _one_key_once(data: str, where: str) -> None:
    """A key given twice would silently lose the first."""
    def once(pairs: list[tuple[str, V]]) -> dict[str, V]:
        named = dict(pairs)
        if len(named) < len(pairs):
            keys = [key for key, _ in pairs]
            twice = next(k for k in keys if keys.count(k) > 1)
            raise WrongValue(where=f"{where}, {twice}", value="twice", expected="each key once")
        return named
    try:
        json.loads(data, object_pairs_hook=once)
    except (json.JSONDecodeError, RecursionError) as error:
        raise UnreadableSource(where=where, why="it is no JSON") from error


