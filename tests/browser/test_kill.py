"""`kill -9` at random moments of a session: it goes on where it was, and nothing that was shown is lost.

Measured twice: from the heartbeat in the store, to the millisecond, and from the count on the screen alone.
"""
from __future__ import annotations

import random
import re
import shutil
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from app.actions import people
from app.domain.model.plan import Step
from app.domain.player import player as events
from app.domain.player.player import apply
from app.domain.player.player_state import PlayerState, Status, advance, open_player
from app.storage import journal
from app.storage.codec import decode_any
from app.storage.database import open_store
from app.storage.journal import Run
from app.words.client import player as says
from tests.browser.count import Sight, note_press
from tests.browser.driver import Walker
from tests.browser.server import Server
from tests.browser.session import Session

pytestmark = pytest.mark.browser

SECOND_MS = 1_000
#: What the way from the engine to the screen may take: a look at the clock, a drawing, and the browser's turn.
SIGHT_MS = 600


@dataclass(frozen=True)
class Kept:
    """What the store held when the process was gone."""

    run: Run
    state: PlayerState
    """As it stood at the last heartbeat, without the question that a restart asks."""

    @property
    def last(self) -> object:
        """The last event."""
        return decode_any(events.PlayerEvent, self.run.entries[-1].event)


def kept(data_dir: Path, copy: Path) -> Kept:
    """Reads a copy, so that the store itself is left as the killed process left it."""
    shutil.copytree(data_dir, copy)
    store = open_store(copy)
    person = people.current_person(store)
    assert person
    with store.read() as db:
        run = journal.running(db, person.id)
    store.close()
    assert run, "the session is gone"
    state = open_player(run.plan)
    for entry in run.entries:
        event: events.PlayerEvent = decode_any(events.PlayerEvent, entry.event)
        state = apply(advance(state, entry.beat.position_ms), event)
    return Kept(run, advance(state, run.beat.position_ms))


def stood_at(found: Kept, killed_s: float) -> int:
    """The position at the kill, ms: the last heartbeat's, and the time since if it was running."""
    since = int(killed_s * 1000) - found.run.beat.mono_ms
    return advance(found.state, found.state.at_ms + since).at_ms


@dataclass(frozen=True)
class Act:
    """Something to press. It is shown once `words` stand on the page, or, without words, once the count has leapt."""

    event: type
    button: str | re.Pattern[str]
    """Or a key of the keyboard, which needs no button."""
    words: str = ""
    again: str = says.CAME_BACK
    """What stands on the page after the restart."""


KEYS = ("ArrowLeft", "ArrowRight")
ACTS = {
    "pause": Act(events.Paused, says.PAUSE, says.GO_ON),
    "skip": Act(events.Skipped, "ArrowRight"),
    "back": Act(events.WentBack, "ArrowLeft"),
    "easier": Act(events.Swapped, re.compile(f"^{says.EASIER}"), "From now on: "),
    "more rest": Act(events.LongerRest, says.LONGER_REST),
    "hurts": Act(events.StoodStill, says.HURTS, says.SIT_DOWN, again=says.SIT_DOWN),
}


def act(session: Session, names: list[str]) -> str:
    """Presses the first of these that can be pressed, waits until it is shown, and gives its name."""
    seen = session.until(lambda s: s.left_s >= 3)
    walker = session.walker
    name = next(name for name in names if ACTS[name].button in KEYS or walker.button(ACTS[name].button).count())
    chosen = ACTS[name]
    if chosen.button in KEYS:
        walker.key(str(chosen.button))
    else:
        walker.press(chosen.button)
    if chosen.words:
        walker.sees(re.compile(re.escape(chosen.words)))
    else:
        session.until(partial(Sight.leaps_from, other=seen))
    return name


def lies_at_an_edge(found: Kept) -> bool:
    """Whether a step began within the second that may be lost."""
    return found.state.at_ms + SECOND_MS >= found.state.step.end_ms


def position(steps: tuple[Step, ...], near_ms: int, left_ms: float) -> float:
    """The position that a count tells, ms: of all steps' ends less what is left, the one near a position."""
    return min((step.end_ms - left_ms for step in steps if step.length_ms), key=lambda at: abs(at - near_ms))


@pytest.mark.whole(keep=1)
@pytest.mark.parametrize("seed", range(20))
def test_a_killed_session_goes_on_where_it_was(
    seed: int, browser: Browser, ready: Path, serve: Callable[..., Server], tmp_path: Path,
) -> None:
    """Whatever was shown when the process died is there again, within a second of where it stood."""
    chance = random.Random(seed)
    shutil.copytree(ready, tmp_path / "data")
    server = serve(tmp_path / "data")
    with Walker(browser) as walker:
        session = Session(walker.open(server.at("/play")))
        session.start()
        session.skip(chance.randrange(0, 16))
        done = act(session, chance.sample(list(ACTS), len(ACTS))) if chance.random() < 0.8 else ""
        time.sleep(chance.uniform(0, 2.5))
        before, killed_ms = session.now(), time.time() * 1000
        killed_s = server.kill()
        found = kept(tmp_path / "data", tmp_path / "copy")
        walker.forgive()
        if done:
            assert isinstance(found.last, ACTS[done].event)
        lost_ms = stood_at(found, killed_s) - found.state.at_ms
        print(f"{done or 'nothing'} at {before.said}: {lost_ms} ms lost by the store", end="")
        assert 0 <= lost_ms <= SECOND_MS
        server.start()
        walker.let_in(server.address)
        again = ACTS[done].again if done else says.CAME_BACK
        walker.sees(re.compile(re.escape(again))).forgive()
        if again == says.CAME_BACK:
            check_screen(session, found, before, killed_ms)


def check_screen(session: Session, found: Kept, before: Sight, killed_ms: float) -> None:
    """It goes on with the same exercise and, by what the screen said before and says now, at the same place."""
    pressed = note_press(session.walker.page)  # on a busy machine it takes a while until a press is made
    session.walker.press(re.compile("^Carry on from minute"))
    pressed_ms = pressed()
    assert pressed_ms
    after = session.second_hand(pressed_ms)
    gone_ms = killed_ms - before.at_ms if found.state.status is Status.RUNNING else 0
    was = position(found.state.steps, found.state.at_ms, before.left_s * 1000 - gone_ms)
    now = position(found.state.steps, found.state.at_ms, after.left_s * 1000) - (after.at_ms - pressed_ms)
    print(f", {was - now:.0f} ms by the screen")
    assert abs(was - now) <= SECOND_MS + SIGHT_MS
    assert session.first(pressed_ms).about == before.about or lies_at_an_edge(found)
