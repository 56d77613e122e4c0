"""Lives the story through: each day a check-in, a compiled session, the player, and what was said afterwards.

Everything goes through the same actions as the screens use, on a clock that is moved by hand; only what people
answer is made up.
"""
from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, time, timedelta

from app.actions import people
from app.actions.desk import intake, publishing
from app.actions.files import programmes, sending
from app.actions.training import check_in as checking
from app.actions.training import diary, playing
from app.actions.training.today import today
from app.demo.cast import WEEKS, Member, StoryDay, cast, spots
from app.demo.clock import StoryClock
from app.device.clock import Clock
from app.domain.dosing.screening import LIST_NOW
from app.domain.model.person import Person
from app.domain.model.plan import StepKind
from app.domain.model.record import CheckIn, Ending
from app.domain.player.player import Started
from app.domain.player.player_state import PlayerState, Status, advance
from app.resources import resource_dir
from app.storage.database import Store

SOURCE = "brackwater"


def _unwatched(_done: int, _of: int) -> None:
    """Nobody asks how far it is."""


def tell_story(store: Store, clock: Clock, told: Callable[[int, int], None] = _unwatched) -> None:
    """Fills a fresh store: coach, pack, three people, six weeks, and their returns at the desk.

    `told` hears how many of its parts are done, and of how many.
    """
    asyncio.run(_tell(store, clock, told))


async def _tell(store: Store, clock: Clock, told: Callable[[int, int], None]) -> None:
    now = clock.now()
    told(0, len(cast()) + 1)
    start = now - timedelta(weeks=WEEKS, days=1)
    built = await publishing.build(store, StoryClock(start), resource_dir("assets") / "programmes" / SOURCE)
    assert built.data is not None
    members = cast()
    for done, member in enumerate(members, 1):
        told(done, len(members) + 1)
        story = StoryClock(start)
        person = await _join(store, story, member, built.data, start.date())
        for before, day in zip((None, *member.days), member.days, strict=False):
            _live(store, story, person.id, day, before, now)
        story.set(max(story.now(), now - timedelta(days=member.sent_days_ago)))
        made = await sending.make_return(store, story, person.id)
        sending.note_sent(store, story, person.id, made)
        await intake.take_in(store, story, [(made.name, made.data)])
    people.leave(store)


async def _join(store: Store, story: StoryClock, member: Member, pack: bytes, day: date) -> Person:
    person = people.register(store, story, replace(member.person, started=day, screened=day, answered_list=LIST_NOW))
    opened = await programmes.open_pack(store, story, f"{SOURCE}.evenload-pack", pack)
    programmes.accept_pack(store, story, person.id, opened)
    return person


def _morning(day: StoryDay, now: datetime) -> datetime:
    there = (now.astimezone() - timedelta(days=day.days_ago)).date()
    return datetime.combine(there, time(9, 10)).astimezone()


def _live(store: Store, story: StoryClock, person_id: str, day: StoryDay, before: StoryDay | None,
          now: datetime) -> None:
    story.set(_morning(day, now))
    if day.place:
        person = today(store, story, person_id).person
        people.choose_place(store, person, day.place)
    blank = checking.blank_check_in(story, person_id)
    card = checking.save_check_in(store, story, _answers(blank, day, before))
    story.forward(60_000)
    if day.session:
        card = today(store, story, person_id, day.session)
    if card.timeline is None or not card.timeline.steps:
        return
    done = playing.keep_session(store, story, _play(store, story, playing.start_session(store, story, card), day))
    story.forward(120_000)
    told = day.pain if day.after is None else day.after
    diary.save_afterwards(store, done, rpe=done.plan.target_rpe + day.over, pain=spots(told), note=day.note)


def _answers(blank: CheckIn, day: StoryDay, before: StoryDay | None) -> CheckIn:
    """What they tell; on the morning after a session everything has settled to what it was before."""
    slept, energy, calm = day.feel
    settled = {where: before.pain.get(where, 0) for where in day.pain} if before else {}
    told = checking.with_signs(blank, day.signs)
    return replace(told, pain=spots(day.pain), morning_after=spots(settled), soreness=spots(day.soreness),
                   slept=slept, energy=energy, calm=calm)


def _play(store: Store, story: StoryClock, run: playing.Playing, day: StoryDay) -> playing.Playing:
    """From tap to tap as somebody would: on where it waits, easier where it is hard, an end before the end."""
    run = playing.do(store, story, run, Started())
    stop_ms = run.state.total_ms * day.stops_at // 100
    while not run.is_over:
        ahead_ms = _next_tap(run.state, stop_ms, day) - run.state.at_ms
        run = playing.go_on(store, story, _seen(story, run, max(1, ahead_ms)))
        if run.state.status in (Status.WAITING, Status.PAUSED):  # the easier option may pause, to sit down for it
            story.forward(4_000)
            run = playing.do(store, story, run, Started())
        elif day.stops_at < 100 and run.state.at_ms >= stop_ms and not run.is_over:
            ending = day.ending if day.ending is not Ending.FINISHED else Ending.TOO_MUCH
            run = playing.end_session(store, story, run, ending, day.sign)
        elif run.state.step.is_effort and run.state.step.exercise in day.easier:
            run = playing.take_easier(store, story, run)
    return run


def _seen(story: StoryClock, run: playing.Playing, by_ms: int) -> playing.Playing:
    """So much later, with somebody looking on all the time."""
    story.forward(by_ms)
    state = advance(run.state, run.state.at_ms + by_ms)
    return replace(run, state=replace(state, since=playing.moment(story)))


def _next_tap(state: PlayerState, stop_ms: int, day: StoryDay) -> int:
    """The next moment at which somebody does something, ms: a change of position, a hard exercise, the end."""
    ahead = [s for s in state.steps if s.end_ms > state.at_ms + 1]
    changes = [s.end_ms for s in ahead if s.kind is StepKind.CHANGE]
    hard = [s.start_ms + 1 for s in ahead if s.exercise in day.easier and s.is_effort and s.start_ms >= state.at_ms]
    return min([state.total_ms, *changes, *hard, *([stop_ms] if day.stops_at < 100 else [])])
