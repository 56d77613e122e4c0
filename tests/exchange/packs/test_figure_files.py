"""Which figures a pack gets, from where, and that a bad or unknown one is refused; what lies built is up to date."""
from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from app.domain.errors import BadFigure, UnknownName
from app.domain.figure.build import build_figure, fingerprint
from app.domain.figure.drawing.picture import paths
from app.exchange.forms.source import read_media
from app.exchange.packs.figure_files import (
    BUILT,
    built_archive,
    built_or_new,
    figure_media,
    read_figure_source,
    shown_figures,
)
from app.words import errors
from tests.domain.figures import SHIPPED, example, shipped_tables
from tests.exchange.fixed import SOURCE
from tests.sampling import is_whole, spread

FIRST, *REST = SOURCE.exercises


def folder_with(folder: Path, *tables: dict[str, Any]) -> Path:
    """A source's folder with these figures in it."""
    (folder / "figures").mkdir(parents=True)
    (folder / "figures/mine.json").write_text(json.dumps(tables), "utf-8")
    return folder


def named(name: str, of: str) -> dict[str, Any]:
    """An example under another id."""
    return {**example(of), "id": name}


def showing(figure: str) -> Any:
    """The fixed source, its first exercise showing that figure."""
    return replace(SOURCE, exercises=(replace(FIRST, figure=figure), *REST))


def test_an_exercise_shows_the_figure_of_its_own_id(tmp_path: Path) -> None:
    """Three files each, under that id; figures that no exercise shows stay at home."""
    folder = folder_with(tmp_path, named(FIRST.id, "squat"), named("nobodys", "row"))
    media = figure_media(SOURCE, [read_figure_source(folder)])
    assert set(media) == set(paths(FIRST.id))
    made = build_figure(named(FIRST.id, "squat"), "here")
    assert [media[path] for path in paths(FIRST.id)] == [made.moving, made.start, made.turn]


def test_an_exercise_may_show_another_figure_also_one_that_came_along(tmp_path: Path) -> None:
    """The coach's own folder comes first, then the others."""
    mine, theirs = folder_with(tmp_path / "a", named("near", "squat")), folder_with(tmp_path / "b", named("far", "row"))
    folders = [read_figure_source(mine), read_figure_source(theirs)]
    assert set(figure_media(showing("near"), folders)) == set(paths("near"))
    assert set(figure_media(showing("far"), folders)) == set(paths("far"))
    both = folder_with(tmp_path / "c", named("far", "squat"))
    again = figure_media(showing("far"), [read_figure_source(both), *folders])
    assert again[paths("far")[0]] != figure_media(showing("far"), folders)[paths("far")[0]]


def test_a_figure_that_nobody_has_is_refused_with_the_exercise() -> None:
    """In a sentence that names both."""
    with pytest.raises(UnknownName) as refused:
        shown_figures(showing("missing"), [])
    said = errors.error_text(refused.value)
    assert "missing" in said
    assert FIRST.id in said


def test_a_picture_of_the_coach_s_own_is_no_figure() -> None:
    """It travels as it is; other files are not taken for one."""
    assert shown_figures(showing("media/step.jpg"), []) == ()
    with pytest.raises(UnknownName):
        shown_figures(showing("media/step.txt"), [])


def test_a_bad_figure_is_refused_with_its_place_and_what_is_wrong(tmp_path: Path) -> None:
    """In a sentence."""
    bad = named(FIRST.id, "squat")
    bad["poses"]["low"]["knee"] = -94
    with pytest.raises(BadFigure) as refused:
        figure_media(SOURCE, [read_figure_source(folder_with(tmp_path, bad))])
    said = errors.error_text(refused.value)
    assert said.startswith(f"figures/mine.json, figure {FIRST.id} can’t be shown: a joint is bent too far")


def test_what_lies_built_is_taken_and_what_has_changed_is_not(tmp_path: Path) -> None:
    """By the table's fingerprint; a damaged archive is as good as none."""
    folder = folder_with(tmp_path, named("one", "squat"))
    (folder / "figures" / BUILT).write_bytes(built_archive(read_figure_source(folder)))
    source = read_figure_source(folder)
    assert source.built is not None
    kept = built_or_new(source, "one", [source.built])
    assert kept == build_figure(source.table("one"), "here")
    changed = named("one", "squat")
    changed["poses"]["low"]["elbow"] = 20
    (folder / "figures/mine.json").write_text(json.dumps([changed]), "utf-8")
    anew = read_figure_source(folder)
    assert built_or_new(anew, "one", [source.built]) != kept
    (folder / "figures" / BUILT).write_bytes(b"PK no archive")
    assert read_figure_source(folder).built is None


def test_poses_do_not_travel_as_they_are(tmp_path: Path) -> None:
    """Only what is made of them does."""
    folder = folder_with(tmp_path, example("squat"))
    assert read_media(folder) == {}


def test_everything_shipped_lies_built() -> None:
    """So that a pack is made in a moment: run `build/figures.py build` after any change of a figure."""
    source = read_figure_source(SHIPPED)
    assert source.built is not None
    marks = {figure: fingerprint(source.table(figure)) for figure in source.tables}
    assert not [figure for figure, mark in marks.items() if source.built.read(f"{mark}.json") is None]


@pytest.mark.parametrize("figure", list(shipped_tables()) if is_whole() else spread(list(shipped_tables()), 6))
def test_what_lies_built_is_what_would_be_built_now(figure: str) -> None:
    """Byte for byte."""
    source = read_figure_source(SHIPPED)
    assert source.built is not None
    assert built_or_new(source, figure, [source.built]) == build_figure(source.table(figure), "here")
