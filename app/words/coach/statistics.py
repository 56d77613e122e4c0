"""Words of the statistics on a person's page at the coach's desk. Knows no Flet."""
from __future__ import annotations

from datetime import date

from app.domain.measures.energy import ERROR_PERCENT, LEAST_KG, MOST_KG, Energy
from app.domain.measures.volume import SessionStatistics
from app.domain.measures.week_guide import GUIDE_BALANCE_DAYS, WeekGuide
from app.domain.measures.week_minutes import GUIDE_MINUTES, GUIDE_STRENGTH_DAYS, Frame
from app.domain.model.record import SessionDone
from app.words.client.today import day_words

HEAD = "Figures of the last sessions"
SAID = (
    "For the main part only, counting each side. Repetitions of timed work are worked out from the tempo. Rest is all "
    "the time without work, as planned; pauses are not timed. Volume load is the weight as written × repetitions."
)
NONE = "No sessions received yet."
PLANNED, DONE = "planned", "done"
NO_VALUE = "–"
WEEKS_HEAD = "Weeks beside the guidelines"
WEEKS_SAID = (
    f"WHO 2020 recommends {GUIDE_MINUTES[0]} to {GUIDE_MINUTES[1]} minutes of moderate effort a week, strength on "
    f"{GUIDE_STRENGTH_DAYS} days and balance with strength on {GUIDE_BALANCE_DAYS}. A guide, not a target: what "
    "they did but didn’t write down isn’t here, and the minutes are of any effort."
)
ENERGY = "Energy"
ENERGY_SAID = (
    f"An estimate from tables based on many people. For one person it can be {ERROR_PERCENT}% out or more. It shows "
    "only while you keep their weight here."
)
WEIGHT = "Their weight, kg"
SHOW_ENERGY, HIDE_ENERGY = "Work out energy", "Switch energy off"
WRONG_WEIGHT = f"Please write a whole number from {LEAST_KG} to {MOST_KG}."

Row = tuple[str, str, str]


def clock_words(ms: int) -> str:
    """`5:36`, minutes and seconds."""
    minutes, seconds = divmod(ms // 1000, 60)
    return f"{minutes}:{seconds:02}"


def session_head(done: SessionDone) -> str:
    """`Sunday 23 November, Legs and back`."""
    return f"{day_words(done.stamp.local)}, {done.name}"


def statistics_rows(planned: SessionStatistics, done: SessionStatistics) -> tuple[Row, ...]:
    """(what, planned, done) of a session."""
    return (
        ("Work, min", clock_words(planned.work_ms), clock_words(done.work_ms)),
        ("Repetitions", _reps(planned), _reps(done)),
        ("Under tension, min", clock_words(planned.tension_ms), clock_words(done.tension_ms)),
        ("Volume load, kg", _kg(planned), _kg(done)),
        ("Work to rest", _percent(planned.work_to_rest), _percent(done.work_to_rest)),
        ("Density", _percent(planned.density), _percent(done.density)),
    )


def _reps(numbers: SessionStatistics) -> str:
    """With a plus where some could not be worked out."""
    return f"{numbers.reps}+" if numbers.unknown else str(numbers.reps)


def _kg(numbers: SessionStatistics) -> str:
    return f"{numbers.volume_kg:g}{'+' if numbers.unknown else ''}" if numbers.volume_g else NO_VALUE


def _percent(value: int | None) -> str:
    return NO_VALUE if value is None else f"{value}%"


UNKNOWN = "+ means that some exercises aren’t in your sources, so their repetitions are not counted."


def energy_line(energy: Energy) -> str:
    """`About 90 to 170 kcal`."""
    return f"{ENERGY}: about {energy.least} to {energy.most} kcal"


def week_head(monday: date) -> str:
    """`Week of 2 March`."""
    return f"Week of {monday.day} {monday:%B}"


def week_line(week: WeekGuide) -> str:
    """Minutes and days of a week."""
    frame = week.frame
    return (f"{_minutes(frame)}; strength on {_days(frame.strength_days)}, balance on {_days(week.balance_days)}, "
            f"either on {_days(week.balance_or_strength_days)}")


def _minutes(frame: Frame) -> str:
    if not frame.activity_minutes:
        return f"{frame.minutes} min"
    return f"{frame.minutes} min, {frame.activity_minutes} of them other activity"


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"
