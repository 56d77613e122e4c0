"""A coach's store, and clients elsewhere whose returns come to it."""
from __future__ import annotations

import asyncio
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from app.actions.desk import publishing
from app.device.clock import ManualClock
from app.domain.model.body import Region, Spot
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Part, Step, StepKind, StepSide, Timeline
from app.domain.model.record import CheckIn, DoneStep, Ending, How, Hurt, Record, SessionDone, Stamp
from app.exchange.crypto.keys import ClientKeys, new_sealing_pair, new_signing_pair
from app.exchange.letters.returns import ReturnContent, write_return
from app.storage.database import Store

NOW = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
KNEE = Spot(Region.KNEE, "right")
PLAN = Timeline(
    "short",
    (Step(StepKind.SETUP, Part.MAIN, 0, 8_000, "chair-squat"),
     Step(StepKind.WORK, Part.MAIN, 8_000, 30_000, "chair-squat", StepSide.BOTH, 1)),
    Dose(0, 1, 100, 100, 100),
)


def stamp(person: str, record: str, days_ago: int = 0) -> Stamp:
    """A first revision, so many days before now."""
    utc = NOW - timedelta(days=days_ago)
    return Stamp(record, person, utc, utc.date(), 0)


def check_in(person: str, record: str, days_ago: int = 0, pain: int | None = 0, **more: object) -> CheckIn:
    """A morning with a knee that hurts so much; None: not said."""
    told = None if pain is None else ({KNEE: pain} if pain else {})
    return CheckIn(stamp(person, record, days_ago), frozenset(), pain=told, **more)  # type: ignore[arg-type]


def session(person: str, record: str, days_ago: int = 0, rpe: int = 5, **more: object) -> SessionDone:
    """A whole session of the plan above."""
    told = {"ending": Ending.FINISHED, "took_s": 1200, "rpe": rpe, "pain": {}} | more
    return SessionDone(stamp(person, record, days_ago), "Short one", PLAN, "ab" * 32, **{  # type: ignore[arg-type]
        "done": (DoneStep(1, "chair-squat", 30_000, How.FULL),), **told})


def gave_way(person: str, record: str) -> SessionDone:
    """A session ended by a knee that gave way and hardly hurt."""
    return session(person, record, ending=Ending.PAIN, hurts=(Hurt(KNEE, 1, gave_way=True),))


@dataclass
class Client:
    """Somebody elsewhere, with their own keys and a count of returns."""

    person: Person
    keys: ClientKeys = field(default_factory=lambda: asyncio.run(new_keys()))
    sent: int = 0

    def sends(self, store: Store, records: Iterable[Record], made: datetime = NOW) -> bytes:
        """A return sealed to the coach of that store."""
        self.sent += 1
        known = publishing.coach_keys(store) or asyncio.run(publishing.ensure_coach_keys(store, ManualClock(NOW)))
        keys = self.keys
        content = ReturnContent(self.person, tuple(records), (), made, self.sent)
        return asyncio.run(write_return(content, client=keys, readers=[known.sealing.public, known.recovery_sealing]))


async def new_keys() -> ClientKeys:
    """Fresh keys of a client."""
    return ClientKeys(await new_signing_pair(), await new_sealing_pair())
