"""What is said of figures: numbers with their unit, a dash where there is none, and no verdict."""
from __future__ import annotations

from datetime import date

from app.domain.measures.energy import Energy
from app.domain.measures.volume import SessionStatistics
from app.domain.measures.week_guide import WeekGuide
from app.domain.measures.week_minutes import Frame
from app.words.coach import statistics as words


def test_a_session_is_six_rows_of_planned_and_done() -> None:
    """336 s are 5:36; 70 kg; 110 of 105 s is 104%."""
    planned = SessionStatistics(110_000, 105_000, 22, 336_000, 70_500, 0)
    done = SessionStatistics(64_000, 0, 14, 55_500, 0, 1)
    assert words.statistics_rows(planned, done) == (
        ("Work, min", "1:50", "1:04"), ("Repetitions", "22", "14+"), ("Under tension, min", "5:36", "0:55"),
        ("Volume load, kg", "70.5", "–"), ("Work to rest", "104%", "–"), ("Density", "51%", "100%"))


def test_a_week_says_its_minutes_and_days() -> None:
    """Moving about is named apart."""
    frame = Frame(date(2026, 3, 2), 62, 40, 2)
    assert words.week_line(WeekGuide(frame, 1, 3)) == (
        "102 min, 40 of them other activity; strength on 2 days, balance on 1 day, either on 3 days")
    assert words.week_line(WeekGuide(Frame(date(2026, 3, 2), 62, 0, 0), 0, 0)).startswith("62 min; strength on 0 days")
    assert words.week_head(date(2026, 3, 2)) == "Week of 2 March"


def test_energy_is_a_range() -> None:
    """And said to be about that."""
    assert words.energy_line(Energy(90, 170)) == "Energy: about 90 to 170 kcal"
