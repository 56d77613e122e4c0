"""A whole session in real time, outside CI: .venv/bin/python -m tests.browser.real_time [SECONDS]

Some 20 minutes in a Chromium without a window. The server's journal says when each step was due by the clock; the page
notes when it changed and where the sound track stood. Prints the table; `SECONDS` ends it early, to try it.
"""
from __future__ import annotations

import os
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from statistics import median

from playwright.sync_api import sync_playwright
from sqlalchemy import select

from app.domain.model.record import SessionDone
from app.domain.player.player import PlayerEvent, apply
from app.domain.player.player_state import Status, Wait, advance, open_player
from app.domain.player.tap_gates import waiting_steps
from app.domain.sound.audio_track import CueTrack, lay_track
from app.storage import journal, records
from app.storage.codec import decode_any
from app.storage.database import Store, open_store
from app.storage.journal import Run
from app.storage.tables import run as run_table
from app.words.client import pauses
from app.words.client import player as says
from tests.browser.count import Sight, sights
from tests.browser.driver import Walker
from tests.browser.prepared import prepare
from tests.browser.server import Server
from tests.browser.session import Session
from tests.browser.window import launch

AIM_MS, WORST = 150, 5
CHROMIUM = os.environ.get("EVENLOAD_CHROMIUM", "/usr/bin/chromium")
TAPS = (says.I_AM_DOWN, says.I_AM_UP, pauses.ALL_RIGHT, pauses.DONE_COUNTING)
#: The client's players stand in no document: they are caught when they first play, and looked at four times a second.
LISTEN = """() => { window.players = []; window.heard = [];
  const start = HTMLMediaElement.prototype.play;
  HTMLMediaElement.prototype.play = function(...how) {
    if (!window.players.includes(this)) window.players.push(this);
    return start.apply(this, how); };
  setInterval(() => { for (const one of window.players)
    if (/tracks/.test(one.src) && !one.paused) window.heard.push([Date.now(), 1000 * one.currentTime]); }, 250);
  setInterval(() => { if (!window.over && !/\\/play/.test(location.pathname)) window.over = Date.now(); }, 20); }"""


@dataclass(frozen=True)
class Stretch:
    """The session ran from position `at_ms` to `end_ms`; `wall_ms` is the clock at its start."""

    wall_ms: float
    at_ms: int
    end_ms: int

    def when(self, at_ms: int) -> float:
        """When the clock stood at a position."""
        return self.wall_ms + at_ms - self.at_ms


def stretches(run: Run) -> list[Stretch]:
    """Every stretch in which the session ran, by the events of the journal alone."""
    state = open_player(run.plan, frozenset(Wait(one) for one in run.about.get("waits", ())))
    found: list[Stretch] = []
    begun: tuple[float, int] | None = None
    for entry in run.entries:
        state = advance(state, entry.beat.position_ms)
        if begun is not None:
            found.append(Stretch(*begun, state.at_ms))
        event: PlayerEvent = decode_any(PlayerEvent, entry.event)
        state = apply(state, event)
        begun = (entry.beat.utc.timestamp() * 1000, state.at_ms) if state.status is Status.RUNNING else None
    if begun is not None:
        found.append(Stretch(*begun, advance(state, state.total_ms).at_ms))
    return found


def step_changes(run: Run, ran: Sequence[Stretch]) -> list[float]:
    """When the clock moved on to each step, a tap aside."""
    starts = [step.start_ms for step in run.plan.steps if step.length_ms]
    return [one.when(at) for one in ran for at in starts if one.at_ms < at < one.end_ms]


def lateness(due: Sequence[float], seen: Sequence[Sight]) -> list[float]:
    """How long after each change of step the screen showed it, ms. Every one must have been shown."""
    shown = [other.at_ms for one, other in pairwise(seen) if other.leaps_from(one)]
    found = []
    for at_ms in due:
        after = [one - at_ms for one in shown if -500 < one - at_ms < 2_000]
        assert after, f"a step that was due at {at_ms} was not seen"
        found.append(min(after, key=abs))
    return found


def drifts(track: CueTrack, ran: Sequence[Stretch], heard: Sequence[Sequence[float]]) -> Iterator[float]:
    """How far the track was ahead of the clock at each look, ms, half a second around each start left out."""
    for wall_ms, track_ms in heard:
        one = next((s for s in ran if s.wall_ms + 500 < wall_ms < s.when(s.end_ms) - 50), None)
        if one is not None:
            yield track_ms - (track.track_ms(one.at_ms) + wall_ms - one.wall_ms)


def share(values: Sequence[float], of_100: int) -> float:
    """The value that so many of a hundred do not exceed."""
    return sorted(values)[min(len(values) - 1, len(values) * of_100 // 100)]


def last_run(store: Store) -> tuple[Run, SessionDone | None]:
    """The session that was done, with its journal, and its record if it was finished."""
    with store.read() as db:
        row = db.execute(select(run_table).order_by(run_table.c.started_utc.desc()).limit(1)).mappings().one()
        return journal._run(db, row), records.latest(db, row["person_id"], SessionDone)


def report(run: Run, done: SessionDone | None, seen: Sequence[Sight], heard: Sequence[Sequence[float]],
           ended_ms: float) -> Iterator[str]:
    """The table."""
    ran = stretches(run)
    waits = frozenset(Wait(one) for one in run.about.get("waits", ()))
    track = lay_track(run.plan.steps, waiting=waiting_steps(run.plan.steps, waits, frozenset()))
    due = [one for one in step_changes(run, ran) if one < ended_ms - 1000]
    late = lateness(due, seen)
    off = [abs(one) for one in drifts(track, ran, heard)]
    yield f"| step changes by the clock | {len(late)} |"
    yield f"| shown after, median · 99th percentile · most | {median(late):.0f} · {share(late, 99):.0f} · " \
          f"{max(late):.0f} ms (aim: {AIM_MS} ms at the 99th percentile) |"
    for late_ms, due_ms in sorted(zip(late, due, strict=True), reverse=True)[:WORST]:
        said = next((one.said for one in seen if one.at_ms >= due_ms + late_ms), "")
        yield f"| … {late_ms:.0f} ms, {(due_ms - ran[0].wall_ms) / 1000:.0f} s after the start | {said} |"
    yield f"| taps on the way | {len(ran) - 1} |"
    yield f"| track and clock apart, median · 99th percentile · most | {median(off):.0f} · {share(off, 99):.0f} · " \
          f"{max(off):.0f} ms over {len(off)} looks |"
    if done is not None:
        clock_s = sum(one.end_ms - one.at_ms for one in ran) / 1000
        last = max((one for one in heard if one[0] <= ended_ms), key=lambda one: one[0])
        track_s = track.position_ms(round(last[1] + ended_ms - last[0])) / 1000
        wall_s = sum(min(ended_ms, one.when(one.end_ms)) - one.wall_ms for one in ran) / 1000
        yield "| at the end: plan · clock · wall · track · record | " \
              f"{run.plan.total_ms / 1000:.1f} · {clock_s:.1f} · {wall_s:.1f} · {track_s:.1f} · {done.took_s} s |"
    yield f"| load of the machine | {', '.join(f'{one:.1f}' for one in os.getloadavg())} |"


def play(walker: Walker, server: Server, seconds: float) -> tuple[list[Sight], list[list[float]], float]:
    """Starts, taps where it waits, and gives what was seen and heard, and when the screen said that it was over."""
    walker.page.emulate_media(reduced_motion="no-preference")
    walker.page.add_init_script(f"({LISTEN})()")
    session = Session(walker.open(server.at("/play")))
    session.start()
    end = time.monotonic() + seconds
    while "/play" in walker.page.url and time.monotonic() < end:
        for words in TAPS:
            if walker.button(words).count():
                walker.press(words)
        walker.page.wait_for_timeout(1_000)
    ended_ms = walker.page.evaluate("window.over || Date.now()")
    return sights(walker.page), walker.page.evaluate("window.heard"), ended_ms


def main() -> None:
    """One session."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 3_600
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        data = prepare("ready", Path(folder) / "data")
        server = Server(data).start()
        try:
            chromium = launch(playwright, CHROMIUM)
            with Walker(chromium) as walker:
                seen, heard, ended_ms = play(walker, server, seconds)
            chromium.close()
        finally:
            server.stop()
        assert not server.complaints(), server.complaints()
        with closing(open_store(data)) as store:
            run, done = last_run(store)
        print("\n".join(report(run, done, seen, heard, ended_ms)))


if __name__ == "__main__":
    main()
