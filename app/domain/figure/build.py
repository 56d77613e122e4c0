"""A figure made ready for a pack: solved, checked, exported, with its two stills."""
from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.domain.errors import BadFigure
from app.domain.figure.checking.figure_checks import failed
from app.domain.figure.checking.figure_finding import moments
from app.domain.figure.drawing.lottie import VERSION, lottie
from app.domain.figure.drawing.still import still_pair
from app.domain.figure.rig.figure_form import read_figure
from app.domain.figure.rig.motion import FigureMotion

CHECKED_FPS = 20
"""How densely a figure is looked at when a pack is made; the tests look at every frame."""


@dataclass(frozen=True)
class BuiltFigure:
    """The three files of a figure: animation, start and turn."""

    moving: bytes
    start: bytes
    turn: bytes


def build_figure(table: Mapping[str, Any], where: str) -> BuiltFigure:
    """The files of a figure from its whole table. The same table gives the same bytes.

    Raises:
        WrongValue, UnknownName: the table says something impossible.
        BadFigure: it can be read, and a check does not hold.
    """
    motion = FigureMotion(read_figure(table, where))
    findings = failed(motion, moments(motion, CHECKED_FPS))
    if findings:
        raise BadFigure(where=where, findings=findings)
    start, turn = still_pair(motion)
    return BuiltFigure(lottie(motion).encode(), start.encode(), turn.encode())


def fingerprint(table: Mapping[str, Any]) -> str:
    """The same for tables from which the same files are made."""
    text = json.dumps([VERSION, table], sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()[:32]
