"""Moving figures of a source: poses in `figures/*.json`, and what was built of them before."""
from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.domain.errors import UnknownName, UnreadableSource
from app.domain.figure.build import BuiltFigure, build_figure, fingerprint
from app.domain.figure.drawing.picture import FOLDER, is_photo, paths
from app.domain.figure.rig.figure_form import figure_tables, merged
from app.domain.model.source import Source
from app.exchange.packs.archive import PackShelf, build_archive

POSES = "*.json"
BUILT = "built.zip"
"""Beside the poses: every figure as it was built last, by the fingerprint of its table."""


@dataclass(frozen=True)
class FigureSource:
    """The poses of one folder, and what lies built beside them."""

    tables: Mapping[str, Mapping[str, Any]]
    places: Mapping[str, str]
    built: PackShelf | None = None

    def table(self, figure: str) -> dict[str, Any]:
        """The whole table of a figure that is here."""
        return merged(self.tables, figure, self.places)


def read_figure_source(folder: Path) -> FigureSource:
    """The figures of a source's folder; none where it has none.

    Raises:
        UnreadableSource, WrongValue: a file that is no JSON, or a figure without an id of its own.
    """
    files = {f"{FOLDER}/{path.name}": _read(path) for path in sorted((folder / FOLDER).glob(POSES))
             if not path.name.startswith(".")}
    tables, places = figure_tables(files)
    return FigureSource(tables, places, _built(folder / FOLDER / BUILT))


def figure_media(source: Source, folders: Sequence[FigureSource]) -> dict[str, bytes]:
    """The files of every figure that an exercise shows, by their path in a pack.

    An exercise shows the figure that it names, else the one of its own id if there is one. The first folder that has
    it gives it; what lies built in any of them is not built again.

    Raises:
        UnknownName: an exercise names a figure that no folder has.
        WrongValue, BadFigure: a figure that says something impossible, or does not pass its checks.
    """
    shelves = [folder.built for folder in folders if folder.built]
    found: dict[str, bytes] = {}
    for figure in shown_figures(source, folders):
        home = next(folder for folder in folders if figure in folder.tables)
        made = built_or_new(home, figure, shelves)
        found.update(zip(paths(figure), (made.moving, made.start, made.turn), strict=True))
    return found


def shown_figures(source: Source, folders: Sequence[FigureSource]) -> tuple[str, ...]:
    """The ids of the figures that its exercises show, each once.

    Raises:
        UnknownName: an exercise names a figure that no folder has.
    """
    known = {figure for folder in folders for figure in folder.tables}
    found: dict[str, None] = {}
    for exercise in source.exercises:
        if is_photo(exercise.figure):
            continue
        named = exercise.figure
        if named and named not in known:
            raise UnknownName(kind="figure", name=named, known=tuple(sorted(known)), where=f"exercise {exercise.id}")
        if (named or exercise.id) in known:
            found[named or exercise.id] = None
    return tuple(found)


def built_or_new(home: FigureSource, figure: str, shelves: Iterable[PackShelf]) -> BuiltFigure:
    """A figure as it was built from this very table before, else built now."""
    table = home.table(figure)
    mark = fingerprint(table)
    for shelf in shelves:
        found = [shelf.read(path) for path in _kept(mark)]
        if all(part is not None for part in found):
            return BuiltFigure(*(part or b"" for part in found))
    return build_figure(table, home.places[figure])


def built_archive(source: FigureSource) -> bytes:
    """The content of `built.zip`: every figure of the folder, built where it has changed. The same bytes every time."""
    shelves = [source.built] if source.built else []
    return build_archive(dict(_entries(source, shelves)), 0)


def _entries(source: FigureSource, shelves: Sequence[PackShelf]) -> Iterator[tuple[str, bytes]]:
    for figure in source.tables:
        made = built_or_new(source, figure, shelves)
        yield from zip(_kept(fingerprint(source.table(figure))), (made.moving, made.start, made.turn), strict=True)


def _kept(mark: str) -> tuple[str, str, str]:
    return f"{mark}.json", f"{mark}.start.svg", f"{mark}.turn.svg"


def _built(path: Path) -> PackShelf | None:
    try:
        return PackShelf(path.read_bytes()) if path.is_file() else None
    except (OSError, zipfile.BadZipFile):
        return None  # whatever is in it can be built anew


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise UnreadableSource(where=f"{FOLDER}/{path.name}", why=error.strerror or "cannot be read") from error
