"""A coach's source: a folder of TOML to read and write by hand. What is in it: `SOURCE.md` beside this file."""
from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

import tomli_w

from app.domain.errors import UnknownName, UnreadableSource, WrongValue
from app.domain.model.source import Source
from app.exchange.forms.content import SourceHeadForm, head_table, source_of
from app.exchange.forms.cross_references import check_source
from app.exchange.forms.exercise_form import ExerciseForm, exercise_of, exercise_table
from app.exchange.forms.field_types import BY_HAND
from app.exchange.forms.session_form import (
    ProgrammeForm,
    SessionForm,
    programme_of,
    programme_table,
    session_of,
    session_table,
    with_usual_steps,
    without_usual_steps,
)
from app.exchange.forms.toml_file import read_toml
from app.exchange.forms.validation_errors import F, read_form

T = TypeVar("T")

HEAD = "source.toml"
EXERCISES, SESSIONS, PROGRAMMES = "exercises", "sessions", "programmes"
#: Folders beside the TOML whose files go into the pack as they are; the poses in `figures/` are `figures.py`'s.
MEDIA_FOLDERS = ("media", "voice")
FIGURES = "figures"


def read_source(folder: Path) -> Source:
    """The source in that folder: files in the order of their names, exercises in the order of their file.

    Raises:
        UnreadableSource: a file that is missing or is no TOML.
        WrongValue, UnknownName: what it says cannot be; `where` names file, thing and key.
    """
    head = _read(SourceHeadForm, _toml(folder, HEAD), HEAD)
    places: dict[str, str] = {}
    source = source_of(
        head,
        exercises=tuple(_exercises(folder, places)),
        sessions=tuple(_whole_files(folder, SESSIONS, SessionForm, session_of, places)),
        programmes=tuple(_whole_files(folder, PROGRAMMES, ProgrammeForm, programme_of, places)),
    )
    check_source(source, places)
    return source


def read_media(folder: Path) -> dict[str, bytes]:
    """The files of `media/` and `voice/` by their path from the folder, with `/`.

    Raises:
        UnreadableSource: one that cannot be read.
    """
    return _read_files(folder, MEDIA_FOLDERS)


def read_beside(folder: Path) -> dict[str, bytes]:
    """The same, and those of `figures/`: all that belongs to a source and is no table of it.

    Raises:
        UnreadableSource: one that cannot be read.
    """
    return _read_files(folder, (*MEDIA_FOLDERS, FIGURES))


def _read_files(folder: Path, tops: tuple[str, ...]) -> dict[str, bytes]:
    found = {}
    for path in sorted(p for top in tops for p in (folder / top).rglob("*")):
        where = path.relative_to(folder).as_posix()
        if path.is_file() and not any(part.startswith(".") for part in Path(where).parts):
            try:
                found[where] = path.read_bytes()
            except OSError as error:
                raise UnreadableSource(where=where, why=error.strerror or "cannot be read") from error
    return found


def write_source(source: Source, folder: Path, beside: Mapping[str, bytes] | None = None) -> None:
    """Writes the source so that `read_source` gives it back. The folder must be absent or empty; all or nothing.

    `beside` are files by their path, as `read_beside` gives them.

    Raises:
        WrongValue: the folder holds something.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WrongValue(where=str(folder), value="something", expected="a new or an empty folder")
    begun = folder.with_name(f".{folder.name}.{os.getpid()}")
    try:
        for where, table in _files(source):
            path = begun / where
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(tomli_w.dumps(table), encoding="utf-8", newline="\n")
        for where, data in (beside or {}).items():
            (begun / where).parent.mkdir(parents=True, exist_ok=True)
            (begun / where).write_bytes(data)
        if folder.exists():
            folder.rmdir()
        begun.rename(folder)
    finally:
        shutil.rmtree(begun, ignore_errors=True)


def _files(source: Source) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each file with its table; a number before the name keeps the order."""
    yield HEAD, head_table(source)
    for number, exercise in enumerate(source.exercises, 1):
        yield f"{EXERCISES}/{number:04}-{exercise.id}.toml", {"exercise": [exercise_table(exercise)]}
    for number, session in enumerate(source.sessions, 1):
        yield f"{SESSIONS}/{number:04}-{session.id}.toml", without_usual_steps(session_table(session))
    for number, programme in enumerate(source.programmes, 1):
        yield f"{PROGRAMMES}/{number:04}-{programme.id}.toml", programme_table(programme)


def _exercises(folder: Path, places: dict[str, str]) -> Iterator[Any]:
    for where in _listed(folder, EXERCISES):
        tables = _toml(folder, where)
        stray = min(tables.keys() - {"exercise"}, default=None)
        if stray is not None:
            raise UnknownName(kind="key", name=stray, known=("exercise",), where=where)
        listed = tables.get("exercise", [])
        if not isinstance(listed, list):
            raise WrongValue(where=where, value="exercise", expected="[[exercise]], in double brackets")
        for number, table in enumerate(listed, 1):
            place = f"{where}, exercise {_name_of(table, number)}"
            exercise = exercise_of(_read(ExerciseForm, table, place))
            places[f"exercise {exercise.id}"] = place
            yield exercise


def _whole_files(folder: Path, top: str, form: type[F], made: Callable[[F], T], places: dict[str, str]) -> Iterator[T]:
    for where in _listed(folder, top):
        table = with_usual_steps(_toml(folder, where)) if form is SessionForm else _toml(folder, where)
        yield made(_read(form, table, where))
        places[f"{top[:-1]} {table['id']}"] = where


def _name_of(table: object, number: int) -> str:
    named = table.get("id") if isinstance(table, dict) else None
    return named if isinstance(named, str) and named else f"number {number}"


def _read(form: type[F], table: object, where: str) -> F:
    """The form from a table. TOML's own dates become text, and are then refused where a number is meant."""
    return read_form(form, json.dumps(table, default=str), where, BY_HAND)


def _listed(folder: Path, top: str) -> list[str]:
    return sorted(f"{top}/{path.name}" for path in (folder / top).glob("*.toml") if not path.name.startswith("."))


def _toml(folder: Path, where: str) -> dict[str, Any]:
    return read_toml(folder / where, where)
