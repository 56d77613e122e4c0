"""Dose, substitution and timeline of a long session over a large library and three years of diary."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from statistics import median
from time import perf_counter

from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.dosing.history import diary_today
from app.domain.model.body import Spot, parse_spot
from app.domain.model.client import Client, Condition, Place
from app.domain.model.diary import Symptom
from app.domain.model.exercise import Exercise, Option
from app.domain.model.plan import Dose, StepKind, Timeline
from app.domain.model.record import CheckIn, Ending, Record, SessionDone, Stamp
from app.domain.model.session import Block, BlockKind, Item, Session
from app.domain.model.source import Source
from app.exchange.forms.source import read_source
from app.resources import resource_dir

FRAME_MS = 1000 / 60
EXERCISES, STEPS, YEARS = 500, 45, 3
KNEE: Spot = parse_spot("left knee")
NOW = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)


def library_of(source: Source, size: int) -> dict[str, Exercise]:
    """The shipped library, copied under other ids until there are `size`, each copy with its own ladder."""
    found: dict[str, Exercise] = {}
    copy = 0
    while len(found) < size:
        for exercise in source.exercises[: size - len(found)]:
            mark = f"-{copy}" if copy else ""
            easier = tuple(Option(o.to + mark, o.relieves) for o in exercise.easier)
            found[exercise.id + mark] = replace(exercise, id=exercise.id + mark, easier=easier)
        copy += 1
    return found


def long_session(library: dict[str, Exercise]) -> Session:
    """A circuit long enough for 45 steps and more."""
    hard = [e.id for e in library.values() if e.is_strength and max(e.demand.values()) >= 2][:8]
    items = tuple(Item(exercise, work_s=40) for exercise in hard)
    return Session("long", "Long", (Block(BlockKind.CIRCUIT, items, rounds=3, rest_s=40, round_rest_s=90),))


def three_years(session: Session) -> list[Record]:
    """A check-in each day and a session each third."""
    plan = Timeline(session.id, (), Dose(1, 3, 100, 100, 100), strength=True)
    found: list[Record] = []
    for back in range(YEARS * 365, 0, -1):
        when = NOW - timedelta(days=back)
        stamp = Stamp(f"c{back}", "p", when, when.date(), 0)
        found.append(CheckIn(stamp, frozenset[Symptom](), (), {KNEE: back % 3}, {KNEE: back % 3}, {}, 4, 4, 4, level=1))
        if back % 3 == 0:
            done = replace(stamp, id=f"s{back}", utc=when + timedelta(hours=1))
            found.append(SessionDone(done, "Long", plan, "", Ending.FINISHED, (), 1500, rpe=5, pain={KNEE: back % 3}))
    return found


def timed(act: Callable[[], object], times: int) -> float:
    """Median of `times` runs, ms."""
    spent = []
    for _ in range(times):
        began = perf_counter()
        act()
        spent.append((perf_counter() - began) * 1000)
    return median(spent)


def measure(times: int = 15) -> dict[str, float]:
    """The figures: milliseconds, share of one frame of a 60 Hz screen, and ratio to a plain loop."""
    source = read_source(resource_dir("assets") / "programmes" / "brackwater")
    library = library_of(source, EXERCISES)
    session = long_session(library)
    records = three_years(session)
    body = Client(conditions=frozenset({Condition.KNEE_REPLACEMENT}), spare={KNEE: 1})
    stamp = Stamp("now", "p", NOW, NOW.date(), 0)
    answers = CheckIn(stamp, frozenset(), (), {KNEE: 4}, {KNEE: 0}, {}, 4, 3, 4)

    def whole() -> Timeline:
        diary = diary_today(answers, records, body)
        return compile_timeline(Order(session, library, body, Place(), date(2026, 11, 25), diary))

    steps = [s for s in whole().steps if s.kind is not StepKind.SETUP]
    numbers = list(range(len(records) + len(library) * 16 + len(steps)))

    def loop() -> int:
        total = 0
        for number in numbers:
            total += number
        return total

    spent, floor = timed(whole, times), timed(loop, times)
    return {"exercises": len(library), "steps": len(steps), "records": len(records), "integers": len(numbers),
            "ms": spent, "of a frame": spent / FRAME_MS, "times a plain loop": spent / floor}
