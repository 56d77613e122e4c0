"""Keys and small values that are the same in every run, so that a failure can be looked at twice."""
from __future__ import annotations

import asyncio
from collections.abc import Coroutine
from datetime import UTC, date, datetime
from typing import Any, TypeVar

from app.domain.model.body import Region, Spot
from app.domain.model.diary import Symptom
from app.domain.model.exercise import FIRST_AXES, Axis, Exercise, Mode, Option, Pattern, Position, Sides
from app.domain.model.person import Person
from app.domain.model.plan import Dose, Part, Reason, Step, StepKind, StepSide, Timeline
from app.domain.model.programme import Programme, Week
from app.domain.model.record import (
    CheckDone,
    CheckIn,
    Clearance,
    DoneStep,
    Ending,
    Event,
    EventKind,
    FunctionalCheck,
    How,
    SessionDone,
    Stamp,
)
from app.domain.model.rules import RuleId
from app.domain.model.session import Block, BlockKind, Item, Session
from app.domain.model.source import Source
from app.exchange.crypto.keys import ClientKeys, CoachKeys, KeyPair, recovery_pairs, sealing_pair, signing_pair
from app.exchange.letters.replies import ReplyContent, Yes
from app.exchange.letters.returns import ReturnContent

T = TypeVar("T")


def run(task: Coroutine[Any, Any, T]) -> T:
    """The task's result, on a loop of its own."""
    return asyncio.run(task)


def _pairs(byte: int) -> tuple[KeyPair, KeyPair]:
    return run(signing_pair(bytes([byte]) * 32)), run(sealing_pair(bytes([byte + 1]) * 32))


def coach_keys(byte: int, recovery: int = 9) -> CoachKeys:
    """A coach's keys, told apart by a number."""
    signing, sealing = run(recovery_pairs(bytes([recovery]) * 32))
    return CoachKeys(*_pairs(byte), signing.public, sealing.public)


RECOVERY_SIGNING, RECOVERY_SEALING = run(recovery_pairs(bytes([9]) * 32))
COACH, STRANGER = coach_keys(1), coach_keys(41, recovery=49)
CLIENT = ClientKeys(*_pairs(21))
OTHER_CLIENT = ClientKeys(*_pairs(31))
READERS = (COACH.sealing.public, COACH.recovery_sealing, CLIENT.sealing.public)

_demand = dict.fromkeys(FIRST_AXES, 0)
SOURCE = Source(
    id="quay", coach="Nell Harker", version=3,
    exercises=(
        Exercise("rise", "Stand up from a chair", Pattern.SQUAT, Position.SEATED, ("chair",), Sides.BOTH, Mode.REPS,
                 3500, 0, 5, ("quadriceps",), demand={**_demand, Axis.DEEP_KNEE_FLEXION: 2},
                 easier=(Option("perch", (Axis.DEEP_KNEE_FLEXION,)),)),
        Exercise("perch", "Hold half-way", Pattern.SQUAT, Position.STANDING, ("wall",), Sides.BOTH, Mode.HOLD,
                 0, 15, 5, ("quadriceps",), demand={**_demand, Axis.DEEP_KNEE_FLEXION: 1}),
    ),
    sessions=(Session("short", "Ten minutes", (Block(BlockKind.CIRCUIT, (Item("rise", work_s=30),), 2, 20, 60),)),),
    programmes=(Programme("month", "A month", (Week(("short",)),)),),
)

NOW = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
KNEE = Spot(Region.KNEE, "left")


def stamp(one: str, revision: int = 1) -> Stamp:
    """A stamp of Ada's."""
    return Stamp(one, "ada", NOW, date(2026, 3, 2), 60, revision)


PLAN = Timeline(
    "short", (Step(StepKind.WORK, Part.MAIN, 0, 30_000, "rise", StepSide.BOTH, 1),),
    Dose(2, 2, 90, 110, 100, (Reason(RuleId.PAIN, 2, (("spot", "left knee"), ("level", 4))),
                              Reason(RuleId.DAYS, 2, (("days", 9),)))),
)
CHECK_IN = CheckIn(stamp("c-1"), symptoms=frozenset({Symptom.HEAD_COLD}), pain={KNEE: 4}, morning_after={},
                   soreness={KNEE: 1}, slept=4, note="slept badly at first", stopped_by="pain")
DONE = SessionDone(stamp("s-1"), "Ten minutes", PLAN, "ab" * 32, Ending.FINISHED,
                   (DoneStep(0, "rise", 30_000, How.FULL),), 640, rpe=5, pain={KNEE: 3}, note="a good day",
                   names={"rise": "Stand up from a chair"})
YES = Clearance(stamp("y-1"), "c-1", "Dr Moss", "general practitioner")
STANDS = CheckDone(stamp("k-1"), FunctionalCheck.CHAIR_STAND, stands=9, note="the kitchen chair")
FALL = Event(stamp("e-1"), EventKind.FALL, since=date(2026, 3, 1), answers={"head": False, "hurts": True},
             stopped_by="fall", note="on the wet step")
AROUND = (STANDS, FALL, Event(stamp("e-2"), EventKind.PAUSE, since=date(2026, 3, 4), until=date(2026, 3, 17)),
          Event(stamp("e-3"), EventKind.ACTIVITY, what="walk", minutes=30))
ADA = Person("ada", "Ada", goals="to reach the top shelf", emergency_contact="Jo", emergency_number="999")
RETURN = ReturnContent(ADA, (CHECK_IN, DONE, YES), ("ab" * 32,), NOW, 1)
REPLY = ReplyContent("ada", 1, NOW, "Well done. Keep to the wall for now.", spare={KNEE: 1},
                     swaps=(("rise", "perch"),), clearance=Yes("c-1", "Dr Moss", "general practitioner"),
                     coach="Nell Harker")
