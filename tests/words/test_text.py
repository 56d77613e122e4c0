"""Every sentence that screens and commands share can be said, of anything that can happen."""
from __future__ import annotations

import ast
import importlib
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import app.main  # noqa: F401  so that every subclass of AppError is known
from app.domain import errors
from app.domain.errors import AppError
from app.domain.figure.checking.figure_finding import FigureCheck, FigureFinding
from app.domain.model.body import Region, Spot
from app.domain.model.diary import Symptom
from app.domain.model.exercise import Axis
from app.domain.model.plan import Dose, LeftOut, Reason, Substitution
from app.domain.model.rules import RuleId
from app.exchange.forms import command_inputs
from app.words import errors as error_words
from app.words import reasons, text
from tests.domain import strategies as own
from tests.domain.dosing.test_dose import but
from tests.domain.shipped import SESSIONS, WELL, compiled, library, shipped
from tests.sampling import examples

ROOT = Path(__file__).resolve().parents[2]
TEXTS = sorted(p for p in Path(text.__file__).parent.rglob("*.py") if p.name != "__init__.py")
GROUPS = (AppError, errors.ContentError, errors.FileError, errors.StorageError, errors.SecretError,
          errors.DeviceError)
BECAUSE = (*(a.value for a in Axis), "kit", "floor", "noise", "space", "weight", "support", "side")
#: One value for each thing that an error may tell.
SAID: dict[str, object] = {
    "kind": "session", "name": "march.evenload-pack", "known": ("a", "b"), "where": "legs.toml, item 2", "value": 3,
    "expected": "a whole number", "why": "it ends too soon", "session": "hotel-room", "least_s": 800, "asked_s": 300,
    "found": 3, "who": "Marit Voss", "limit": "200 MB", "entry": "../x", "path": "evenload.db",
    "kept": "evenload.db.damaged", "port": 8550, "theme": "dark", "words": "soft", "ground": "paper",
    "words_colour": "#777777", "ground_colour": "#FFFFFF", "ratio": 4.48, "least": 7.0, "most": 8, "minutes": 2,
    "findings": (FigureFinding(FigureCheck.LIMIT, 12.0, 0.5, False, "r.knee 147 at 1.20 s"),
                 FigureFinding(FigureCheck.GAP, 2.0, 1.0, False)),
}


def assert_plain(said: str) -> None:
    """A sentence for people: begun and ended as one, and no piece of a program in it."""
    assert said.endswith((".", "!", "?")), said
    assert not re.search(r"\{'|\['|\(\)|[A-Z]\w+\.[A-Z_]{2,}|<\w|\bNone\b|object at|Spot\(|frozenset|__", said), said
    assert "  " not in said


def families(kind: type[AppError]) -> Iterator[type[AppError]]:
    """An error and all its kinds."""
    yield kind
    for below in kind.__subclasses__():
        yield from families(below)


KINDS = sorted(set(families(AppError)) - set(GROUPS), key=lambda k: k.__name__)


@pytest.mark.parametrize("kind", KINDS)
def test_every_error_has_wording_of_its_own(kind: type[AppError]) -> None:
    """From what its docstring says that it tells, and nothing else."""
    assert kind in error_words.ERRORS
    tells = [word.strip() for word in (kind.__doc__ or "").partition(":")[0].split(",")]
    error = kind(**{name: SAID[name] for name in tells if name in SAID})
    assert_plain(error_words.error_text(error))


@pytest.mark.parametrize("kind", GROUPS)
def test_an_error_that_nobody_worded_still_gets_a_sentence(kind: type[AppError]) -> None:
    """Never a traceback."""
    assert_plain(error_words.error_text(kind()))


def test_a_subclass_that_comes_later_speaks_as_its_parent() -> None:
    """Until it has words of its own."""
    class Later(errors.TooShort):
        """For this test."""

    assert "hotel-room" in error_words.error_text(Later(session="hotel-room", least_s=61, asked_s=60))
    assert "at least 2 minutes" in error_words.error_text(Later(session="x", least_s=61, asked_s=60))


#: Without the quote that a Python value would be told by.
words = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="'"), max_size=5)
scalars = st.none() | st.booleans() | st.integers(-5, 20) | st.floats(-5, 20) | words
values = scalars | st.lists(scalars, max_size=2) | st.dictionaries(words, scalars, max_size=2)
keys = st.sampled_from((
    "spare", "conditions", "limits", "usual_pain", "alone", "kit", "weights_kg", "chosen", "rest_side", "floor",
    "noise", "space", "minutes", "symptoms", "pain", "pain_rise", "soreness", "slept", "last", "previous_level",
    "cleared", "answered_by", "nonsense"))
READERS = (command_inputs.client_from_json, command_inputs.place_from_json, command_inputs.diary_from_json)


@settings(max_examples=examples(200, 10_000))
@given(st.sampled_from(READERS), st.dictionaries(keys, values, max_size=3) | values)
def test_whatever_is_wrong_in_a_hand_written_file_is_said_in_one_plain_sentence(reader: Any, content: object) -> None:
    """Or it is read; nothing else happens."""
    try:
        reader(json.dumps(content))
    except AppError as error:
        said = error_words.error_text(error)
        assert said.isprintable() and said.endswith(".") and "Region." not in said and "{'" not in said
        assert "None" not in said or "None" in json.dumps(content)


@pytest.mark.parametrize("junk", ["", "{", "[1", '{"a": 1, "a": 2}', "nul", '"x"', "[" * 5000, '{"slept": NaN}'])
@pytest.mark.parametrize("reader", READERS)
def test_what_is_no_json_of_ours_is_said_too(reader: Any, junk: str) -> None:
    """One sentence."""
    with pytest.raises(AppError) as caught:
        reader(junk)
    assert_plain(error_words.error_text(caught.value))


# ------------------------------------------------------------------ reasons

REASONS: dict[RuleId, list[Reason]] = {
    RuleId.LIGHTER_WEEK: [Reason(RuleId.LIGHTER_WEEK, 0, (("rounds", n),)) for n in (1, 2)],
    RuleId.MINUTES: [Reason(RuleId.MINUTES, 0, (("minutes", 20), ("rounds", n))) for n in (1, 3)],
    RuleId.NO_CHECK_IN: [Reason(RuleId.NO_CHECK_IN, 1)],
}


@pytest.mark.parametrize("rule", RuleId)
def test_every_rule_is_worded(rule: RuleId) -> None:
    """Each can be told to a client."""
    assert rule in reasons.REASONS
    for reason in REASONS.get(rule, []):
        assert_plain(reasons.reason_text(reason))


@settings(max_examples=examples(120, 3_000))
@given(own.diaries, own.bodies, own.rooms, st.none() | st.integers(12, 30), own.session_ids, st.booleans())
def test_whatever_a_session_comes_to_can_be_said(diary: Any, client: Any, room: Any, minutes: int | None,
                                                 session: str, lighter: bool) -> None:
    """Its dose, every reason, every stand-in and everything left out."""
    try:
        plan = compiled(session, client, type(room)(minutes=minutes), diary, lighter_week=lighter)
    except errors.TooShort as short:
        assert_plain(error_words.error_text(short))
        return
    names = {e.id: e.name for e in library().values()}
    for reason in plan.dose.reasons:
        assert_plain(reasons.reason_text(reason))
    for change in plan.substitutions:
        assert_plain(text.substitution_text(change, names))
    for out in plan.left_out:
        assert_plain(text.left_out_text(out))
    assert_plain(text.dose_sentence(plan.dose))
    if plan.steps:
        assert text.session_sentence(plan, []).endswith("no kit needed")


def test_a_reason_names_the_joint_the_number_and_the_day() -> None:
    """Plainly."""
    knee = Spot(Region.KNEE, "left")
    said = {reasons.reason_text(r) for diary in (
        but(pain={knee: 6}), but(last_pain=4), but(pain_rise={knee: 1}), but(pain_rise={knee: 2}), but(last_days_ago=9),
        but(symptoms=frozenset({Symptom.HEAD_COLD})), but(soreness={knee: 6}, soreness_hours={knee: 80}))
        for r in compiled(diary=diary).dose.reasons}
    for piece in ("Your left knee hurts 6 out of 10 today", "Pain in a joint reached 4 out of 10", "1 point worse",
                  "2 points worse", "9 days ago", "a head cold", "80 hours"):
        assert any(piece in sentence for sentence in said), piece


@pytest.mark.parametrize("level", range(9))
def test_every_level_is_worded(level: int) -> None:
    """What today amounts to."""
    assert_plain(text.dose_sentence(Dose(level, 2, 90, 110, 100)))
    assert len(text.LEVEL_WORDS) == 9


@pytest.mark.parametrize("because", BECAUSE)
def test_all_that_can_speak_against_an_exercise_is_worded(because: str) -> None:
    """None of it by its id."""
    names = {"a": "Lift", "b": "Lean"}
    for said in (text.substitution_text(Substitution("a", "b", (because, "kneeling")), names),
                 text.left_out_text(LeftOut("a", (because,)))):
        assert_plain(said)
        assert ("_" not in said and "Instead of “Lift”" in said) or said.startswith("Left out")
    assert because in text.AXIS_WORDS


def test_a_choice_and_a_lack_of_time_have_their_own_words() -> None:
    """They are nobody's limits."""
    assert "as you chose" in text.substitution_text(Substitution("a", "b", ("choice",)), {})
    assert "no time" in text.left_out_text(LeftOut("a", ("minutes",)))


# ------------------------------------------------------------------ what is never said

def literals(path: Path) -> Iterator[str]:
    """Every piece of text in a module that is not a docstring."""
    tree = ast.parse(path.read_text("utf-8"))
    docs = {id(node.body[0].value) for node in ast.walk(tree)
            if isinstance(node, ast.Module | ast.FunctionDef | ast.ClassDef) and node.body
            and isinstance(node.body[0], ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.value


@pytest.mark.parametrize("path", TEXTS, ids=lambda p: p.stem)
def test_nothing_is_called_safe_recovered_or_monitored_and_nobody_is_pressed(path: Path) -> None:
    """No such claim, no readiness in percent, no streaks, badges, rings or leaderboards."""
    claims = re.compile(
        r"\b(is|are|be|stay|perfectly|quite) safe\b|\brecovered\b|(?<!not )(?<!n’t )\bmonitor(ed|ing)?\b|"
        r"\breadiness\b.*%|\bstreak|\bbadge|\bleaderboard|\bno risk\b|\bguarantee", re.IGNORECASE)
    for said in literals(path):
        assert not claims.search(said) or "where you are safe" in said, said


def test_the_wording_of_every_part_can_be_loaded_without_a_screen() -> None:
    """It knows no Flet."""
    for path in TEXTS:
        inside = path.relative_to(ROOT).with_suffix("")
        module = importlib.import_module(".".join(inside.parts))
        assert not hasattr(module, "ft") and not hasattr(module, "flet")


def test_lists_counts_and_lengths_read_as_people_write_them() -> None:
    """The small pieces that sentences are made of."""
    assert [text.listed(w) for w in ([], ["a"], ["a", "b"], ["a", "b", "c"], ["a", "a"])] == [
        "", "a", "a and b", "a, b and c", "a"]
    assert [text.count(n, "round") for n in (0, 1, 2)] == ["0 rounds", "1 round", "2 rounds"]
    assert [text.duration(s) for s in (45, 60, 89, 91, 1320)] == [
        "45 seconds", "1 minute", "1 minute", "2 minutes", "22 minutes"]
    assert text.kit_sentence(["chair", "dumbbell"]) == "kit: a chair and dumbbells"
    assert all(shipped().session(s) and compiled(s, diary=WELL).steps for s in SESSIONS)
