"""A coach's message: opened, kept once, and what it says holds from then on."""
from __future__ import annotations

import asyncio
from dataclasses import replace
from datetime import date

import pytest

from app.actions.desk import intake, replying
from app.actions.desk.replying import ReplyDraft
from app.actions.files import messages, sending
from app.actions.people import change_person, register
from app.actions.training import playing
from app.actions.training.today import today
from app.domain.errors import AppError, WrongRecipient
from app.domain.model.body import Region, Spot
from app.domain.model.client import AxisLimit
from app.domain.model.exercise import Axis
from app.domain.model.person import Person
from app.domain.model.record import Ending
from app.storage import people
from tests.actions.at_home import Home

KNEE = Spot(Region.KNEE, "left")


def sent_home(at_home: Home) -> None:
    """A return that the coach has taken in, so that they can answer."""
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    asyncio.run(intake.take_in(at_home.desk, at_home.clock, [(made.name, made.data)]))


def answered(at_home: Home, answer: ReplyDraft) -> replying.Written:
    return asyncio.run(replying.write(at_home.desk, at_home.clock, at_home.person.id, answer))


def receive(at_home: Home, data: bytes) -> messages.Received:
    return asyncio.run(messages.receive(at_home.store, at_home.clock, at_home.person.id, data, "a file"))


def body(at_home: Home) -> Person:
    with at_home.store.read() as db:
        found = people.person(db, at_home.person.id)
    assert found is not None
    return found


def test_a_message_is_kept_and_limits_hold(at_home: Home) -> None:
    """Words, areas to spare and limits; one's own stricter limit stays."""
    change_person(at_home.store, replace(at_home.person, body=replace(at_home.person.body, limits={Axis.IMPACT: 0})))
    sent_home(at_home)
    made = answered(at_home, ReplyDraft("Well done.", spare={KNEE: 1}, limits={Axis.IMPACT: 2, Axis.GRIP: 1}))
    got = receive(at_home, made.data)
    assert (got.known, got.message.text, got.message.number) == (False, "Well done.", 1)
    assert body(at_home).body.spare == {KNEE: 1}
    assert body(at_home).body.limits == {Axis.IMPACT: 0, Axis.GRIP: 1}
    assert [m.text for m in messages.messages(at_home.store, at_home.person.id)] == ["Well done."]


def test_a_limit_on_any_axis_comes_with_who_said_so_and_until_when(at_home: Home) -> None:
    """The client's own stricter one stays; a later list of limits replaces it with its words."""
    sent_home(at_home)
    told = AxisLimit(Axis.BEARING_DOWN, 1, "Dr Moss", date(2026, 12, 1))
    receive(at_home, answered(at_home, ReplyDraft(limits={Axis.BEARING_DOWN: 2}, limits_told=(told,))).data)
    assert body(at_home).body.limits == {Axis.BEARING_DOWN: 1} and body(at_home).body.told_limits == (told,)
    receive(at_home, answered(at_home, ReplyDraft("Well done.")).data)
    assert body(at_home).body.told_limits == (told,)
    receive(at_home, answered(at_home, ReplyDraft(limits={})).data)
    assert (body(at_home).body.limits, body(at_home).body.told_limits) == ({}, ())


def test_a_coach_holds_exercises_and_makes_a_change_last(at_home: Home) -> None:
    """What is held stays until a later message replaces the list; a message without one leaves it."""
    sent_home(at_home)
    got = receive(at_home, answered(at_home, ReplyDraft(held=frozenset({"sit-to-stand"}),
                                                    swaps=(("squat", "wall-squat"),))).data)
    assert (got.message.held, got.message.swaps) == (("sit-to-stand",), (("squat", "wall-squat"),))
    assert body(at_home).body.held == {"sit-to-stand"} and body(at_home).body.chosen == {"squat": "wall-squat"}
    receive(at_home, answered(at_home, ReplyDraft("Well done.")).data)
    assert body(at_home).body.held == {"sit-to-stand"}
    receive(at_home, answered(at_home, ReplyDraft(held=frozenset())).data)
    assert body(at_home).body.held == frozenset()


def test_the_text_form_will_do(at_home: Home) -> None:
    """Pasted from a messenger, with what is around it."""
    sent_home(at_home)
    made = answered(at_home, ReplyDraft("Go on like this."))
    assert receive(at_home, f"Hi Tomas,\n> {made.text}\nbye".encode()).message.text == "Go on like this."


def test_twice_changes_nothing(at_home: Home) -> None:
    """The second time it is known, also where the client has changed a limit since."""
    sent_home(at_home)
    made = answered(at_home, ReplyDraft(spare={KNEE: 1}))
    receive(at_home, made.data)
    changed = body(at_home)
    change_person(at_home.store, replace(changed, body=replace(changed.body, spare={})))
    assert receive(at_home, made.data).known
    assert body(at_home).body.spare == {}


def test_a_later_message_takes_the_limits_back(at_home: Home) -> None:
    """An empty mapping lifts them; an earlier message that comes late brings nothing back."""
    sent_home(at_home)
    first = answered(at_home, ReplyDraft(spare={KNEE: 0}))
    second = answered(at_home, ReplyDraft("Free again.", spare={}))
    receive(at_home, second.data)
    late = receive(at_home, first.data)
    assert not late.known
    assert body(at_home).body.spare == {}
    assert [m.number for m in messages.messages(at_home.store, at_home.person.id)] == [2, 1]


def test_a_recorded_yes_answers_the_stop(at_home: Home) -> None:
    """After a stop sign there is no session until the clinician's yes has come."""
    at_home.answer()
    run = playing.end_session(at_home.store, at_home.clock, at_home.begin(), Ending.SIGN, "dizziness")
    playing.keep_session(at_home.store, at_home.clock, run)
    assert today(at_home.store, at_home.clock, at_home.person.id).stop is not None
    sent_home(at_home)
    made = answered(at_home, ReplyDraft(yes_who="Dr Okafor", yes_kind="doctor"))
    got = receive(at_home, made.data)
    assert got.message.yes == "Dr Okafor, doctor"
    assert today(at_home.store, at_home.clock, at_home.person.id).stop is None


def test_what_is_not_for_them_is_refused_and_nothing_kept(at_home: Home) -> None:
    """A message for somebody else on the same device, bytes of anything, and a changed file."""
    sent_home(at_home)
    made = answered(at_home, ReplyDraft("Hello.", spare={KNEE: 0}))
    broken = made.data[:-1] + bytes([made.data[-1] ^ 1])
    for data in (b"hello", broken, made.data[:100]):
        with pytest.raises(AppError):
            receive(at_home, data)
    other = register(at_home.store, at_home.clock, Person("", "Lena"))
    with pytest.raises(WrongRecipient):
        asyncio.run(messages.receive(at_home.store, at_home.clock, other.id, made.data, "a file"))
    assert messages.messages(at_home.store, at_home.person.id) == ()
    assert body(at_home).body.spare == {}
