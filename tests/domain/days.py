"""Somebody's days with one small session, each compiled from the records so far, done, and told afterwards."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from app.domain.compile.stations import Order, session_kit
from app.domain.dosing.history import diary_today
from app.domain.dosing.limits import limits_today
from app.domain.model.body import parse_spot
from app.domain.model.client import Client, Place, UsualPain
from app.domain.model.exercise import Axis, Exercise, Mode, Option, Pattern, Position, Sides
from app.domain.model.plan import MoveKind, Timeline
from app.domain.model.record import CheckIn, DoneStep, Ending, How, Record, SessionDone
from app.domain.model.session import Block, BlockKind, Item, Session
from app.domain.progress.progression_state import StationState, standings
from app.domain.progress.progression_today import compile_moved
from tests.domain.past import check_in, stamp

PLAIN = Exercise("plain", "Plain", Pattern.SQUAT, Position.STANDING, (), Sides.BOTH, Mode.REPS, 2000, 0, 5, ("thighs",))
LIBRARY: Mapping[str, Exercise] = {e.id: e for e in (
    replace(PLAIN, id="march", name="March", pattern=Pattern.MOBILITY),
    replace(PLAIN, id="rise", name="Stand up from a chair", demand={Axis.DEEP_KNEE_FLEXION: 1},
            harder=(Option("low"),)),
    replace(PLAIN, id="low", name="Stand up from a low seat", demand={Axis.DEEP_KNEE_FLEXION: 2},
            easier=(Option("rise", (Axis.DEEP_KNEE_FLEXION,)),)),
    replace(PLAIN, id="curl", name="Curl", pattern=Pattern.ISOLATION, equipment=("dumbbell",), muscles=("biceps",),
            demand={Axis.ELBOW_LOAD: 1}, loaded=True, sides=Sides.EACH),
    replace(PLAIN, id="brace", name="Brace", pattern=Pattern.TRUNK_BRACE, mode=Mode.HOLD, rep_ms=0, hold_s=15,
            muscles=("abdominals",)),
)}
RISE, BRACE = Item("rise", work_s=30, steps=4), Item("brace", hold_s=15)
CURL = Item("curl", reps=8, load_g=2000, steps=4)
BODY = Client(weights_g=(1000, 2000, 3000, 5000))
KNEE = parse_spot("left knee")
#: The same body with a knee that often hurts, agreed on.
USUAL = replace(BODY, usual_pain={KNEE: UsualPain(4, "physiotherapist", stamp("", 99).local)})
#: Two clean sessions for each step, and more than a week from one to the next.
DAYS = tuple(range(0, 120, 4))


def session_of(*items: Item, rounds: int = 2) -> Session:
    """A warm-up, a circuit of these and a cool-down."""
    return Session("s", "S", (
        Block(BlockKind.WARM_UP, (Item("march", work_s=60),)), Block(BlockKind.CIRCUIT, items, rounds, 30, 60),
        Block(BlockKind.COOL_DOWN, (Item("march", work_s=30),))))


@dataclass
class Days:
    """The person, what the coach wrote, and the records so far."""

    client: Client = BODY
    session: Session = field(default_factory=lambda: session_of(RISE, CURL, BRACE))
    library: Mapping[str, Exercise] = field(default_factory=lambda: LIBRARY)
    place: Place = field(default_factory=Place)
    records: list[Record] = field(default_factory=list)

    @property
    def sessions(self) -> list[SessionDone]:
        """Those done."""
        return [r for r in self.records if isinstance(r, SessionDone)]

    def order(self, day: int, morning: CheckIn | None, **more: Any) -> Order:
        """What is compiled on that day."""
        diary = diary_today(morning, self.records, self.client) if morning else None
        today = stamp("", day).local
        return replace(Order(self.session, self.library, self.client, self.place, today, diary), **more)

    def plan(self, day: int, morning: CheckIn | None = None, **more: Any) -> Timeline:
        """That day's session after these answers, or a good morning."""
        order = self.order(day, morning or check_in(day), **more)
        limits = limits_today(order.client, order.place, order.diary, session_kit(self.session, self.library),
                              order.today)
        return compile_moved(order, limits, self.sessions)

    def do(self, day: int, morning: CheckIn | None = None, *, hows: Mapping[str, How] | None = None,
           lighter_week: bool = False, **told: Any) -> SessionDone:
        """That day's session, done in full and as hard as meant unless told otherwise, and kept."""
        plan = self.plan(day, morning, lighter_week=lighter_week)
        done = SessionDone(stamp(f"s{day:04}", day + 0.1), "S", plan, "", Ending.FINISHED, as_done(plan, hows or {}),
                           900, rpe=5, pain={})
        done = replace(done, **told)
        self.records += [morning or check_in(day), done]
        return done

    def good(self, *days: int) -> Days:
        """A clean session on each of these days."""
        for day in days:
            self.do(day)
        return self

    def at(self, day: int) -> dict[str, StationState]:
        """Where each station stands."""
        return standings(self.session, self.library, self.client, self.sessions, stamp("", day).local)


def moved(count: int, **more: Any) -> Days:
    """So many clean sessions, four days apart."""
    return Days(**more).good(*DAYS[:count])


def as_done(plan: Timeline, hows: Mapping[str, How]) -> tuple[DoneStep, ...]:
    """Every stretch of work in full, but those of these exercises, as written."""
    found = []
    for index, step in enumerate(plan.steps):
        if step.is_effort and step.exercise:
            how = hows.get(step.written or step.exercise, How.FULL)
            ms = {How.SKIPPED: 0, How.PART: step.length_ms // 2, How.STOPPED: 1000}.get(how, step.length_ms)
            found.append(DoneStep(index, step.exercise, ms, how))
    return tuple(found)


def amounts(plan: Timeline) -> dict[str, tuple[int, int | None, int | None]]:
    """Seconds, repetitions and grams of one bout of each exercise of the main part."""
    return {s.exercise or "": (s.length_ms // 1000, s.reps, s.load_g) for s in plan.steps
            if s.is_effort and s.part.value == "main"}


def steps(plan: Timeline) -> dict[str, tuple[int, MoveKind]]:
    """Each move's step and kind."""
    return {m.exercise: (m.step, m.what) for m in plan.moves}
