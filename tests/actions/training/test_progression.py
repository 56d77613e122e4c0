"""Sessions played to their end at home: stations move on, what was done is shown, a return carries it to the coach."""
from __future__ import annotations

import asyncio
from dataclasses import replace
from typing import Any

from app.actions.training import playing
from app.actions.training.diary import save_afterwards
from app.actions.training.today import Today, today
from app.domain.model.body import parse_spot
from app.domain.model.plan import MoveKind, StepKind, StepReason
from app.domain.model.record import SessionDone
from app.domain.model.session import Session
from app.domain.player.player import Started
from app.domain.player.player_state import Status
from app.exchange.forms.record_form import record_table
from app.storage import people, records
from app.storage.codec import from_text, to_text
from app.words.client.progression import move_text
from tests.actions.at_home import Home


def card(home: Home, session: str) -> Today:
    """Today's card of that session."""
    return today(home.store, home.clock, home.person.id, session)


def played(home: Home, session: str, **told: Any) -> SessionDone:
    """The session, with a good morning before, done to its end second by second, and told afterwards."""
    home.answer(**({"morning_after": {}} if card(home, session).records else {}), slept=5, energy=5, calm=5)
    run = playing.start_session(home.store, home.clock, card(home, session))
    run = playing.do(home.store, home.clock, run, Started())
    while not run.is_over:
        asyncio.run(home.clock.advance(run.state.left_ms / 1000))
        run = playing.go_on(home.store, home.clock, run)
        if run.state.status is Status.WAITING:
            run = playing.do(home.store, home.clock, run, Started())
    done = playing.keep_session(home.store, home.clock, run)
    good: dict[str, Any] = {"rpe": done.plan.target_rpe, "pain": {}}
    return save_afterwards(home.store, done, **(good | told))


def strength_session(home: Home) -> Session:
    """The first session of the coach's that holds strength work."""
    source = card(home, "").source
    assert source is not None
    return next(s for s in source.sessions if s.trains_strength(source.library()))


def test_after_two_good_sessions_each_station_moves_on_and_says_so(at_home: Home) -> None:
    """5 s or a repetition more in the third; as written again, for today, after a poor night."""
    session = strength_session(at_home)
    for _ in range(2):
        done = played(at_home, session.id)
        assert done.completed == 100 and done.plan.moves == ()
        asyncio.run(at_home.a_day())
    before = card(at_home, session.id)
    assert before.timeline is not None and before.timeline.moves == ()
    at_home.answer(morning_after={}, slept=5, energy=5, calm=5)
    now = card(at_home, session.id)
    assert now.timeline is not None and now.timeline.dose.level == 0
    assert now.timeline.moves and {m.step for m in now.timeline.moves} == {1}
    assert {m.what for m in now.timeline.moves} <= {MoveKind.SECONDS, MoveKind.REPS}
    assert now.timeline.total_ms > done.plan.total_ms
    for move in now.timeline.moves:
        assert move_text(move, now.names).endswith("in all, after two good sessions.")
    asyncio.run(at_home.clock.advance(60))
    at_home.answer(morning_after={}, slept=1, energy=5, calm=5)
    poor = card(at_home, session.id).timeline
    assert poor is not None and poor.dose.level == 2 and poor.moves == ()


def test_what_moved_on_is_kept_sent_and_read_again(at_home: Home) -> None:
    """In the record, with the names of its exercises; an old record says nothing of it and reads the same."""
    session = strength_session(at_home)
    for _ in range(3):
        done = played(at_home, session.id)
        asyncio.run(at_home.a_day())
    assert done.plan.moves and {m.because for m in done.plan.moves} == {StepReason.CLEAN}
    assert {m.exercise for m in done.plan.moves} <= set(done.names)
    with at_home.store.read() as db:
        kept = records.records(db, at_home.person.id, SessionDone)
    assert kept[-1] == done and from_text(SessionDone, to_text(done)) == done
    assert len(record_table(done)["plan"]["moves"]) == len(done.plan.moves)
    assert "moves" not in record_table(kept[0])["plan"] and '"moves"' not in to_text(kept[0])


def test_what_was_done_in_full_is_shown_from_then_on_and_set_up_as_usual(at_home: Home) -> None:
    """The first time takes longer."""
    session = strength_session(at_home)
    first = card(at_home, session.id).timeline
    done = played(at_home, session.id)
    with at_home.store.read() as db:
        person = people.person(db, at_home.person.id)
    assert person is not None
    assert person.body.shown == {s.exercise for s in done.plan.steps if s.is_effort}
    asyncio.run(at_home.a_day())
    second = card(at_home, session.id).timeline
    assert first is not None and second is not None

    def set_up_ms(plan: Any) -> int:
        return sum(s.length_ms for s in plan.steps if s.kind is StepKind.SETUP)

    assert set_up_ms(second) < set_up_ms(first)


def test_a_station_that_hurt_goes_back_and_what_the_coach_holds_stays(at_home: Home) -> None:
    """Through the records alone."""
    session = strength_session(at_home)
    for _ in range(2):
        played(at_home, session.id)
        asyncio.run(at_home.a_day())
    at_home.answer(morning_after={}, slept=5, energy=5, calm=5)
    plan = card(at_home, session.id).timeline
    assert plan is not None
    one = plan.moves[0].exercise
    with at_home.store.begin() as db:
        person = people.person(db, at_home.person.id)
        assert person is not None
        people.save_person(db, replace(person, body=replace(person.body, held=frozenset({one}))))
    held = card(at_home, session.id).timeline
    assert held is not None and {m.exercise for m in held.moves} == {m.exercise for m in plan.moves} - {one}
    done = played(at_home, session.id, pain={parse_spot("left knee"): 4})
    asyncio.run(at_home.a_day())
    at_home.answer(morning_after={}, slept=5, energy=5, calm=5)
    after = card(at_home, session.id).timeline
    assert done.plan.moves == held.moves and after is not None and after.moves == ()
