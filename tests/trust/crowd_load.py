"""A whole crowd: waves of scripted windows, two browsers that stay through all of them, and what was kept of it."""
from __future__ import annotations

import statistics
import tempfile
from collections.abc import Iterator
from contextlib import closing, nullcontext
from dataclasses import dataclass, field
from pathlib import Path
from threading import BrokenBarrierError

from sqlalchemy import text

from app.actions import people
from app.domain.model.record import CheckIn, Event, EventKind, SessionDone
from app.storage import records
from app.storage.database import Store, open_store
from tests.browser.prepared import prepare
from tests.trust.crowd import Wave, wave_of
from tests.trust.crowd_browsers import FEELS, browsers
from tests.trust.crowd_server import CrowdServer

MOST_GROWN_MIB = 8.0
"""From the second wave to the last. Each visit that stayed would be a tenth of that and more."""
HEAD = "wave | opened | answered | first screen, median | slowest | then, slowest | came back | strangers cut | memory"


@dataclass
class Load:
    """What a crowd came to."""

    waves: list[Wave] = field(default_factory=list)
    windows: int = 0
    """Opened in all, as the server counts them."""
    start_mib: float = 0.0
    peak_mib: float = 0.0
    log: list[str] = field(default_factory=list)
    """Lines that the server logged."""
    store_bytes: tuple[int, int] = (0, 0)
    """Before and after, with the journal beside it."""
    browsers_s: dict[str, float] = field(default_factory=dict)
    browsers_amiss: list[str] = field(default_factory=list)
    records_amiss: list[str] = field(default_factory=list)

    @property
    def walks(self) -> int:
        """Diary entries that clients were told are kept."""
        return sum(one.walks for one in self.waves)

    @property
    def refused(self) -> list[str]:
        """Windows of the owner that were not let in."""
        return [what for one in self.waves for what in one.refused]

    @property
    def slowest_s(self) -> float:
        """The longest that a client waited for any answer."""
        return max((each for one in self.waves for each in (*one.first_s, *one.answer_s)), default=0.0)

    def rows(self) -> Iterator[str]:
        """The table."""
        yield HEAD
        for number, one in enumerate(self.waves, 1):
            first, then = one.first_s or [0.0], one.answer_s or [0.0]
            yield (f"{number} | {one.clients} | {len(one.first_s)} | {statistics.median(first):.2f} s | "
                   f"{max(first):.2f} s | {max(then):.2f} s | {one.resumed} of {one.left} | {one.turned_away} | "
                   f"{one.memory_mib:.1f} MiB")
        yield (f"crowd: {self.windows} windows opened, {len(self.refused)} of the owner's refused, "
               f"{len(self.log)} lines in the server's log, slowest answer {self.slowest_s:.2f} s")
        end = self.waves[-1].memory_mib if self.waves else 0.0
        yield f"memory: {self.start_mib:.1f} MiB at the start, {self.peak_mib:.1f} at most, {end:.1f} at the end"
        before, after = self.store_bytes
        yield f"store: {before // 1024} KiB before, {after // 1024} KiB after; {self.walks} diary entries kept"
        if self.browsers_s:
            yield "browsers: " + ", ".join(f"{name} {took:.1f} s" for name, took in sorted(self.browsers_s.items()))
        for what in self.amiss():
            yield f"    AMISS: {what}"

    def amiss(self) -> list[str]:
        """What went wrong with anybody, what grew that should not have, and what was not kept."""
        wrong = [f"wave {number}: {what}" for number, one in enumerate(self.waves, 1) for what in _amiss(one)]
        wrong += [f"the server's log: {line}" for line in self.log[-3:]]
        wrong += ["nobody was tried"] * (not any(one.clients for one in self.waves))
        grown = self.waves[-1].memory_mib - self.waves[1].memory_mib if len(self.waves) > 2 else 0.0
        wrong += [f"memory grew by {grown:.1f} MiB from the second wave on"] * (grown > MOST_GROWN_MIB)
        return [*wrong, *self.browsers_amiss, *self.records_amiss]


def _amiss(wave: Wave) -> Iterator[str]:
    yield from wave.amiss
    yield from (f"the owner was refused: {what}" for what in wave.refused)
    if len(wave.first_s) < wave.clients:
        yield f"{len(wave.first_s)} of {wave.clients} were answered"
    if wave.left and not wave.resumed:
        yield "nobody who came back found the visit that was left"
    if wave.visits:
        yield f"{wave.visits} visits are left in memory"


def load(clients: int, waves: int, browser: str = "") -> Load:
    """So many waves of so many clients; with the path of a Chromium, two browsers beside them."""
    with tempfile.TemporaryDirectory(prefix="evenload-crowd-") as folder:
        data, found = prepare("ready", Path(folder) / "data"), Load()
        before, server = _size(data), CrowdServer(data).start()
        try:
            found.start_mib = server.count()["memory_mib"]
            _come(server, found, clients, waves, browser)
            last = server.count()
            found.windows, found.peak_mib, found.log = int(last["opened"]), last["peak_mib"], server.log
        finally:
            server.stop()
        found.store_bytes = (before, _size(data))
        with closing(open_store(data)) as store:
            found.records_amiss += not_whole(store, walks=found.walks, browsers=bool(browser))
    return found


def _come(server: CrowdServer, found: Load, clients: int, waves: int, browser: str) -> None:
    beside = browsers(server, browser, found.browsers_amiss) if browser else nullcontext()
    try:
        with beside as both:
            found.waves += [wave_of(server, clients, 2 if both else 0) for _ in range(waves)]
        if both:
            found.browsers_s = both.took_s
    except BrokenBarrierError:
        found.browsers_amiss.append("the browsers did not come to their pages")


def not_whole(store: Store, *, walks: int, browsers: bool) -> list[str]:
    """What of that which was said to be kept is not there as it was said, or is there twice."""
    person = people.current_person(store)
    assert person
    with store.read() as db:
        kept = records.all_records(db, person.id)
        checked = [str(one) for one in db.execute(text("PRAGMA integrity_check")).scalars()]
        loose = len(db.execute(text("PRAGMA foreign_key_check")).all())
    wrong = [f"the store: {', '.join(checked)}"] * (checked != ["ok"])
    wrong += [f"the store: {loose} rows belong to nothing"] * (loose > 0)
    entries = [one for one in kept if isinstance(one, Event) and one.kind is EventKind.ACTIVITY]
    wrong += [f"{len(entries)} diary entries are kept, {walks} were said to be"] * (len(entries) != walks)
    answers = [(one.slept, one.energy, one.calm) for one in kept if isinstance(one, CheckIn)]
    wanted = [(FEELS,) * 3] if browsers else [(4, 4, 4)]
    wrong += [f"the check-in is kept as {answers}, not as {wanted}"] * (answers != wanted)
    sessions = sum(isinstance(one, SessionDone) for one in kept)
    wrong += [f"{sessions} sessions are kept"] * (sessions != int(browsers))
    return wrong


def _size(data: Path) -> int:
    """Bytes of the store and the journal beside it."""
    return sum(place.stat().st_size for name in ("evenload.db", "evenload.db-wal") if (place := data / name).exists())
