"""Dose, substitution and timeline of a long session over 500 exercises and three years of diary; the floor is a plain
loop over as many integers as there are values to look at. Argument: how often.
"""
from __future__ import annotations

import sys
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

from .either import by_turns, either, tell

body = either("app.domain.model.body", "app.domain.body")
client = either("app.domain.model.client", "app.domain.client")
exercise = either("app.domain.model.exercise", "app.domain.exercise")
history = either("app.domain.dosing.history", "app.domain.history")
plan = either("app.domain.model.plan", "app.domain.plan")
record = either("app.domain.model.record", "app.domain.record")
resources = either("app.resources")
sessions = either("app.domain.model.session", "app.domain.session")
source_files = either("app.exchange.forms.source", "app.exchange.source")
stations = either("app.domain.compile.stations", "app.domain.stations")
timeline = either("app.domain.compile.timeline", "app.domain.timeline")

EXERCISES, YEARS = 500, 3
KNEE = body.parse_spot("left knee")
NOW = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)


def library_of(source: Any, size: int) -> dict[str, Any]:
    """The shipped library, copied under other ids until there are `size`, each copy with its own ladder."""
    found: dict[str, Any] = {}
    copy = 0
    while len(found) < size:
        for one in source.exercises[: size - len(found)]:
            mark = f"-{copy}" if copy else ""
            easier = tuple(exercise.Option(o.to + mark, o.relieves) for o in one.easier)
            found[one.id + mark] = replace(one, id=one.id + mark, easier=easier)
        copy += 1
    return found


def long_session(library: dict[str, Any]) -> Any:
    """A circuit long enough for 45 steps and more."""
    hard = [e.id for e in library.values() if e.is_strength and max(e.demand.values()) >= 2][:8]
    items = tuple(sessions.Item(one, work_s=40) for one in hard)
    block = sessions.Block(sessions.BlockKind.CIRCUIT, items, rounds=3, rest_s=40, round_rest_s=90)
    return sessions.Session("long", "Long", (block,))


def three_years(session: Any) -> list[Any]:
    """A check-in each day and a session each third."""
    planned = plan.Timeline(session.id, (), plan.Dose(1, 3, 100, 100, 100), strength=True)
    found: list[Any] = []
    for back in range(YEARS * 365, 0, -1):
        when = NOW - timedelta(days=back)
        stamp = record.Stamp(f"c{back}", "p", when, when.date(), 0)
        sore = {KNEE: back % 3}
        found.append(record.CheckIn(stamp, frozenset(), (), sore, sore, {}, 4, 4, 4, level=1))
        if back % 3 == 0:
            done = replace(stamp, id=f"s{back}", utc=when + timedelta(hours=1))
            found.append(record.SessionDone(done, "Long", planned, "", record.Ending.FINISHED, (), 1500, rpe=5,
                                            pain=sore))
    return found


def main(times: int) -> None:
    """Measures and prints."""
    source = source_files.read_source(resources.resource_dir("assets") / "programmes" / "brackwater")
    library = library_of(source, EXERCISES)
    session = long_session(library)
    records = three_years(session)
    somebody = client.Client(conditions=frozenset({client.Condition.KNEE_REPLACEMENT}), spare={KNEE: 1})
    stamp = record.Stamp("now", "p", NOW, NOW.date(), 0)
    answers = record.CheckIn(stamp, frozenset(), (), {KNEE: 4}, {KNEE: 0}, {}, 4, 3, 4)

    def whole() -> Any:
        diary = history.diary_today(answers, records, somebody)
        order = stations.Order(session, library, somebody, client.Place(), date(2026, 11, 25), diary)
        return timeline.compile_timeline(order)

    steps = [s for s in whole().steps if s.kind is not plan.StepKind.SETUP]
    numbers = list(range(len(records) + len(library) * 16 + len(steps)))

    def loop() -> int:
        total = 0
        for number in numbers:
            total += number
        return total

    tell(by_turns(whole, loop, times), exercises=len(library), steps=len(steps), records=len(records))


if __name__ == "__main__":
    main(int(sys.argv[1]))
