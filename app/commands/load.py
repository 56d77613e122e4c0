"""`evenload load`: weekly load, monotony and strain, and the averages of every day, from a table of sessions."""
from __future__ import annotations

import argparse
import json
from typing import Any

from app.commands.files import name_of, read_file
from app.domain.measures.training_load import DayLoad, WeekLoad, calendar_weeks, daily_loads, days_with_averages
from app.exchange.forms.load_table import load_rows
from app.words.machine import training_load as words

DONE = 0


def run(args: argparse.Namespace) -> int:
    """Prints weeks and days, unrounded with `--json`.

    Raises:
        ContentError, FileError: the table cannot be read, or says something impossible.
    """
    loads = daily_loads(load_rows(read_file(args.path), name_of(args.path)))
    weeks, days = calendar_weeks(loads), days_with_averages(loads)
    if args.json:
        shape = {"weeks": [week_shape(w) for w in weeks], "days": [day_shape(d) for d in days]}
        print(json.dumps(shape, allow_nan=False, indent=1))
    else:
        print("\n".join(words.load_table(weeks, days)))
    return DONE


def week_shape(week: WeekLoad) -> dict[str, Any]:
    """One week; what has no value is null."""
    return {"start": week.start.isoformat(), "load": week.load, "monotony": week.monotony, "strain": week.strain}


def day_shape(day: DayLoad) -> dict[str, Any]:
    """One day; what has no value is null."""
    return {"date": day.day.isoformat(), "load": day.load, "acute": day.acute, "chronic": day.chronic,
            "ratio": day.ratio}
