"""The copy that is the client's to keep: one page to read or print, and tables for any spreadsheet.

Its words are its own: it is neither a screen nor a command, and it should read the same in twenty years.
"""
from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from app.domain.model.body import Spot
from app.domain.model.person import Person
from app.domain.model.plan import Reason
from app.domain.model.record import (
    CheckDone,
    CheckIn,
    Clearance,
    Ending,
    Event,
    EventKind,
    FunctionalCheck,
    How,
    Record,
    SessionDone,
)
from app.domain.model.trained_time import trained_s

Say = Callable[[Reason], str]
Row = tuple[str, ...]

_ENDINGS = {
    Ending.FINISHED: "done to the end", Ending.INTERRUPTED: "cut short by something outside",
    Ending.TOO_MUCH: "stopped: too much", Ending.PAIN: "stopped: it hurt", Ending.SIGN: "stopped: a stop sign",
}
_HOWS = {
    How.FULL: "as planned", How.EASIER: "an easier one", How.PART: "in part", How.SKIPPED: "left out",
    How.STOPPED: "stopped",
}
_CHECKS = {
    FunctionalCheck.CHAIR_STAND: "standing up from a chair, 30 s", FunctionalCheck.ONE_LEG: "standing on one leg",
    FunctionalCheck.WALK: "walking 3 m and back from a chair",
    FunctionalCheck.CHAIR_STAND_HIGH: "standing up from a high chair, 30 s",
    FunctionalCheck.ONE_LEG_HELD: "standing on one leg with a hand on something",
    FunctionalCheck.WALK_4M: "walking 4 m",
}
_EVENTS = {
    EventKind.FALL: "a fall", EventKind.ILLNESS: "an illness", EventKind.MEDICINE: "a new or changed medicine",
    EventKind.ACTIVITY: "moving about", EventKind.GOAL: "goals", EventKind.PAUSE: "a pause",
}
_STYLE = """
body{font:18px/1.5 sans-serif;max-width:60em;margin:2em auto;padding:0 1em;color:#1c1a17;background:#fff}
h1,h2{line-height:1.2}table{border-collapse:collapse;width:100%;margin:0 0 2em}
th,td{border-bottom:1px solid #8a857c;padding:.4em .6em .4em 0;text-align:left;vertical-align:top}
th{border-bottom-width:3px}@media print{body{margin:0;font-size:11pt}}
"""


#: The beginning of a formula: where a cell, a line of it, or what follows another separator begins. Spreadsheets pass
#: over blanks before it, and take the full-width signs of an East Asian keyboard for the plain ones.
_FORMULA = re.compile(r"(^|[\n\r\v\f\x85\u2028\u2029;\t|])"
                      r"([ \x00-\x08\x0e-\x1f\xa0\u3000\"\ufeff]*[=+\-@＝＋－＠﹦﹢﹣﹫])")


@dataclass(frozen=True)
class Table:
    """A title, the heads of its columns, and its rows as text."""

    title: str
    file: str
    heads: Row
    rows: tuple[Row, ...]


def readable_tables(records: Sequence[Record], say: Say) -> tuple[Table, ...]:
    """Everything that was written down, a table for each kind, oldest first, without what was taken back.

    `say` words a reason for a lighter session.
    """
    kept = sorted((r for r in records if not r.stamp.deleted), key=lambda r: (r.stamp.utc, r.stamp.id))
    sessions = [r for r in kept if isinstance(r, SessionDone)]
    return (
        Table("How I was", "check-ins.csv",
              ("Day", "Slept (1–5)", "Energy (1–5)", "Settled (1–5)", "Hurt in a joint (0–10)",
               "Tired, achy muscles (0–10)", "Joints the morning after (0–10)", "New or worrying", "Answered by",
               "Note", "Worse after the last session (days)"),
              tuple(_check_in(r) for r in kept if isinstance(r, CheckIn))),
        Table("What I did", "sessions.csv",
              ("Day", "Session", "Minutes", "How it ended", "Done, percent", "How hard (0–10)",
               "Hurt in a joint (0–10)", "Lighter because", "Note"),
              tuple(_session(r, say) for r in sessions)),
        Table("Exercise by exercise", "exercises.csv", ("Day", "Session", "Exercise", "Seconds", "How"),
              tuple(row for session in sessions for row in _steps(session))),
        Table("Yes after a stop", "yes.csv", ("Day", "Who said yes", "As"),
              tuple((_day(r), r.who, r.kind) for r in kept if isinstance(r, Clearance))),
        Table("Checks", "checks.csv", ("Day", "Check", "Result", "How", "Note"),
              tuple(_check(r) for r in kept if isinstance(r, CheckDone))),
        Table("What else happened", "events.csv",
              ("Day", "What", "Which", "Minutes", "From", "Until", "Asked and answered", "Stopped by", "Note"),
              tuple(_event(r) for r in kept if isinstance(r, Event))),
    )


def readable_page(person: Person, records: Sequence[Record], say: Say) -> str:
    """One HTML page that needs nothing else."""
    parts = [_html_table(table) for table in readable_tables(records, say) if table.rows]
    body = "\n".join(parts) or "<p>Nothing is written down yet.</p>"
    title = escape(f"Diary of {person.name}" if person.name else "Diary")
    return (f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title>'
            f"<style>{_STYLE}</style></head>\n<body><h1>{title}</h1>\n{body}\n</body></html>\n")


def readable_files(records: Sequence[Record], say: Say) -> Mapping[str, str]:
    """CSV by file name. Text that a spreadsheet would take for a formula has an apostrophe before it."""
    return {table.file: _csv(table) for table in readable_tables(records, say)}


def _check_in(record: CheckIn) -> Row:
    worrying = ", ".join(sign.replace("_", " ") for sign in record.signs or sorted(record.symptoms or ()))
    return (_day(record), _number(record.slept), _number(record.energy), _number(record.calm), _spots(record.pain),
            _spots(record.soreness), _spots(record.morning_after), worrying, record.answered_by.value, record.note,
            _number(record.flare_days))


def _session(record: SessionDone, say: Say) -> Row:
    told = dict(record.pain or {})
    for hurt in record.hurts:
        told[hurt.spot] = max(hurt.level, told.get(hurt.spot, 0))
    pain = _spots(told if record.pain is not None or record.hurts else None)
    ended = _ENDINGS[record.ending] + (f" ({record.sign.replace('_', ' ')})" if record.sign else "")
    return (_day(record), record.name, str(round(trained_s(record) / 60)), ended, str(record.completed),
            _number(record.rpe), pain, "; ".join(say(reason) for reason in record.plan.dose.reasons), record.note)


def _steps(record: SessionDone) -> Iterable[Row]:
    for step in record.done:
        name = record.names.get(step.exercise, step.exercise)
        yield _day(record), record.name, name, str(step.done_ms // 1000), _HOWS[step.how]


def _check(record: CheckDone) -> Row:
    result = f"{record.stands} stands" if record.stands is not None else ""
    result = f"{record.time_ms / 1000:.1f} s" if record.time_ms is not None else result
    hows = ((bool(record.side), f"on the {record.side} leg"), (record.aid, "with a stick or frame"),
            (record.seat_cm is not None, f"seat {record.seat_cm} cm high"),
            (record.hands_used, "pushed off with the hands: counts 0"),
            (record.answered_by.value != "self", "told by somebody else"))
    return _day(record), _CHECKS[record.check], result, ", ".join(words for holds, words in hows if holds), record.note


def _event(record: Event) -> Row:
    told = [f"{asked.replace('_', ' ')}: {'yes' if yes else 'no'}" for asked, yes in sorted(record.answers.items())]
    return (_day(record), _EVENTS[record.kind], record.what.replace("_", " "), _number(record.minutes),
            _date(record.since), _date(record.until), ", ".join(told), record.stopped_by.replace("_", " "), record.note)


def _date(day: date | None) -> str:
    return day.isoformat() if day else ""


def _day(record: Record) -> str:
    return record.stamp.local.isoformat()


def _number(value: int | None) -> str:
    return "" if value is None else str(value)


def _spots(told: Mapping[Spot, int] | None) -> str:
    """Empty where nothing was asked or answered; "nothing" where that was the answer."""
    if told is None:
        return ""
    return ", ".join(f"{spot} {level}" for spot, level in sorted(told.items())) or "nothing"


def _html_table(table: Table) -> str:
    heads = "".join(f"<th>{escape(head)}</th>" for head in table.heads)
    rows = "\n".join("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in table.rows)
    return f"<h2>{escape(table.title)}</h2>\n<table><tr>{heads}</tr>\n{rows}\n</table>"


def _csv(table: Table) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(table.heads)
    writer.writerows([_harmless(cell) for cell in row] for row in table.rows)
    return out.getvalue()


def _harmless(cell: str) -> str:
    """An apostrophe before every line of a cell that a spreadsheet might reckon with.

    Also where it opens the file with another separator, `;` or a tab, and so sees a cell of its own behind each one.
    """
    kept = _FORMULA.sub(r"\1'\2", cell)
    return "'" + kept if kept[:1] in ("\t", "\r", "\n") else kept
