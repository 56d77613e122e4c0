"""A session being done: every event is journaled before it is shown, and the position every second."""
from __future__ import annotations

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import reduce

from app.actions.new_stamp import beat_now, new_stamp
from app.actions.output_settings import waits_in
from app.actions.training.today import Today, card_in
from app.device.clock import Clock
from app.domain.dosing.limits import Limits
from app.domain.dosing.way_back import check_ins_of, sessions_of
from app.domain.model.body import Spot
from app.domain.model.diary import AnsweredBy
from app.domain.model.exercise import Exercise
from app.domain.model.person import Person
from app.domain.model.plan import Timeline
from app.domain.model.record import Ending, Hurt, SessionDone
from app.domain.model.session_timing import JOURNAL_BEAT_MS
from app.domain.player.pain_response import Sparing, easier_now, spare, spared, wants_a_look
from app.domain.player.player import (
    Ended,
    Gap,
    HurtTold,
    Paused,
    PlayerEvent,
    Swapped,
    TakenBack,
    active_ms,
    done_steps,
    handle,
    restore,
    swap_to,
)
from app.domain.player.player_state import (
    OVER,
    Cause,
    Moment,
    PlayerState,
    Status,
    Unseen,
    Wait,
    open_player,
    tick,
)
from app.domain.progress.progression_today import shown_in
from app.storage import journal, people, records
from app.storage.codec import decode_any, encode
from app.storage.database import Connection, Store


@dataclass(frozen=True)
class Playing:
    """The session that somebody is in."""

    run: str
    person: Person
    pack: str
    plan: Timeline
    state: PlayerState
    library: Mapping[str, Exercise]
    limits: Limits
    name: str
    led: bool = False
    beaten_ms: int = -JOURNAL_BEAT_MS
    """Position of the last heartbeat kept."""

    @property
    def is_over(self) -> bool:
        """Whether it has ended, one way or another."""
        return self.state.status in OVER

    def easier(self) -> Exercise | None:
        """The easier option for what is being done or comes next, or None."""
        step = self.state.step if self.state.step.exercise else self.state.next_effort()
        if step is None or not step.exercise:
            return None
        return easier_now(self.library[step.exercise], self.library, self.person.body, self.limits)


def moment(clock: Clock, ahead_ms: int = 0) -> Moment:
    """Both clocks now, or so much later."""
    return Moment(clock.monotonic_ms() + ahead_ms, int(clock.now().timestamp() * 1000) + ahead_ms)


def start_session(store: Store, clock: Clock, card: Today) -> Playing:
    """Opens the player on today's session.

    Raises:
        ValueError: there is no session to do today.
    """
    if not card.timeline or not card.timeline.steps or not card.pack or not card.limits or not card.session:
        raise ValueError("no session today")
    run = uuid.uuid4().hex
    with store.begin() as db:
        waits = waits_in(db, card.person)
        about = {"name": card.session.name, "led": bool(card.person.led_by), "waits": sorted(waits)}
        journal.start_run(db, run, card.person.id, card.timeline, card.pack.sha256, about, beat_now(clock, 0))
    return Playing(run, card.person, card.pack.sha256, card.timeline, open_player(card.timeline, waits), card.library,
                   card.limits, card.session.name, bool(card.person.led_by))


def resume_session(store: Store, clock: Clock, person_id: str) -> Playing | None:
    """The session that was under way when the program ended, standing at its last heartbeat; None if none was."""
    with store.read() as db:
        run = journal.running(db, person_id)
        card = card_in(db, clock, person_id, run.plan.session) if run else None
    if run is None or card is None or card.limits is None:
        return None
    waits = frozenset(Wait(w) for w in run.about.get("waits", ()))
    past = ((_event(e.event), e.beat.position_ms) for e in run.entries)
    state = restore(run.plan, past, run.beat.position_ms, waits)
    if state.status is Status.ASKING:
        away_ms = int((clock.now() - run.beat.utc).total_seconds() * 1000)
        state = replace(state, unseen=Unseen(Cause.CLOSED, max(0, away_ms)))
    limits = reduce(spared, state.hurts, card.limits)
    return Playing(run.id, card.person, run.pack, run.plan, state, card.library, limits,
                   str(run.about.get("name", "")), bool(run.about.get("led")), run.beat.position_ms)


def _event(data: object) -> PlayerEvent:
    event: PlayerEvent = decode_any(PlayerEvent, data)
    return event


def do(store: Store, clock: Clock, playing: Playing, event: PlayerEvent) -> Playing:
    """Keeps the event with its position, then gives the state that follows it."""
    with store.begin() as db:
        return _done_in(db, clock, playing, event)


def _done_in(db: Connection, clock: Clock, playing: Playing, *events: PlayerEvent) -> Playing:
    """Several events that belong together, within a transaction: a killed session finds all of them or none."""
    for event in events:
        now = moment(clock)
        before = tick(playing.state, now)
        after = handle(before, event, now)
        if before.status is Status.ASKING and playing.state.status is Status.RUNNING:
            journal.append_event(db, playing.run, encode(Gap(), PlayerEvent), beat_now(clock, before.at_ms))
        journal.append_event(db, playing.run, encode(event, PlayerEvent), beat_now(clock, before.at_ms))
        journal.beat(db, playing.run, beat_now(clock, after.at_ms))
        playing = replace(playing, state=after, beaten_ms=after.at_ms)
    return playing


def go_on(store: Store, clock: Clock, playing: Playing) -> Playing:
    """Brings the position to now, and keeps it each second."""
    return keep_beat(store, clock, move_on(store, clock, playing))


def move_on(store: Store, clock: Clock, playing: Playing, ahead_ms: int = 0) -> Playing:
    """Brings the position to now, or a little ahead, for what takes time to be drawn.

    What is more than a position is kept: the end, and where the clocks have parted.
    """
    state = tick(playing.state, moment(clock, ahead_ms))
    if state.status is Status.ASKING and playing.state.status is Status.RUNNING:
        with store.begin() as db:
            journal.append_event(db, playing.run, encode(Gap(), PlayerEvent), beat_now(clock, state.at_ms))
    elif state.status is not playing.state.status:
        return _beaten(store, clock, replace(playing, state=state))
    return replace(playing, state=state)


def keep_beat(store: Store, clock: Clock, playing: Playing) -> Playing:
    """Keeps the position where a second has passed since it was kept: what a killed session is found by."""
    due = playing.state.status is Status.RUNNING and playing.state.at_ms - playing.beaten_ms >= JOURNAL_BEAT_MS
    return _beaten(store, clock, playing) if due else playing


def _beaten(store: Store, clock: Clock, playing: Playing) -> Playing:
    with store.begin() as db:
        journal.beat(db, playing.run, beat_now(clock, playing.state.at_ms))
    return replace(playing, beaten_ms=playing.state.at_ms)


def stand_away(store: Store, clock: Clock, playing: Playing) -> Playing:
    """Nobody looks any more: it stands where it is, and asks when somebody does."""
    return unseen(do(store, clock, playing, Gap()), Unseen(Cause.CLOSED))


def unseen(playing: Playing, what: Unseen) -> Playing:
    """With what is known of the time that nobody saw."""
    return replace(playing, state=replace(playing.state, unseen=what))


def take_easier(store: Store, clock: Clock, playing: Playing) -> Playing:
    """The easier option now, and for the rest of the session; the change counts as made by hand."""
    option = playing.easier()
    step = playing.state.step if playing.state.step.exercise else playing.state.next_effort()
    if option is None or step is None or not step.exercise:
        return playing
    written = step.exercise
    events: list[PlayerEvent] = [swap_to(written, option, by_hand=True)]
    if step.is_effort and playing.library[written].position is not option.position:
        events.append(Paused())  # nobody hurries from standing to a chair
    with store.begin() as db:
        after = _done_in(db, clock, playing, *events)
        people.count_choice(db, playing.person.id, step.written or written, option.id, clock.now())
    return after


def tell_hurt(store: Store, clock: Clock, playing: Playing, hurt: Hurt) -> Playing:
    """The answers after "that hurts": the region is spared for the rest, or the session ends."""
    step = playing.state.step if playing.state.step.exercise else playing.state.next_effort()
    hurt = replace(hurt, exercise=step.exercise if step else None, at_ms=playing.state.at_ms,
                   wants_look=wants_a_look(hurt, playing.limits))
    sparing: Sparing = spare(playing.state, hurt, playing.library, playing.person.body, playing.limits)
    swaps: list[Swapped] = [swap_to(written, option, by_hand=False) for written, option in sparing.swaps]
    with store.begin() as db:
        after = _done_in(db, clock, playing, HurtTold(hurt, sparing.leave_out, sparing.ends), *swaps)
    return replace(after, limits=sparing.limits)


def end_session(store: Store, clock: Clock, playing: Playing, ending: Ending, sign: str = "") -> Playing:
    """Stops before the end."""
    return do(store, clock, playing, Ended(ending, sign))


def keep_session(store: Store, clock: Clock, playing: Playing) -> SessionDone:
    """The record of a session that is over; the journal of it is closed in the same transaction."""
    state = playing.state
    stamp = new_stamp(clock, playing.person.id)
    used = {s.exercise for s in (*playing.plan.steps, *state.steps) if s.exercise} | {
        s.written for s in playing.plan.steps if s.written} | {m.exercise for m in playing.plan.moves}
    used |= {one for pair in state.by_hand for one in pair} | {h.exercise for h in state.hurts if h.exercise}
    done = SessionDone(
        stamp, playing.name, playing.plan, playing.pack,
        state.ending if state.status is Status.STOPPED else Ending.FINISHED, done_steps(state), state.at_ms // 1000,
        hurts=state.hurts, sign=state.sign, by_hand=state.by_hand,
        names={i: playing.library[i].name for i in sorted(used) if i in playing.library},
        answered_by=AnsweredBy.LEADER if playing.led else AnsweredBy.SELF,
        active_s=active_ms(state) // 1000,
    )
    with store.begin() as db:
        saved = records.save_record(db, done)
        journal.end_run(db, playing.run)
        person = people.person(db, playing.person.id)
        if person is not None and not shown_in(done) <= person.body.shown:
            people.save_person(db, replace(person, body=replace(person.body, shown=person.body.shown | shown_in(done))))
    return saved


MOST = 6


def sore_spots(store: Store, playing: Playing) -> tuple[Spot, ...]:
    """What hurt in this session, this morning, after the last one, then what is spared; at most six."""
    with store.read() as db:
        past = records.all_records(db, playing.person.id)
    found = [hurt.spot for hurt in reversed(playing.state.hurts)]
    for told in (check_ins_of(past)[-1:], sessions_of(past)[-1:]):
        for record in told:
            levels = record.pain or {}
            found += sorted((spot for spot in levels if levels[spot]), key=lambda spot: (-levels[spot], spot))
    found += [*sorted(playing.person.body.spare), *sorted(playing.person.body.usual_pain)]
    return tuple(dict.fromkeys(found))[:MOST]


def undo_easier(store: Store, clock: Clock, playing: Playing, was: Exercise, now: Exercise) -> Playing:
    """What stood there before the last `take_easier`, for the rest of the session; the choice is forgotten.

    What was done meanwhile stays as it was done. `was` is what it was, `now` the easier option that was taken.
    """
    written = next((s.written for s in playing.state.steps if s.exercise == now.id and s.written), was.id)
    with store.begin() as db:
        after = _done_in(db, clock, playing, TakenBack())
        people.forget_choice(db, playing.person.id, written, now.id)
    return after
