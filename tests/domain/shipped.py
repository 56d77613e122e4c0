"""The source that is shipped with the program, and small arithmetic over compiled sessions."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from functools import cache

from app.domain.compile.stations import Order
from app.domain.compile.timeline import compile_timeline
from app.domain.model.client import Client, Place
from app.domain.model.diary import Diary, Last
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Part, Step, Timeline
from app.domain.model.source import Source
from app.exchange.forms.source import read_source
from app.resources import resource_dir
from tests.sampling import is_whole, spread

TODAY = date(2026, 3, 2)
WELL = Diary(
    symptoms=frozenset(), pain={}, pain_rise={}, soreness={}, slept=5, energy=5, calm=5,
    last=Last(days_ago=3, rpe=5, target_rpe=5, completed=100, pain=0),
)
"""Everything answered, everything as well as can be."""


@cache
def shipped() -> Source:
    """The coach's work under `assets/programmes/brackwater`."""
    return read_source(resource_dir("assets") / "programmes" / "brackwater")


@cache
def library() -> dict[str, Exercise]:
    """Its exercises by id."""
    return shipped().library()


SESSIONS = tuple(s.id for s in shipped().sessions)
"""Every session's id."""
SOME = tuple(SESSIONS if is_whole() else spread(SESSIONS, 8))
"""Those of a sampled run."""
USUAL = "dumbbell-circuit"
"""One with strength work, weights, accessory stations and a stay on the floor."""


def order(session_id: str = USUAL, client: Client | None = None, place: Place | None = None,
          diary: Diary | None = WELL, **more: object) -> Order:
    """A session of the shipped source, for somebody well with everything at hand unless told otherwise."""
    session = shipped().session(session_id)
    assert session is not None
    return replace(Order(session, library(), client or Client(), place or Place(), TODAY, diary), **more)


def compiled(session_id: str = USUAL, client: Client | None = None, place: Place | None = None,
             diary: Diary | None = WELL, **more: object) -> Timeline:
    """The same, compiled."""
    return compile_timeline(order(session_id, client, place, diary, **more))


def efforts(timeline: Timeline, part: Part | None = None) -> list[Step]:
    """Stretches in which the body works, of one part or of all."""
    return [s for s in timeline.steps if s.is_effort and part in (None, s.part)]


def effort_ms(timeline: Timeline, part: Part | None = None) -> int:
    """How long the body works."""
    return sum_ms(efforts(timeline, part))


def sum_ms(steps: Iterable[Step]) -> int:
    """Their lengths together."""
    return sum(s.length_ms for s in steps)
