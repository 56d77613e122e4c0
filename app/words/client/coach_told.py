"""Words for whether the coach knows of something: sent or not, answered or not. Knows no Flet."""
from __future__ import annotations

from datetime import date

from app.words.client.today import Pair, said

WEEK_DAYS = 7
UNAWARE: Pair = ("Your coach doesn’t know yet.", "{name}’s coach doesn’t know yet.")
KEPT_BACK: Pair = ("Your diary goes without this, as you chose, so please tell them yourself.",
                   "{name}’s diary goes without this, as {name} chose, so please tell them yourself.")


def coach_knows(sent: date | None, answered: date | None, today: date, asked: str = "") -> str:
    """`Your coach does not know yet.`, `Sent on Friday; no answer yet.`, `… your coach wrote back on Monday.`"""
    if sent is None:
        return said(UNAWARE, asked)
    whose = f"{asked}’s coach" if asked else "your coach"
    then = f"{whose} wrote back {day_near(answered, today)}" if answered else "no answer yet"
    return f"Sent {day_near(sent, today)}; {then}."


def day_near(day: date, today: date) -> str:
    """`today`, `yesterday`, `on Friday`; further back `on 12 February`."""
    ago = (today - day).days
    if ago in (0, 1):
        return ("today", "yesterday")[ago]
    return f"on {day:%A}" if 1 < ago < WEEK_DAYS else f"on {day.day} {day:%B}"


def tell_coach(coach: str, *, sent: bool = False, reached: bool = False, asked: str = "") -> str:
    """How the coach learns of a stop; once sent, how to reach them sooner. `reached`: by what stands under it."""
    if sent:
        return f"To reach {coach} sooner:" if reached else f"If you hear nothing, ask {coach} directly."
    return f"Send {coach} {asked + '’s' if asked else 'your'} diary{', or reach them here:' if reached else '.'}"


def whom_to_ask(yes_from: str, coach: str) -> str:
    """Whose go-ahead it takes; it stays in view while training is on hold, with how to reach them."""
    if yes_from == "self":
        return "Wait until the fever has been gone for two days. If it doesn’t go, ask a doctor."
    if yes_from == "coach" and coach:
        return f"Ask {coach}, or a doctor, nurse or physio."
    return "Ask a doctor, nurse or physio: phone the practice, and say that it’s about exercise at home."


def reach_words(written: str, *, phone: bool) -> str:
    """`Phone 06 1234 5678`, `Email odile@brackwater.example`."""
    return f"{'Phone' if phone else 'Email'} {written}"


def call_number(number: str) -> str:
    """`Call 999`."""
    return f"Call {number}"
