"""A coach's work as JSON, the `content.json` of a pack, with the same keys as the TOML that a coach writes."""
from __future__ import annotations

from typing import Annotated, Any

from pydantic import AfterValidator, Field, create_model

from app.domain.model.figure_body import FigureBody
from app.domain.model.proofreading_limits import DEFAULT_LIMITS, ProofreadingLimits, limit_bounds
from app.domain.model.rules import RuleId
from app.domain.model.source import RuleChoice, Source
from app.exchange.forms.cross_references import check_source
from app.exchange.forms.exercise_form import ExerciseForm, exercise_of, exercise_table
from app.exchange.forms.field_types import Form, Line, NameToSee, Slug, Text, becomes, matching, whole
from app.exchange.forms.json_parts import check_values
from app.exchange.forms.session_form import (
    ProgrammeForm,
    SessionForm,
    programme_of,
    programme_table,
    session_of,
    session_table,
)
from app.exchange.forms.to_json import plain, to_json
from app.exchange.forms.validation_errors import read_form_in_pieces

CONTENT = "content.json"
#: Of each kind, and values in all.
MOST_PARTS, MOST_VALUES = 2000, 1_000_000
_PARTS = Field(max_length=MOST_PARTS)


class SourceForm(Form):
    """[source]: whose work it is."""

    id: Slug
    coach: NameToSee
    title: Line = ""
    about: Text = ""
    version: Annotated[int, whole(1, 1_000_000)]
    language: Annotated[str, matching("[a-z]{2,3}(-[A-Za-z0-9]{2,8})*", "a language as en or en-GB")] = "en"
    contact: Line = ""
    whole_library: bool = False
    body: FigureBody = FigureBody.SILVER


class RulesForm(Form):
    """[rules]: a preset, and levels moved by hand."""

    preset: Slug = "usual"
    shift: dict[RuleId, int] = Field(default_factory=dict)
    spare_both_sides: bool = False


#: [proofreading]: from where on the proofreader objects. One key for each limit, within the limit's own bounds.
ProofreadingForm = create_model(
    "ProofreadingForm", __base__=Form,
    **{name: (Annotated[int, whole(least, most)], otherwise)  # type: ignore[call-overload]
       for name, (least, most, otherwise) in limit_bounds().items()},
)


class SourceHeadForm(Form):
    """`source.toml`."""

    source: SourceForm
    proofreading: Annotated[ProofreadingForm, becomes(ProofreadingLimits)] = (  # type: ignore[valid-type]
        Field(default=DEFAULT_LIMITS))
    rules: Annotated[RulesForm, becomes(RuleChoice)] = Field(default=RuleChoice())  # type: ignore[assignment]


class ContentForm(SourceHeadForm):
    """`content.json`."""

    exercises: Annotated[tuple[Annotated[ExerciseForm, AfterValidator(exercise_of)], ...], _PARTS]
    sessions: Annotated[tuple[Annotated[SessionForm, AfterValidator(session_of)], ...], _PARTS]
    programmes: Annotated[tuple[Annotated[ProgrammeForm, AfterValidator(programme_of)], ...], _PARTS]


def source_to_json(source: Source) -> bytes:
    """The source as JSON whose bytes depend on its value alone."""
    tables = {
        "exercises": [exercise_table(exercise) for exercise in source.exercises],
        "sessions": [session_table(session) for session in source.sessions],
        "programmes": [programme_table(programme) for programme in source.programmes],
    }
    return to_json(head_table(source) | tables)


def source_from_json(data: bytes) -> Source:
    """The source that `source_to_json` was given; keys that are not known are left alone.

    Raises:
        WrongValue, UnknownName: a value out of its range, or a name that nothing answers to.
        TooLarge, DamagedFile: more values than a pack's may hold, or nested too deep.
    """
    check_values(data, CONTENT, MOST_VALUES)
    form = read_form_in_pieces(ContentForm, data, CONTENT, CONTENT, dict.fromkeys(
        ("exercises", "sessions", "programmes"), MOST_PARTS))
    source = source_of(form, exercises=form.exercises, sessions=form.sessions, programmes=form.programmes)
    check_source(source, {})
    return source


def head_table(source: Source) -> dict[str, Any]:
    """The keys of `source.toml`."""
    keys = tuple(SourceForm.model_fields)
    silent = ("", False, FigureBody.SILVER)
    named = {key: value for key in keys if (value := getattr(source, key)) not in silent}
    rules = {"preset": source.rules.preset} | (
        {"shift": plain(source.rules.shift)} if source.rules.shift else {}) | (
        {"spare_both_sides": True} if source.rules.spare_both_sides else {})
    head = {"source": plain(named), "rules": rules}
    usual = plain(DEFAULT_LIMITS)
    moved = {name: limit for name, limit in plain(source.proofreading).items() if limit != usual[name]}
    return head | ({"proofreading": moved} if moved else {})


def source_of(head: SourceHeadForm, **parts: Any) -> Source:
    """The source from its head and its exercises, sessions and programmes."""
    stated = head.stated()
    return Source(**head.source.stated(), **parts, rules=stated["rules"], proofreading=stated["proofreading"])
