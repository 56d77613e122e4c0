"""One client's weeks, lived through the real actions: check-in, today's session, the player, afterwards, the return."""
from __future__ import annotations

import asyncio
import random
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta

from app.actions import people
from app.actions.desk import attention_list, intake, publishing
from app.actions.files import programmes, sending
from app.actions.training import check_in as checking
from app.actions.training import diary, playing
from app.actions.training.screening import answer_stop_questions, record_stop_yes
from app.actions.training.today import Today, today
from app.demo.cast import StoryDay
from app.demo.clock import StoryClock
from app.demo.story import _play
from app.domain.dosing.screening import LIST_NOW
from app.domain.model.body import parse_spot
from app.domain.model.person import Person
from app.domain.model.plan import Timeline
from app.domain.model.record import AnsweredBy, CheckIn, SessionDone
from app.resources import resource_dir
from app.storage.database import Store, open_store
from tests.simulate.bodies import Body
from tests.simulate.kinds import WEEKS, Day, Kind

START = datetime(2026, 3, 2, 9, 10, tzinfo=UTC)
"""A Monday."""
SOURCE = "brackwater"
MEMORY = "sqlite://"


@dataclass(frozen=True)
class Told:
    """A reason that came on the coach's list, and in which week."""

    reason: str
    is_harm: bool
    week: int


@dataclass
class Story:
    """What became of one kind. `plans` holds every session's day and plan, also those that were not done whole."""

    kind: Kind
    done: list[SessionDone] = field(default_factory=list)
    cards: list[Today] = field(default_factory=list)
    mornings: list[CheckIn] = field(default_factory=list)
    told: list[Told] = field(default_factory=list)
    refused: list[date] = field(default_factory=list)
    """Days on which there was no session."""

    def plans(self) -> Iterator[tuple[date, Timeline]]:
        """Every session's day and plan, oldest first."""
        return ((done.stamp.local, done.plan) for done in self.done)


@contextmanager
def coached() -> Iterator[tuple[Store, bytes]]:
    """A desk, and the programme that it hands out, built once."""
    desk = open_store(MEMORY)
    built = asyncio.run(publishing.build(desk, StoryClock(START - timedelta(days=1)),
                                         resource_dir("assets") / "programmes" / SOURCE))
    assert built.data is not None
    yield desk, built.data
    desk.close()


def live(kind: Kind, pack: bytes, desk: Store, weeks: int = WEEKS) -> Story:
    """So many weeks with this client. The same kind lives the same weeks each time."""
    store, story, clock = open_store(MEMORY), Story(kind), StoryClock(START)
    body = Body(random.Random(zlib.crc32(kind.name.encode())), ceiling=kind.ceiling, bias=kind.bias)
    person = asyncio.run(_joined(store, clock, kind, pack))
    for week in range(weeks):
        for number, weekday in enumerate(kind.days):
            clock.set(START + timedelta(weeks=week, days=weekday))
            _live(store, clock, person.id, kind.lives(week, number), body, story)
        clock.set(START + timedelta(weeks=week, days=6, hours=9))
        asyncio.run(_heard_of(store, desk, clock, person, story, week))
    store.close()
    return story


async def _joined(store: Store, clock: StoryClock, kind: Kind, pack: bytes) -> Person:
    day = clock.now().date()
    person = people.register(store, clock, Person(
        "", kind.name, kind.body, (kind.place,), kind.place.name, programme=kind.programme, started=day, screened=day,
        answered_list=LIST_NOW,        led_by=kind.led_by, birth_year=1954))
    opened = await programmes.open_pack(store, clock, "p.evenload-pack", pack)
    return programmes.accept_pack(store, clock, person.id, opened)


def _live(store: Store, clock: StoryClock, person_id: str, day: Day, body: Body, story: Story) -> None:
    now = clock.local(clock.now()).day
    body.sleep_to(now)
    if not day.trains:
        return
    card = today(store, clock, person_id)
    if card.stop is not None and not day.signs and (not day.pain or body.waited(now, story.refused)):
        record_stop_yes(store, clock, person_id, card.stop, "R. Lund", "physiotherapist")
        clock.forward(1_000)
    if card.ask_again:
        answer_stop_questions(store, clock, person_id, ())
    if day.answers:
        blank = checking.blank_check_in(clock, person_id)
        card = checking.save_check_in(store, clock, _answers(blank, day, body, story))
        assert card.check_in is not None
        story.mornings.append(card.check_in)
    clock.forward(60_000)
    card = today(store, clock, person_id)
    story.cards.append(card)
    if card.timeline is None or not card.timeline.steps or card.ask_again:
        story.refused.append(now)
        return
    began = playing.start_session(store, clock, card)
    played = _play(store, clock, began, StoryDay(0, stops_at=day.share, ending=day.ending))
    done = playing.keep_session(store, clock, played)
    told = day.after if day.after is not None else day.pain
    rpe = day.rpe if day.rpe is not None else body.effort(done)
    if day.over is not None:
        rpe = min(10, done.plan.target_rpe + day.over)
    pain = {parse_spot(spot): level for spot, level in told.items()}
    done = diary.save_afterwards(store, done, rpe=rpe, pain=pain, note="")
    story.done.append(done)
    body.train(done, now, rpe)


def _answers(blank: CheckIn, day: Day, body: Body, story: Story) -> CheckIn:
    slept, energy, calm = day.feel
    before = story.mornings[-1].pain if story.mornings else None
    pain = {parse_spot(spot): level for spot, level in day.pain.items()}
    sore = {parse_spot(spot): level for spot, level in day.soreness.items()}
    if not sore and round(body.sore) > 0:
        sore = {parse_spot("hip"): round(body.sore)}
    settled = {spot: (before or {}).get(spot, level) for spot, level in pain.items()}
    by = AnsweredBy.LEADER if story.kind.led_by else AnsweredBy.SELF
    return replace(checking.with_signs(blank, day.signs), pain=pain, morning_after=settled, soreness=sore,
                   slept=slept, energy=energy, calm=calm, answered_by=by, flare_days=0)


async def _heard_of(store: Store, desk: Store, clock: StoryClock, person: Person, story: Story, week: int) -> None:
    """The week's return at the desk, where there is anything to send, and what the list then says of this client."""
    since = (clock.now() - timedelta(days=7)).date()
    if any(one.stamp.local > since for one in (*story.done, *story.mornings)):
        made = await sending.make_return(store, clock, person.id)
        sending.note_sent(store, clock, person.id, made)
        await intake.take_in(desk, clock, [(made.name, made.data)])
    seen = attention_list.attention_list(desk, clock)
    known = {(told.reason, told.is_harm) for told in story.told}
    for flag in (*seen.harm, *seen.progress, *seen.silence):
        if flag.name == story.kind.name and (str(flag.because), flag.is_harm) not in known:
            story.told.append(Told(str(flag.because), flag.is_harm, week))
