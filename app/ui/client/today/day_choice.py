"""A day to choose, in a row of buttons."""
from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import flet as ft

from app.ui.parts import AnswerOption, Card
from app.words.client import planning as words
from app.words.client.today import day_words


def days_ahead(c: Card, today: date, days: int, chosen: date | None, choose: Callable[[date], Any]) -> ft.Control:
    """From today on. Names: "Today", "Tomorrow", "Thursday 5 March"."""
    return _days(c, [today + timedelta(days=n) for n in range(days)], today, chosen, choose, words.day_choice)


def days_back(c: Card, today: date, days: int, chosen: date | None, choose: Callable[[date], Any]) -> ft.Control:
    """Today, yesterday and so on back."""
    return _days(c, [today - timedelta(days=n) for n in range(days)], today, chosen, choose, words.day_choice_back)


def _days(
    c: Card, days: list[date], today: date, chosen: date | None, choose: Callable[[date], Any],
    face: Callable[[date, date], str],
) -> ft.Control:
    near = {"Today", "Tomorrow", "Yesterday"}
    among = [AnswerOption(day, face(day, today), name="" if face(day, today) in near else day_words(day))
             for day in days]
    return c.one_of(among, chosen, choose)
