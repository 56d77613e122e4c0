"""Which rows the table has, and how each is measured."""
from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from statistics import median

from tests.bench import served
from tests.bench.table import Line, short
from tests.bench.versions import CannotMeasure, Samples, Version

FRAME_MS = 1000 / 60
COMPILES, TRACKS, LISTS, INTAKES = 15, 5, 3, 1
"""How often each is measured in one turn."""


@dataclass(frozen=True)
class Order:
    """What to measure."""

    versions: tuple[Version, ...]
    turns: int
    clients: int
    returns: int
    chromium: str
    only: tuple[str, ...]


@dataclass
class Found:
    """All samples of one script, of every version and turn."""

    spent: dict[str, list[float]] = field(default_factory=dict)
    floor: list[float] = field(default_factory=list)
    facts: dict[str, dict[str, float]] = field(default_factory=dict)
    why_not: dict[str, str] = field(default_factory=dict)

    def add(self, version: str, samples: Samples) -> None:
        """One turn of one version."""
        self.spent.setdefault(version, []).extend(samples.spent)
        self.floor.extend(samples.floor)
        self.facts[version] = samples.facts

    def say(self, *names: str) -> str:
        """These facts of the version measured first; what they are is the same for both."""
        first = next(iter(self.facts.values()), {})
        return ", ".join(f"{first[name]:,.0f} {name}" for name in names if name in first)


def by_turns(order: Order, script: str, *arguments: object) -> Found:
    """Every version once in each turn; one that cannot be measured is left out of the rest."""
    found = Found()
    for _ in range(order.turns):
        for version in order.versions:
            if version.name in found.why_not:
                continue
            try:
                found.add(version.name, version.measure(script, *arguments))
            except CannotMeasure as lack:
                found.why_not[version.name] = str(lack)
    return found


def compiling(order: Order) -> Line:
    """One frame of a 60 Hz screen is what there is."""
    found = by_turns(order, "compiling", COMPILES)
    loops = {name: f"{name} {short(median(spent) / median(found.floor))}" for name, spent in found.spent.items()}
    sizes, times = found.say("exercises", "steps", "records"), ", ".join(loops.values())
    told = f"{sizes}; times a plain loop over their values: {times}"
    return Line("compile, dose and substitution", "one frame", "ms", "≤ 1", found.spent, (FRAME_MS,), told,
                found.why_not)


def track(order: Order) -> Line:
    """25 minutes."""
    found = by_turns(order, "cue_track", TRACKS)
    extra = ", ".join(f"{name} {facts['extra_mib']:.1f} MiB" for name, facts in found.facts.items())
    return Line("cue track, 25 min", "the same bytes of silence", "ms", "≤ 2", found.spent, found.floor,
                f"{found.say('cues', 'bytes')}; memory on top of the process: {extra}", found.why_not)


def intake(order: Order) -> Line:
    """Returns of a fortnight."""
    found = by_turns(order, "intake", order.returns, INTAKES)
    return Line(f"intake of {order.returns:,} returns", "json.loads and one executemany", "ms", "≤ 3", found.spent,
                found.floor, found.say("returns", "records"), found.why_not)


def attention(order: Order) -> Line:
    """Three years of every client."""
    once = replace(order, turns=1)  # filling a store takes minutes
    found = by_turns(once, "attention", order.clients, LISTS * order.turns)
    return Line(f"attention list, {order.clients:,} clients × 3 years", "one SQL aggregate", "ms", "≤ 3", found.spent,
                found.floor, found.say("clients", "records", "listed"), found.why_not)


def cues(order: Order) -> Line:
    """In samples; there is nothing to divide by."""
    found = by_turns(replace(order, turns=1), "cue_error")
    off = {name: [facts["samples"]] for name, facts in found.facts.items()}
    return Line("clock error of a cue, 30 min", "the sample clock", "samples", "0", off, (),
                found.say("cues", "minutes"), found.why_not)


def start_and_memory(order: Order) -> tuple[Line, Line]:
    """Both come from the same visits."""
    seen = served.visits(order.versions, order.turns, order.chromium)
    bare = seen.pop(served.BARE)
    return (
        Line("start to first usable screen", "bare Flet app", "ms", "≤ 1.25",
             {name: [one.start_ms for one in visits] for name, visits in seen.items()}, [one.start_ms for one in bare]),
        Line("memory of the server, player running", "bare Flet app", "MiB", "≤ 1.5",
             {name: [one.memory_mib for one in visits] for name, visits in seen.items()},
             [one.memory_mib for one in bare]),
    )


#: Row → how it is measured; `start` and `memory` are measured together.
ROWS: Mapping[str, Callable[[Order], Line] | None] = {
    "start": None, "compile": compiling, "track": track, "intake": intake, "attention": attention, "memory": None,
    "cues": cues,
}


def lines(order: Order, report: Callable[[str], None]) -> Iterator[Line]:
    """The rows that were asked for, in their order; `report` is told before each is measured."""
    together: dict[str, Line] = {}
    for name, measure in ROWS.items():
        if name not in order.only:
            continue
        if measure is not None:
            report(name)
            yield measure(order)
            continue
        if not together:
            report("start and memory")
            together = dict(zip(("start", "memory"), start_and_memory(order), strict=True))
        yield together[name]
