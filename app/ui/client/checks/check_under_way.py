"""A check that one page is in: from the instructions to the result. It holds no control."""
from __future__ import annotations

import asyncio
from collections.abc import Callable
from enum import Enum

from app.actions.training.checks import keep_check
from app.domain.checks.check_clock import (
    CheckClock,
    check_cues,
    moved_on,
    started,
    stopped,
    with_one_more,
)
from app.domain.checks.functional_checks import (
    CHAIR_STANDS,
    HIGH_SEAT_CM,
    ONE_LEGGED,
    SEAT_CM_LEAST,
    SEAT_CM_MOST,
    WALKS,
    WITH_SOMEBODY,
)
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, FunctionalCheck
from app.domain.model.session_timing import BREATH_S, CHECK_LOOK_S
from app.domain.sound.cues import CueKind, sounding
from app.ui.shell.shell import Shell
from app.words.client import checks as words


class Stage(Enum):
    """Where somebody is."""

    READ = "read"
    TRY = "try"
    CLOCK = "clock"
    RESULT = "result"
    AMISS = "amiss"
    KEPT = "kept"


class Doing:
    """`redraw` draws the page anew."""

    def __init__(self, shell: Shell, person: Person, check: FunctionalCheck, redraw: Callable[[], None],
                 last_seat: int | None = None) -> None:
        self.shell, self.person, self.check, self.redraw = shell, person, check, redraw
        self.stage = Stage.READ
        self.company: bool | None = True if person.led_by else None
        """Whether somebody is beside them; only asked where it must be so, and not of whoever leads them."""
        self.side = ""
        self.aid: bool | None = None
        self.hands: bool | None = None
        self.stands = 0
        self.seat = str(last_seat or "")
        """Height of the seat as written."""
        self.complaint = ""
        self.clock = CheckClock(check)
        self.kept: CheckDone | None = None
        self._cues = check_cues(check)
        self._heard_ms = 0
        self._shown: object = None
        self._closed = False

    @property
    def now_ms(self) -> int:
        """The moment, on the machine's monotonic clock."""
        return self.shell.clock.monotonic_ms()

    @property
    def at_ms(self) -> int:
        """ms since the signal; negative before."""
        return self.clock.at(self.now_ms)

    @property
    def lacks(self) -> bool:
        """Whether something that was asked on the first page is not answered as it must be."""
        asks_company = self.asks_company and not self.company
        return (asks_company or (self.check in ONE_LEGGED and not self.side)
                or (self.check in WALKS and self.aid is None))

    @property
    def asks_company(self) -> bool:
        """Whether it takes somebody, or for the supported one a wall."""
        return self.check in WITH_SOMEBODY or self.check is FunctionalCheck.ONE_LEG_HELD

    @property
    def seat_cm(self) -> int | None:
        """The height that was written; None where it is empty or no height of a seat."""
        told = self.seat.strip()
        height = int(told) if told.isascii() and told.isdigit() else 0
        return height if SEAT_CM_LEAST <= height <= SEAT_CM_MOST else None

    @property
    def seat_complaint(self) -> str:
        """What is wrong with the height: none that can be, or too low for the higher seat, which has to be known."""
        high = self.check is FunctionalCheck.CHAIR_STAND_HIGH
        if self.check not in CHAIR_STANDS or (not self.seat.strip() and not high):
            return ""
        if self.seat_cm is None:
            return words.SEAT_WRONG
        return words.SEAT_LOW if high and self.seat_cm < HIGH_SEAT_CM else ""

    def put(self, **values: object) -> None:
        """An answer."""
        for name, value in values.items():
            setattr(self, name, value)
        self.complaint = ""
        self.redraw()

    def go(self, stage: Stage) -> None:
        """Another stage; the clock is set back where the timing begins."""
        if stage is Stage.CLOCK:
            self.clock = CheckClock(self.check)
            self.shell.run(self.shell.device.sounds.load)
        self.stage, self.complaint = stage, ""
        self.redraw()

    def start(self) -> None:
        """The count-in, or at once on one leg."""
        self.clock = started(CheckClock(self.check), self.now_ms)
        self._heard_ms = self.at_ms - 1
        self.shell.run(self.shell.device.awake.keep)
        self.redraw()

    def count(self) -> None:
        """One more stand."""
        self.clock = with_one_more(self.clock, self.now_ms)
        self.redraw()

    def stop(self) -> None:
        """The end, by hand."""
        self.clock = stopped(self.clock, self.now_ms)
        if self.clock.took_ms is not None:
            self.shell.run(self.shell.device.sounds.play, CueKind.FINISH.value)
        self._end_if_over()
        self.redraw()

    def amiss(self) -> None:
        """Something is wrong: nothing of it is kept."""
        self.clock = CheckClock(self.check)
        self.go(Stage.AMISS)

    def keep(self) -> None:
        """Keeps the result."""
        chair = self.check in CHAIR_STANDS
        self.kept = keep_check(
            self.shell.store, self.shell.clock, self.person, self.check, stands=self.stands if chair else None,
            time_ms=None if chair else self.clock.took_ms, side=self.side, hands_used=chair and bool(self.hands),
            aid=bool(self.aid), seat_cm=self.seat_cm if chair else None)
        self.go(Stage.KEPT)

    async def run(self) -> None:
        """Follows the clock until the page is left."""
        while not self._closed:
            await self.shell.clock.sleep(CHECK_LOOK_S)
            await asyncio.sleep(BREATH_S)
            self.tick()

    def tick(self) -> None:
        """Gives the cue that is due, ends what is over, and draws what has changed."""
        if not self.clock.is_running:
            return
        at = self.at_ms
        cue = sounding(self._cues, self._heard_ms, at)
        self._heard_ms = at
        if cue is not None:
            self.shell.run(self.shell.device.sounds.play, cue.kind.value)
            if cue.buzz is not None:
                self.shell.run(self.shell.device.haptics.play, cue.buzz.value)
        self.clock = moved_on(self.clock, self.now_ms)
        self._end_if_over()
        shown = (self.stage, at // 1000, self.clock.stands)
        if shown != self._shown:
            self._shown = shown
            self.redraw()

    def _end_if_over(self) -> None:
        if self.clock.took_ms is not None and self.stage is Stage.CLOCK:
            self.stands, self.stage = self.clock.stands, Stage.RESULT
            self.shell.run(self.shell.device.awake.release)

    def close(self) -> None:
        """The page is left."""
        self._closed = True
        if self.clock.is_running:
            self.shell.run(self.shell.device.awake.release)
