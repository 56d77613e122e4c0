"""Questions that somebody who leads asks once the person sits: what is seen beside what is said, and who says so."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.domain.model.diary import AnsweredBy
from app.ui.parts import Card, options
from app.words.client import lead as says


def seen_lines(c: Card, on_grey: Callable[[Any], Any] | None) -> list[ft.Control]:
    """What the eyes add to the answer; a grey or clammy face is a stop sign, one tap."""
    lines: list[ft.Control] = [c.body(line) for line in says.SEEN]
    grey = [c.harm_button(says.SEEN_GREY, on_grey)] if on_grey else []
    return [c.head(says.SAID_OR_SEEN), c.rows(lines, 6), *grey]


def who_says(c: Card, name: str, by: AnsweredBy, choose: Callable[[AnsweredBy], Any]) -> list[ft.Control]:
    """The person, or a guess of who leads."""
    among = options((AnsweredBy.SELF, says.they_say(name)), (AnsweredBy.LEADER, says.I_THINK))
    return [c.subhead(says.WHO_SAYS), c.one_of(among, by, choose), c.soft(says.GUESS_NOTE)]
