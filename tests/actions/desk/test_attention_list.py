"""Who needs the coach, what was done about it, and what is answered."""
from __future__ import annotations

import asyncio
from collections.abc import Iterable
from datetime import date, timedelta

import pytest

from app.actions.desk import attention_list, intake, publishing, replying
from app.actions.desk.replying import ReplyDraft
from app.device.clock import ManualClock
from app.domain.errors import UnknownName, WrongValue
from app.domain.measures.attention_summary import AttentionReason, Flag
from app.domain.model.diary import Symptom
from app.domain.model.person import Person
from app.domain.model.record import CheckIn, Ending, Record
from app.exchange.crypto.text_form import from_text
from app.exchange.letters.file_names import reply_name
from app.exchange.letters.replies import read_reply
from app.storage import people, records, replies
from app.storage.attention_marks import MarkState
from app.storage.database import Store
from app.storage.people import Trains
from app.storage.replies import Direction
from tests.actions.afar import KNEE, NOW, Client, check_in, gave_way, session


def known(store: Store, name: str, told: Iterable[Record], heard_days: int = 0) -> None:
    """Somebody elsewhere, last heard of so many days ago."""
    heard = NOW - timedelta(days=heard_days)
    with store.begin() as db:
        if people.person(db, name) is None:
            people.add_person(db, Person(name, name), Trains.ELSEWHERE, heard)
        records.merge_records(db, told)
        people.note_return(db, name, 1, heard)


def test_of_whoever_sends_no_pain_the_list_says_so(store: Store, clock: ManualClock) -> None:
    """Their silence about harm is none."""
    shares = frozenset({"sessions", "pain", "check_ins", "notes"})
    with store.begin() as db:
        for name, sends in (("Cy", shares), ("Bo", shares - {"pain"}), ("Ada", frozenset[str]()),
                            ("Di", shares - {"notes"})):
            people.add_person(db, Person(name, name, sends=sends), Trains.ELSEWHERE, NOW)
    assert attention_list.attention_list(store, clock).withheld == ("Ada", "Bo")


def named(flags: Iterable[Flag]) -> list[tuple[str, AttentionReason]]:
    return [(f.name, f.because) for f in flags]


def test_harm_and_silence_never_mix(store: Store, clock: ManualClock) -> None:
    """A sign, pain and effort stand in one part, the gravest first; who is silent in the other."""
    known(store, "Ada", [check_in("Ada", "a1", 1, 5)])
    known(store, "Bo", [session("Bo", "b1", 2, ending=Ending.SIGN, sign="chest_pressure")])
    known(store, "Cy", [session("Cy", f"c{at}", at, rpe=8) for at in (2, 5)])
    known(store, "Di", [session("Di", "d1", 15)])
    known(store, "Ed", [session("Ed", "e1", 40)], heard_days=30)
    known(store, "Fay", [session("Fay", "f1", 1), check_in("Fay", "f2", 0, 1)])
    seen = attention_list.attention_list(store, clock)
    assert named(seen.harm) == [("Bo", AttentionReason.SIGN), ("Ada", AttentionReason.PAIN),
                                ("Cy", AttentionReason.EFFORT)]
    assert named(seen.silence) == [("Di", AttentionReason.FORTNIGHT), ("Ed", AttentionReason.NOTHING_BACK)]
    assert seen.people == 6 and not seen.dealt_with


def test_a_joint_that_gave_way_is_harm_without_pain(store: Store, clock: ManualClock) -> None:
    """Pain 1 of 10, and still a stop."""
    known(store, "Gus", [gave_way("Gus", "g1")])
    [flag] = attention_list.attention_list(store, clock).harm
    assert (flag.because, flag.words) == (AttentionReason.SIGN, ("gave_way",))


def test_a_head_cold_is_no_stop_sign(store: Store, clock: ManualClock) -> None:
    """It eases a session and needs nobody's call."""
    told = check_in("Hal", "h1", signs=("head_cold",))
    known(store, "Hal", [CheckIn(told.stamp, frozenset({Symptom.HEAD_COLD}), ("head_cold",), {})])
    assert attention_list.attention_list(store, clock).harm == ()


def test_a_stop_without_a_sign_is_harm(store: Store, clock: ManualClock) -> None:
    """Soreness for days stops them until the coach says yes, so the coach hears of it, once."""
    stopped = check_in("Ida", "i1", 2, level=7, stopped_by="soreness")
    waiting = check_in("Ida", "i2", 0, level=7, stopped_by="clearance")
    known(store, "Ida", [stopped, waiting])
    [flag] = attention_list.attention_list(store, clock).harm
    assert (flag.because, flag.records, flag.words) == (AttentionReason.SIGN, ("i1",), ("soreness",))


def test_seen_stays_away_until_there_is_new_evidence(store: Store, clock: ManualClock) -> None:
    """The same pain is gone from the list; tomorrow's is on it again; undo brings it back at once."""
    known(store, "Ada", [check_in("Ada", "a1", 1, 5)])
    flags = attention_list.attention_list(store, clock).harm
    attention_list.mark(store, clock, flags, MarkState.SEEN)
    seen = attention_list.attention_list(store, clock)
    assert seen.harm == () and [m.mark.state for m in seen.dealt_with] == [MarkState.SEEN]
    attention_list.undo(store, flags)
    assert attention_list.attention_list(store, clock).harm == flags
    attention_list.mark(store, clock, flags, MarkState.CALLED)
    known(store, "Ada", [check_in("Ada", "a2", 0, 4)])
    assert [f.records for f in attention_list.attention_list(store, clock).harm] == [("a2",)]


def test_later_comes_back_on_its_day(store: Store, clock: ManualClock) -> None:
    """Not a day earlier, and without a day after three."""
    known(store, "Ada", [check_in("Ada", "a1", 1, 5)])
    flags = attention_list.attention_list(store, clock).harm
    attention_list.mark(store, clock, flags, MarkState.LATER)
    for days, listed in ((2, 0), (1, 1)):
        asyncio.run(clock.advance(days * 86_400))
        assert len(attention_list.attention_list(store, clock).harm) == listed
    attention_list.mark(store, clock, flags, MarkState.LATER, date(2026, 3, 7))
    assert attention_list.attention_list(store, clock).harm == ()


def test_a_silence_that_was_seen_comes_back_if_it_goes_on(store: Store, clock: ManualClock) -> None:
    """Silence brings no new record, so a fortnight later it is said again."""
    known(store, "Di", [session("Di", "d1", 15)])
    attention_list.mark(store, clock, attention_list.attention_list(store, clock).silence, MarkState.SEEN)
    assert attention_list.attention_list(store, clock).silence == ()
    asyncio.run(clock.advance(14 * 86_400))
    assert attention_list.attention_list(store, clock).silence


def test_one_person_is_one_case(store: Store, clock: ManualClock) -> None:
    """Several reasons of one person stand together, and their last records can be read in full."""
    known(store, "Ada", [session("Ada", f"s{at}", at, rpe=8, pain={KNEE: 5}) for at in (1, 3)])
    flags = attention_list.attention_list(store, clock).harm
    [case] = attention_list.cases(flags)
    assert [f.because for f in case.flags] == [AttentionReason.PAIN, AttentionReason.EFFORT]
    assert set(attention_list.evidence(store, flags)) == {"s1"}


def test_the_list_takes_as_many_queries_for_many_as_for_one(store: Store, clock: ManualClock) -> None:
    """No query of its own for anybody."""
    def queries() -> int:
        from sqlalchemy import event
        count: list[str] = []

        def note(*told: object) -> None:
            count.append(str(told[2]))
        event.listen(store.engine, "before_cursor_execute", note)
        attention_list.attention_list(store, clock)
        event.remove(store.engine, "before_cursor_execute", note)
        return len(count)
    known(store, "P0", [check_in("P0", "x", 1, 5)])
    one = queries()
    for number in range(1, 40):
        known(store, f"P{number}", [check_in(f"P{number}", "x", 1, 5)])
    assert queries() == one


# ------------------------------------------------------------------ replies

def test_a_reply_reaches_only_its_client(store: Store, clock: ManualClock) -> None:
    """Sealed to the pinned key, signed by the coach, numbered; the text form is the same file."""
    client = Client(Person("p", "Päivi Å"))
    asyncio.run(intake.take_in(store, clock, [("r", client.sends(store, [check_in("p", "c1")]))]))
    one = asyncio.run(replying.write(store, clock, "p", ReplyDraft("Well done. Go easy on the knee.", spare={KNEE: 1})))
    two = asyncio.run(replying.write(store, clock, "p", ReplyDraft("And drink enough.")))
    assert (one.number, two.number, one.name) == (1, 2, reply_name("p", 1))
    assert "päivi" not in one.name
    assert from_text(one.text) == one.data
    keys = publishing.coach_keys(store)
    assert keys is not None
    read = asyncio.run(read_reply(one.data, one.name, private_keys=[client.keys.sealing],
                                  coach_keys=[keys.signing.public]))
    assert (read.message, read.spare, read.number) == ("Well done. Go easy on the knee.", {KNEE: 1}, 1)
    with store.read() as db:
        kept = replies.replies(db, "p", Direction.SENT)
    assert [r.content["message"] for r in kept] == ["Well done. Go easy on the knee.", "And drink enough."]


def test_a_yes_names_the_stop_and_must_be_of_its_kind(store: Store, clock: ManualClock) -> None:
    """After pressure in the chest the coach's own word is not enough; a clinician's, with profession, is."""
    client = Client(Person("p", "Vera"))
    stopped = session("p", "s1", ending=Ending.SIGN, sign="chest_pressure")
    asyncio.run(intake.take_in(store, clock, [("r", client.sends(store, [stopped]))]))
    for kind in ("coach", "self", ""):
        with pytest.raises(WrongValue):
            asyncio.run(replying.write(store, clock, "p", ReplyDraft(yes_who="Odile", yes_kind=kind)))
    written = asyncio.run(replying.write(store, clock, "p", ReplyDraft(yes_who="Dr Lind", yes_kind="Cardiologist")))
    keys = publishing.coach_keys(store)
    assert keys is not None
    read = asyncio.run(read_reply(written.data, "", private_keys=[client.keys.sealing],
                                  coach_keys=[keys.signing.public]))
    assert read.clearance is not None
    assert (read.clearance.answers, read.clearance.who, read.clearance.kind) == ("s1", "Dr Lind", "cardiologist")


def test_a_yes_without_a_stop_or_nothing_at_all_is_refused(store: Store, clock: ManualClock) -> None:
    """Nothing is written and no number is used up."""
    client = Client(Person("p", "Vera"))
    asyncio.run(intake.take_in(store, clock, [("r", client.sends(store, [check_in("p", "c1")]))]))
    for answer in (ReplyDraft(), ReplyDraft("  "), ReplyDraft(yes_who="Dr Lind", yes_kind="physiotherapist")):
        with pytest.raises(WrongValue):
            asyncio.run(replying.write(store, clock, "p", answer))
    with store.read() as db:
        assert replies.next_number(db, "p") == 1


def test_whoever_never_sent_anything_cannot_be_answered(store: Store, clock: ManualClock) -> None:
    """There is no key to seal to."""
    known(store, "Ada", [])
    with pytest.raises(UnknownName):
        asyncio.run(replying.write(store, clock, "Ada", ReplyDraft("Hello")))
