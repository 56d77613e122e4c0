"""A reply with limits in any order, twice, after a recovery of keys, from a former coach: what is told, what holds."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import timedelta

import pytest

from app.actions import people
from app.actions.files import messages, programmes, sending
from app.actions.files.messages import Came
from app.device.clock import ManualClock
from app.domain.errors import NotFollowed, RetiredKey, UntrustedSigner, WrongRecipient
from app.domain.model.body import Region, Spot
from app.domain.model.exercise import Axis
from app.domain.model.person import Person
from app.domain.model.record import Clearance
from app.exchange.crypto.keys import CoachKeys
from app.exchange.letters.replies import ReplyContent, Yes, write_reply
from app.exchange.packs.manifest import public_keys, signed_key_change
from app.exchange.packs.pack import build_pack
from app.storage import people as kept_people
from app.storage import records, replies, settings
from app.storage.database import Store
from app.storage.replies import Direction, Reply
from app.words.client import send as says
from tests.exchange.fixed import COACH, NOW, RECOVERY_SIGNING, SOURCE, STRANGER, coach_keys, run

KNEE, HIP = Spot(Region.KNEE, "left"), Spot(Region.HIP)
NEW = coach_keys(61)
ARON = replace(SOURCE, id="hill", coach="Aron Vale")


@dataclass
class Device:
    """A client's device on which Nell Harker's programme is followed."""

    store: Store
    clock: ManualClock
    person: Person

    def programme(self, coach: CoachKeys, **more: object) -> None:
        """A programme file, its words found the same."""
        source = more.pop("source", SOURCE)
        data = run(build_pack(source, coach=coach, **more))  # type: ignore[arg-type]
        opened = run(programmes.open_pack(self.store, self.clock, "file", data))
        programmes.accept_pack(self.store, self.clock, self.person.id, opened)

    def gets(self, number: int, coach: CoachKeys = COACH, later: int = 0, name: str = "Nell Harker", **said: object
             ) -> messages.Received:
        """A message, opened."""
        return self.opens(self.letter(number, coach, later, name, **said))

    def letter(self, number: int, coach: CoachKeys = COACH, later: int = 0, name: str = "Nell Harker", **said: object
               ) -> bytes:
        """A message, written `later` hours on."""
        own = run(sending.ensure_client_keys(self.store, self.clock, self.person.id))
        content = ReplyContent(self.person.id, number, NOW + timedelta(hours=later), coach=name,
                               **said)  # type: ignore[arg-type]
        return run(write_reply(content, coach=coach.signing, readers=[own.sealing.public]))

    def opens(self, data: bytes) -> messages.Received:
        """A file with a message."""
        return run(messages.receive(self.store, self.clock, self.person.id, data, "file"))

    @property
    def now(self) -> Person:
        """The person as kept."""
        with self.store.read() as db:
            found = kept_people.person(db, self.person.id)
        assert found is not None
        return found

    def recovers(self) -> None:
        """The coach's computer was lost: a programme with new keys, named by the sheet's."""
        change = run(signed_key_change(public_keys(NEW), RECOVERY_SIGNING, int(NOW.timestamp())))
        self.programme(NEW, source=replace(SOURCE, version=4), key_change=change)

    def changes_coach(self) -> None:
        """They follow Aron Vale from now on."""
        self.programme(STRANGER, source=ARON)
        programmes.follow(self.store, self.clock, self.person.id, STRANGER.signing.public.hex())


@pytest.fixture
def device(store: Store, clock: ManualClock) -> Device:
    made = Device(store, clock, people.register(store, clock, Person("", "Ada")))
    made.programme(COACH)
    return made


def told(got: messages.Received) -> str:
    """The sentence on the screen."""
    return says.came(got.came.value, got.message.number, got.passed_over, got.message.coach, has_effect=got.has_effect)


Step = Callable[[Device], str]


def _message(number: int, coach: CoachKeys = COACH, later: int = 0, **said: object) -> Step:
    return lambda device: told(device.gets(number, coach, later, **said))


def _refused(number: int, coach: CoachKeys, error: type[UntrustedSigner], **said: object) -> Step:
    def step(device: Device) -> str:
        with pytest.raises(error):
            device.gets(number, coach, **said)
        return error.__name__
    return step


def _does(what: Callable[[Device], None]) -> Step:
    def step(device: Device) -> str:
        what(device)
        return ""
    return step


OLDER = "You already have a later message, which decides about limits."
NOTHING_ELSE = f"{OLDER} Nothing else in it changes anything."
LIMIT, LIFT, STRICT = {"spare": {KNEE: 1}}, {"spare": dict[Spot, int]()}, {"spare": {KNEE: 0}}
WORDS = {"message": "Well done."}
RECOVERS, CHANGES = _does(Device.recovers), _does(Device.changes_coach)

#: Steps, what the screen says at each, and what is spared at the end.
TABLE: dict[str, tuple[tuple[Step, ...], tuple[str, ...], dict[Spot, int]]] = {
    "in order": ((_message(1, **LIMIT), _message(2, **WORDS)), (says.NEW, says.NEW), {KNEE: 1}),
    "words of the second before limits of the first": (
        (_message(2, **WORDS), _message(1, **LIMIT)), (says.NEW, says.NEW), {KNEE: 1}),
    "limits lifted before the limits come": (
        (_message(2, **LIFT), _message(1, **LIMIT)), (says.NEW, NOTHING_ELSE), {}),
    "stricter limits before the first ones, which have words too": (
        (_message(2, **STRICT), _message(1, **LIMIT, **WORDS)), (says.NEW, f"{OLDER} The rest applies from now on."),
        {KNEE: 0}),
    "twice": ((_message(1, **LIMIT), _message(1, **LIMIT)), (says.NEW, says.KNOWN), {KNEE: 1}),
    "the same number with stricter limits": (
        (_message(1, **LIMIT), _message(1, later=1, **STRICT)), (says.NEW, says.same_number(1, "Nell Harker")),
        {KNEE: 0}),
    "the same number, the one written earlier opened last": (
        (_message(1, later=1, **STRICT), _message(1, **LIMIT)),
        (says.NEW, f"{says.same_number(1, 'Nell Harker')} {NOTHING_ELSE}"), {KNEE: 0}),
    "after recovery the numbers begin anew": (
        (_message(7, **LIMIT), RECOVERS, _message(1, NEW, **STRICT)), (says.NEW, "", says.NEW), {KNEE: 0}),
    "after recovery, out of order": (
        (_message(7, **LIMIT), RECOVERS, _message(2, NEW, **STRICT), _message(1, NEW, **LIFT)),
        (says.NEW, "", says.NEW, NOTHING_ELSE), {KNEE: 0}),
    "a message of the lost key after recovery": (
        (_message(7, **LIMIT), RECOVERS, _refused(8, COACH, RetiredKey, **LIFT)), (says.NEW, "", "RetiredKey"),
        {KNEE: 1}),
    "a former coach with a number of ten million": (
        (CHANGES, _refused(10_000_000, COACH, NotFollowed, **LIFT), _message(1, STRANGER, **LIMIT)),
        ("", "NotFollowed", says.NEW), {KNEE: 1}),
    "a former coach's limits until the present one speaks": (
        (_message(9, **LIMIT), CHANGES, _message(1, STRANGER, **WORDS)), (says.NEW, "", says.NEW), {KNEE: 1}),
    "a former coach's limits replaced by the present one's": (
        (_message(9, **LIMIT), CHANGES, _message(1, STRANGER, spare={HIP: 1})), (says.NEW, "", says.NEW), {HIP: 1}),
    "a coach who is not followed yet": (
        (_refused(1, STRANGER, UntrustedSigner, **LIMIT), _message(1, **LIMIT)), ("UntrustedSigner", says.NEW),
        {KNEE: 1}),
}


@pytest.mark.parametrize("case", TABLE)
def test_what_is_told_and_what_holds(device: Device, case: str) -> None:
    """The table, line by line."""
    steps, sentences, holds = TABLE[case]
    assert tuple(step(device) for step in steps) == sentences
    assert device.now.body.spare == holds


def test_each_thing_is_ordered_by_itself(device: Device) -> None:
    """Limits of the third, what is held of the second, one change of the first: each from the last that spoke of it."""
    device.gets(3, limits={Axis.GRIP: 1})
    second = device.gets(2, held=frozenset({"rise"}), limits={Axis.GRIP: 0}, spare={KNEE: 1})
    first = device.gets(1, held=frozenset({"perch"}), swaps=(("rise", "perch"),))
    body = device.now.body
    assert (body.limits, body.held, body.spare, body.chosen) == (
        {Axis.GRIP: 1}, {"rise"}, {KNEE: 1}, {"rise": "perch"})
    assert (second.passed_over, first.passed_over) == (("limits",), ("held",))
    shown = {m.number: (m.limits_are_past, m.held_is_past) for m in messages.messages(device.store, device.person.id)}
    assert shown == {3: (False, False), 2: (True, False), 1: (False, True)}


def test_a_change_is_ordered_by_the_exercise_that_it_changes(device: Device) -> None:
    """A late message changes what no later one changes."""
    device.gets(2, swaps=(("rise", "perch"),))
    late = device.gets(1, swaps=(("rise", "sit"), ("perch", "sit")))
    assert device.now.body.chosen == {"rise": "perch", "perch": "sit"}
    assert late.passed_over == ("swaps",) and late.has_effect


def test_a_yes_bears_the_name_that_is_pinned(device: Device) -> None:
    """Whatever name stands in the message."""
    got = device.gets(1, name="Dr Moss", message="Yes.", clearance=Yes("c-1", "Dr Moss", "general practitioner"))
    assert got.message.coach == "Nell Harker"
    device.changes_coach()
    device.gets(1, STRANGER, name="Nell Harker", message="Hello.")
    assert {m.text: m.coach for m in messages.messages(device.store, device.person.id)} == {
        "Yes.": "Nell Harker", "Hello.": "Aron Vale"}


def test_a_former_coach_s_yes_lets_nobody_train(device: Device) -> None:
    """It is refused whole, and nothing of it is kept."""
    device.changes_coach()
    with pytest.raises(NotFollowed):
        device.gets(1, message="Go on.", clearance=Yes("c-1", "Dr Moss", "general practitioner"))
    with device.store.read() as db:
        assert records.records(db, device.person.id, Clearance) == ()
        assert replies.replies(db, device.person.id, Direction.RECEIVED) == ()


def test_two_yeses_under_one_number_are_two(device: Device) -> None:
    """The second one takes nothing from the first."""
    for hours, stop in ((0, "c-1"), (1, "c-2")):
        device.gets(1, later=hours, clearance=Yes(stop, "Dr Moss", "general practitioner"))
    with device.store.read() as db:
        assert {c.answers for c in records.records(db, device.person.id, Clearance)} == {"c-1", "c-2"}


def test_a_reply_for_another_person_of_the_device_is_refused(device: Device) -> None:
    """Also where it was sealed to the key of the one who opens it."""
    other = people.register(device.store, device.clock, Person("", "Lena"))
    theirs = run(sending.ensure_client_keys(device.store, device.clock, other.id))
    content = ReplyContent(device.person.id, 1, NOW, "Hello.", spare={KNEE: 0})
    data = run(write_reply(content, coach=COACH.signing, readers=[theirs.sealing.public]))
    programmes.follow(device.store, device.clock, other.id, COACH.signing.public.hex())
    with pytest.raises(WrongRecipient):
        run(messages.receive(device.store, device.clock, other.id, data, "file"))
    assert messages.messages(device.store, other.id) == ()


def test_a_return_tells_the_highest_number_under_all_keys_of_the_coach(device: Device) -> None:
    """Of the present coach alone, and no number that nobody reaches."""
    with device.store.read() as db:
        assert sending.highest_number(db, device.now) == 0
    device.gets(7, **WORDS)
    device.recovers()
    device.gets(2, NEW, **WORDS)
    with device.store.read() as db:
        assert sending.highest_number(db, device.now) == 7
    device.gets(9_000_000, NEW, **WORDS)
    with device.store.read() as db:
        assert sending.highest_number(db, device.now) == 7
    device.changes_coach()
    with device.store.read() as db:
        assert sending.highest_number(db, device.now) == 0


def _kept_before(device: Device, data: bytes, number: int, applied: bool) -> None:
    """As the program kept a message before it noted who signed it."""
    device.opens(data)
    with device.store.begin() as db:
        came, = (r for r in replies.replies(db, device.person.id, Direction.RECEIVED) if r.number == number)
        old = {key: said for key, said in came.content.items() if key != messages.FROM}
        from sqlalchemy import delete

        from app.storage.tables import reply
        db.execute(delete(reply).where(reply.c.number == number))
        replies.keep_reply(db, Reply(device.person.id, Direction.RECEIVED, number, old, device.clock.now()))
        settings.forget_setting(db, f"coach_orders:{device.person.id}")
        if not applied:
            person = device.now
            kept_people.save_person(db, replace(person, body=replace(person.body, spare={})))
            settings.forget_setting(db, f"coach_limits:{person.id}")


def test_a_message_kept_before_signers_were_noted_is_known(device: Device) -> None:
    """Opened once more it changes nothing; what came before it and was never opened counts as it should."""
    data = device.letter(2, spare={KNEE: 1})
    _kept_before(device, data, 2, applied=True)
    assert device.opens(data).came is Came.KNOWN
    assert device.gets(1, later=-1, spare={KNEE: 0}).passed_over == ("limits",)
    assert device.gets(3, later=1, spare={KNEE: 0}).passed_over == ()
    assert device.now.body.spare == {KNEE: 0}


def test_limits_that_were_lost_before_count_once_the_message_is_opened_again(device: Device) -> None:
    """An earlier version kept the first message without its limits, since the second had come before it."""
    first, second = device.letter(1, spare={KNEE: 1}), device.letter(2, later=1, message="Well done.")
    _kept_before(device, second, 2, applied=True)
    run(device.clock.advance(60))
    _kept_before(device, first, 1, applied=False)
    assert device.now.body.spare == {}
    assert device.opens(first).came is Came.NEW
    assert device.now.body.spare == {KNEE: 1}
    assert device.opens(first).came is Came.KNOWN
