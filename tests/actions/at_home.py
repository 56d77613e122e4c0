"""Somebody who trains at home with a coach's programme, and a session done in it."""
from __future__ import annotations

import asyncio
import shutil
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from app.actions import people
from app.actions.desk import publishing
from app.actions.files import programmes
from app.actions.training import check_in, playing
from app.actions.training.today import today
from app.device.clock import ManualClock
from app.domain.dosing.screening import LIST_NOW
from app.domain.model.client import Client
from app.domain.model.person import Person
from app.domain.model.record import CheckIn, SessionDone
from app.domain.player.player import Skipped, Started
from app.resources import resource_dir
from app.storage.database import Store, open_store

HOME, DESK = "home", "desk"
_MADE: dict[datetime, tuple[TemporaryDirectory[str], Person]] = {}
"""By the moment at which it begins, since building a programme takes long: copied for each test."""


@dataclass
class Home:
    """The client's device and the coach's, both with the demo programme."""

    store: Store
    desk: Store
    clock: ManualClock
    person: Person

    def answer(self, **answers: object) -> CheckIn:
        """A good morning, save what is said otherwise."""
        blank = check_in.with_signs(check_in.blank_check_in(self.clock, self.person.id), ())
        good: dict[str, object] = {"pain": {}, "soreness": {}, "slept": 4, "energy": 4, "calm": 4}
        told = replace(blank, **(good | answers))  # type: ignore[arg-type]
        check_in.save_check_in(self.store, self.clock, told)
        return told

    def begin(self) -> playing.Playing:
        """Today's session, started."""
        run = playing.start_session(self.store, self.clock, today(self.store, self.clock, self.person.id))
        return playing.do(self.store, self.clock, run, Started())

    def done(self) -> SessionDone:
        """Today's session, skipped through."""
        run = self.begin()
        while not run.is_over:
            run = playing.do(self.store, self.clock, run, Skipped())
        return playing.keep_session(self.store, self.clock, run)

    async def a_day(self) -> None:
        """Moves on by two days."""
        await self.clock.advance(48 * 3600)


def home(folder: Path, clock: ManualClock) -> Home:
    """A fresh one; close both stores."""
    now = clock.now()
    if now not in _MADE:
        kept = TemporaryDirectory(prefix="evenload-home-")
        made = _home(Path(kept.name), clock)
        made.store.close()
        made.desk.close()
        _MADE[now] = kept, made.person
    kept, person = _MADE[now]
    for name in (HOME, DESK):
        shutil.copytree(Path(kept.name) / name, folder / name)
    return Home(open_store(folder / HOME), open_store(folder / DESK), clock, person)


def _home(folder: Path, clock: ManualClock) -> Home:
    desk, store = open_store(folder / DESK), open_store(folder / HOME)
    built = asyncio.run(publishing.build(desk, clock, resource_dir("assets") / "programmes" / "brackwater"))
    assert built.data is not None
    day = clock.local(clock.now()).day
    person = people.register(store, clock, Person("", "Tomas Verrey", body=Client(), screened=day,
                                                   answered_list=LIST_NOW))
    opened = asyncio.run(programmes.open_pack(store, clock, built.name, built.data))
    return Home(store, desk, clock, programmes.accept_pack(store, clock, person.id, opened))
