"""Figures for tests: ten small examples of our own, and the shipped ones."""
from __future__ import annotations

import json
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

from app.domain.figure.checking.figure_checks import failed
from app.domain.figure.checking.figure_finding import FigureFinding, StateSource, moments
from app.domain.figure.drawing.lottie import lottie
from app.domain.figure.drawing.lottie_reader import ExportedFigure
from app.domain.figure.rig.figure_form import figure_tables, merged, read_figure
from app.domain.figure.rig.motion import FigureMotion
from app.resources import resource_dir

EXAMPLES = Path(__file__).with_name("figure_examples.json")
SHIPPED = resource_dir("assets") / "programmes" / "brackwater"


@cache
def _examples() -> dict[str, dict[str, Any]]:
    return {table["id"]: table for table in json.loads(EXAMPLES.read_text("utf-8"))}


def example(name: str) -> dict[str, Any]:
    """A fresh copy of one example's table: squat, row, lunge, push-up, wall-push, bridge, calf-raise, rise, …"""
    return deepcopy(_examples()[f"example-{name}"])


NAMES = tuple(name.removeprefix("example-") for name in _examples())


def motion_of(table: dict[str, Any]) -> FigureMotion:
    """The motion of a table."""
    return FigureMotion(read_figure(table, table["id"]))


@cache
def shipped_tables() -> dict[str, dict[str, Any]]:
    """Every shipped figure's whole table by id."""
    files = {path.name: path.read_bytes() for path in sorted((SHIPPED / "figures").glob("*.json"))}
    tables, places = figure_tables(files)
    return {figure: merged(tables, figure, places) for figure in tables}


def failed_export(motion: FigureMotion, text: str) -> tuple[FigureFinding, ...]:
    """The checks that do not hold where an exported file puts the bones."""
    return failed(motion, ExportedFigure(text).states(motion, moments(motion)), StateSource.EXPORTED)


def exported(table: dict[str, Any]) -> str:
    """A table's animation."""
    return lottie(motion_of(table))
