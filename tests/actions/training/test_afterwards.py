"""What is said after a session, what it means for the next, and an easier option taken back."""
from __future__ import annotations

import asyncio
from dataclasses import replace
from datetime import timedelta

from app.actions.training import playing
from app.actions.training.afterwards import outlook, unanswered, undo_sign
from app.actions.training.diary import put_back, save_afterwards, take_back
from app.actions.training.playing import undo_easier
from app.domain.model.body import Region, Spot
from app.domain.model.record import Ending, Hurt, SessionDone
from app.domain.model.rules import RuleId
from app.domain.player.player import Skipped, Started
from app.domain.player.player_state import Status
from app.domain.player.rest_changes import changes_between
from app.storage import people, records
from tests.actions.at_home import Home

KNEE = Spot(Region.KNEE, "left")


def told(at_home: Home, rpe: int, pain: dict[Spot, int]) -> None:
    at_home.answer()
    run = at_home.begin()
    while not run.is_over:
        asyncio.run(at_home.clock.advance(run.state.left_ms / 1000))
        run = playing.go_on(at_home.store, at_home.clock, run)
        if run.state.status is Status.WAITING:
            run = playing.do(at_home.store, at_home.clock, run, Started())
    done = playing.keep_session(at_home.store, at_home.clock, run)
    save_afterwards(at_home.store, done, rpe=rpe, pain=pain)


def test_pain_makes_the_next_session_lighter(at_home: Home) -> None:
    """The answer is that of the real rules, pain of 5 → level 2 with its reason."""
    told(at_home, 4, {KNEE: 5})
    ahead = outlook(at_home.store, at_home.clock, at_home.person.id)
    assert ahead.stop is None and ahead.dose.level >= 2
    assert RuleId.PAIN in {r.rule for r in ahead.dose.reasons}


def test_the_outlook_is_what_that_morning_decides(at_home: Home) -> None:
    """Two days later, with all well, the check-in leads to the level that was foretold."""
    told(at_home, 8, {KNEE: 3})
    foretold = outlook(at_home.store, at_home.clock, at_home.person.id).dose.level
    asyncio.run(at_home.a_day())
    check = at_home.answer(slept=5, energy=5, calm=5, morning_after={})
    with at_home.store.read() as db:
        kept = records.record(db, at_home.person.id, check.stamp.id)
    assert kept is not None and getattr(kept, "level", None) == foretold


def test_a_stop_sign_waits_for_a_yes_until_it_is_a_mistake(at_home: Home) -> None:
    """Taken back it counts as cut short, and the note says that it was pressed."""
    at_home.answer()
    run = playing.end_session(at_home.store, at_home.clock, at_home.begin(), Ending.SIGN, "dizziness")
    done = playing.keep_session(at_home.store, at_home.clock, run)
    assert outlook(at_home.store, at_home.clock, at_home.person.id).stop is not None
    changed = undo_sign(at_home.store, done, "Pressed by mistake.")
    assert (changed.ending, changed.sign, changed.note) == (Ending.INTERRUPTED, "", "Pressed by mistake.")
    assert outlook(at_home.store, at_home.clock, at_home.person.id).stop is None


def test_what_is_not_yet_answered_is_asked(at_home: Home) -> None:
    """A session without an effort, within the days asked for; not once it is told."""
    at_home.answer()
    done = at_home.done()
    with at_home.store.read() as db:
        everything = records.all_records(db, at_home.person.id)
    assert unanswered(everything, done.stamp.local) == (done,)
    assert unanswered(everything, done.stamp.local + timedelta(days=1)) == ()
    save_afterwards(at_home.store, done, rpe=3, pain=None)
    with at_home.store.read() as db:
        assert unanswered(records.all_records(db, at_home.person.id), done.stamp.local) == ()


def test_an_entry_taken_back_can_be_put_back_whole(at_home: Home) -> None:
    """Its content is gone meanwhile, and is as it was afterwards."""
    at_home.answer()
    done = at_home.done()
    take_back(at_home.store, done)
    with at_home.store.read() as db:
        empty = records.record(db, at_home.person.id, done.stamp.id)
    assert isinstance(empty, SessionDone) and empty.stamp.deleted and empty.done == ()
    back = put_back(at_home.store, done)
    assert isinstance(back, SessionDone) and (back.done, back.stamp.deleted) == (done.done, False)


def test_an_easier_option_taken_back_leaves_no_trace_for_next_time(at_home: Home) -> None:
    """The exercise is there again, and the choice is not remembered."""
    at_home.answer()
    run = at_home.begin()
    while (now := run.easier()) is None:
        run = playing.do(at_home.store, at_home.clock, run, Skipped())
    step = run.state.step if run.state.step.exercise else run.state.next_effort()
    assert step is not None and step.exercise is not None
    was = run.library[step.exercise]
    eased = playing.take_easier(at_home.store, at_home.clock, run)
    assert now.id in {s.exercise for s in eased.state.steps}
    back = undo_easier(at_home.store, at_home.clock, eased, was, now)
    assert [s.exercise for s in back.state.steps] == [s.exercise for s in run.state.steps]
    with at_home.store.read() as db:
        assert people.choices(db, at_home.person.id) == ()


def test_what_changed_after_that_hurts_can_be_told(at_home: Home) -> None:
    """Each exercise that the knee no longer allows is named as replaced or left out, and each once."""
    at_home.answer()
    run = at_home.begin()
    after = playing.tell_hurt(at_home.store, at_home.clock, run, Hurt(KNEE, 6))
    found = changes_between(run.state, after.state)
    named = [old for old, _ in found.swaps] + list(found.left_out)
    assert named and len(named) == len(set(named))
    left = {s.exercise for i, s in enumerate(after.state.steps) if s.is_effort and i not in after.state.passed_by}
    assert not left & set(named)


def test_much_pain_where_one_was_operated_on_ends_it_and_waits_for_a_look(at_home: Home) -> None:
    """As the same answer in the morning does; a knee that is not new is spared, and it goes on."""
    at_home.answer()
    run = at_home.begin()
    assert not playing.tell_hurt(at_home.store, at_home.clock, run, Hurt(KNEE, 6)).is_over
    new = replace(run, limits=replace(run.limits, looked_at={KNEE: 6}))
    after = playing.tell_hurt(at_home.store, at_home.clock, new, Hurt(KNEE, 6))
    assert after.is_over and after.state.hurts[-1].wants_look
    done = playing.keep_session(at_home.store, at_home.clock, after)
    stop = outlook(at_home.store, at_home.clock, at_home.person.id).stop
    assert stop is not None and stop.id == done.stamp.id and stop.yes_from == "clinician"
