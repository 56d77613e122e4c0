"""Hours of use on a fast clock: check-ins, sessions walked through second by second, and Today looked at in between.

From one session to the next two days pass, which do not count as use: on the same day nobody is given another one.

Below the screens: the store, the player and the actions. Memory and the journal beside the store should stay flat; the
store itself grows by what was written into it.
"""
from __future__ import annotations

import gc
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path

from app.actions import people
from app.actions.training import check_in, diary, playing
from app.actions.training.today import today
from app.domain.player.player import Started
from app.domain.player.player_state import Status
from tests.exchange.fixed import ADA
from tests.trust.undertakings import World, phone

#: Growth of memory, MiB, over the second half of the hours; and what the journal beside the store may measure, bytes.
MOST_GROWN_MIB, MOST_JOURNAL = 16.0, 8_000_000
HOUR_MS, MINUTE_MS = 3_600_000, 60_000
DAYS_MS = 48 * HOUR_MS


@dataclass(frozen=True)
class SoakHour:
    """How it stood at the end of an hour."""

    memory_mib: float
    store_bytes: int
    journal_bytes: int
    sessions: int


def soak(hours: int) -> list[SoakHour]:
    """So many simulated hours of use."""
    with tempfile.TemporaryDirectory(prefix="evenload-soak-") as folder:
        place = Path(folder) / "data"
        phone(place)
        world, found, sessions, used_ms = World(place), [], 0, 0
        for hour in range(1, hours + 1):
            while used_ms < hour * HOUR_MS:
                began = world.clock.monotonic_ms()
                sessions += _session(world)
                for _ in range(10):
                    world.clock.forward(MINUTE_MS)
                    today(world.store, world.clock, ADA.id)
                used_ms += world.clock.monotonic_ms() - began
                world.clock.forward(DAYS_MS)
            gc.collect()
            found.append(SoakHour(_memory_mib(), (place / "evenload.db").stat().st_size,
                                  _size(place / "evenload.db-wal"), sessions))
        world.store.close()
    return found


def amiss(found: list[SoakHour]) -> str:
    """What grew that should not have; empty: nothing."""
    half = found[len(found) // 2:]
    if half and half[-1].memory_mib - half[0].memory_mib > MOST_GROWN_MIB:
        return f"memory grew from {half[0].memory_mib:.0f} to {half[-1].memory_mib:.0f} MiB"
    largest = max((one.journal_bytes for one in found), default=0)
    return f"the journal grew to {largest} bytes" if largest > MOST_JOURNAL else ""


def _session(world: World) -> int:
    """Answers, and the session to its end where there is one; how many were done."""
    store, clock = world.store, world.clock
    person = people.current_person(store)
    if person is not None:  # the stop questions are asked anew from time to time
        people.change_person(store, replace(person, screened=clock.local(clock.now()).day))
    blank = check_in.with_signs(check_in.blank_check_in(clock, ADA.id), ())
    card = check_in.save_check_in(store, clock, replace(blank, pain={}, soreness={}, slept=4, energy=4, calm=4))
    clock.forward(MINUTE_MS)
    if card.timeline is None or not card.timeline.steps:
        return 0
    run = playing.do(store, clock, playing.start_session(store, clock, card), Started())
    while not run.is_over:
        clock.forward(1_000)
        run = playing.go_on(store, clock, run)
        if run.state.status in (Status.WAITING, Status.PAUSED):
            run = playing.do(store, clock, run, Started())
    diary.save_afterwards(store, playing.keep_session(store, clock, run), rpe=5, pain={})
    return 1


def _size(path: Path) -> int:
    return path.stat().st_size if path.exists() else 0


def _memory_mib() -> float:
    """What this process has now; 0 where nobody can say."""
    status = Path("/proc/self/status")
    if not status.exists():
        return 0.0
    return next(int(line.split()[1]) for line in status.read_text().splitlines() if line.startswith("VmRSS")) / 1024
