"""Whether the parts of a source answer to one another: ids, names and rules."""
from __future__ import annotations

from collections.abc import Mapping

from app.domain.errors import ContentError, UnknownName, WrongValue
from app.domain.model.exercise import Exercise, Mode
from app.domain.model.programme import Programme
from app.domain.model.rules import rule_table
from app.domain.model.session import Session
from app.domain.model.source import Source


def check_source(source: Source, places: Mapping[str, str]) -> None:
    """Every id once, every name answered to, the rules within bounds.

    `places` says where a thing is written, by its kind and id: {"exercise march": "exercises/legs.toml, exercise
    march"}; what is not in it is placed by kind and id alone.

    Raises:
        WrongValue, UnknownName: the first thing that is wrong, with its place.
    """
    _check_rules(source)
    exercises, sessions = source.library(), {s.id: s for s in source.sessions}
    _check_once("exercise", [e.id for e in source.exercises], places)
    _check_once("session", [s.id for s in source.sessions], places)
    _check_once("programme", [p.id for p in source.programmes], places)
    for exercise in source.exercises:
        _check_options(exercise, exercises, places)
    for session in source.sessions:
        _check_items(session, exercises, places)
    for programme in source.programmes:
        _check_weeks(programme, sessions, places)


def _check_options(exercise: Exercise, known: Mapping[str, Exercise], places: Mapping[str, str]) -> None:
    for key, options in (("easier", exercise.easier), ("harder", exercise.harder), ("swaps", exercise.swaps)):
        where = _place(places, "exercise", exercise.id, key)
        for option in options:
            _check_known("exercise", option.to, known, where)
            if option.to == exercise.id:
                raise WrongValue(where=where, value=option.to, expected="another exercise")


def _check_items(session: Session, known: Mapping[str, Exercise], places: Mapping[str, str]) -> None:
    for number, (_, item) in enumerate(session.items(), 1):
        where = _place(places, "session", session.id, f"item {number}")
        _check_known("exercise", item.exercise, known, where)
        if item.reps and known[item.exercise].mode is Mode.HOLD:
            expected = "work_s or hold_s, since this exercise is held"
            raise WrongValue(where=where, value=f"reps {item.reps}", expected=expected)


def _check_weeks(programme: Programme, known: Mapping[str, Session], places: Mapping[str, str]) -> None:
    for number, week in enumerate(programme.weeks, 1):
        for session_id in week.sessions:
            _check_known("session", session_id, known, _place(places, "programme", programme.id, f"week {number}"))


def _check_rules(source: Source) -> None:
    try:
        rule_table(source.rules.preset, source.rules.shift)
    except ContentError as error:
        error.what.setdefault("where", "rules.preset")
        raise


def _check_once(kind: str, ids: list[str], places: Mapping[str, str]) -> None:
    seen: set[str] = set()
    for one in ids:
        if one in seen:
            raise WrongValue(where=_place(places, kind, one, "id"), value=one, expected="an id that is used once")
        seen.add(one)


def _check_known(kind: str, name: str, known: Mapping[str, object], where: str) -> None:
    if name not in known:
        raise UnknownName(kind=kind, name=name, known=tuple(sorted(known)), where=where)


def _place(places: Mapping[str, str], kind: str, one: str, key: str) -> str:
    return f"{places.get(f'{kind} {one}', f'{kind} {one}')}, {key}"
