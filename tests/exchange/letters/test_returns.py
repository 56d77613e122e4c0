"""A return: what was agreed to send, for the right eyes, whole or not at all."""
from __future__ import annotations

import dataclasses
import json
import zlib
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import DamagedFile, TooLarge, WrongRecipient, WrongValue
from app.domain.model.client import Client, Place
from app.domain.model.person import Person
from app.domain.model.plan import Reason
from app.domain.model.record import CheckDone, CheckIn, Clearance, Event, EventKind, Record, SessionDone
from app.domain.model.record_kinds import KIND_OF
from app.domain.model.rules import RuleId
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import KeyPair, key_id
from app.exchange.crypto.sealing import header_of, open_sealed, seal
from app.exchange.crypto.signing import SIGNED_BYTES, signed
from app.exchange.forms.person_form import BodyForm, PersonForm, ReturnedPlaceForm
from app.exchange.forms.record_form import (
    CheckDoneForm,
    CheckInForm,
    ClearanceForm,
    EventForm,
    SessionDoneForm,
)
from app.exchange.forms.to_json import to_json
from app.exchange.letters.agreed_records import agreed_person, agreed_records
from app.exchange.letters.letter import MOST_JSON
from app.exchange.letters.returns import ReturnContent, read_return, write_return
from tests.exchange.damage import assert_refused, cut, flipped
from tests.exchange.fixed import (
    ADA,
    CHECK_IN,
    CLIENT,
    COACH,
    DONE,
    NOW,
    OTHER_CLIENT,
    READERS,
    RECOVERY_SEALING,
    RETURN,
    STRANGER,
    YES,
    run,
)
from tests.exchange.forgery import inside
from tests.exchange.hostile import letter
from tests.generators import SENDS, people, records


async def _read(data: bytes, *keys: KeyPair) -> ReturnContent:
    return await read_return(data, "file", private_keys=keys or (COACH.sealing,))


def _write(content: ReturnContent = RETURN) -> bytes:
    return run(write_return(content, client=CLIENT, readers=READERS))


ALL = people(st.just(frozenset(SENDS)))


@given(st.data())
def test_what_a_client_sends_the_coach_reads(data: st.DataObject) -> None:
    """Every record, every answer and every missing answer, with the keys to answer with."""
    person: Person = data.draw(ALL)
    sent: tuple[Record, ...] = data.draw(records(person.id))
    content = ReturnContent(person, sent, ("ab" * 32,), NOW, 7)
    read = run(_read(run(write_return(content, client=CLIENT, readers=READERS))))
    assert read.records == tuple(KIND_OF[type(r)].blank(r.stamp) if r.stamp.deleted else r for r in sent)
    assert read.person == replace(person, emergency_contact="", emergency_number="112")
    assert (read.packs, read.made_utc, read.number, read.unread) == (content.packs, NOW, 7, 0)
    assert read.client_signing_public == CLIENT.signing.public
    assert read.client_sealing_public == CLIENT.sealing.public


def test_the_coach_the_recovery_key_and_the_client_read_it() -> None:
    """Each alone."""
    for pair in (COACH.sealing, RECOVERY_SEALING, CLIENT.sealing):
        assert run(_read(_write(), pair)).records == RETURN.records


def test_a_return_sealed_for_someone_else_is_said_to_be() -> None:
    """Not damaged, not ours to read."""
    assert_refused(lambda data: _read(data, STRANGER.sealing), _write(), WrongRecipient)
    assert_refused(lambda data: _read(data, OTHER_CLIENT.sealing), _write(), WrongRecipient)


def test_any_flipped_byte_and_any_cut_is_refused() -> None:
    """Anywhere in the file."""
    data = _write()
    for harmed in (*flipped(data), *cut(data), data + b"\0"):
        assert_refused(_read, harmed)


@given(st.data())
def test_nothing_leaves_that_was_not_agreed(data: st.DataObject) -> None:
    """For every choice of what to send and every record."""
    person: Person = data.draw(people())
    for record in agreed_records(person, data.draw(records(person.id))):
        if record.stamp.deleted:
            continue
        _assert_agreed(person.sends, record)
    assert "notes" in person.sends or not agreed_person(person).goals
    assert "pain" in person.sends or not agreed_person(person).body.usual_pain


def _assert_agreed(sends: frozenset[str], record: Record) -> None:
    match record:
        case CheckIn():
            assert "check_ins" in sends and ("notes" in sends or not record.note)
            told = (record.pain, record.morning_after, record.soreness)
            assert "pain" in sends or (told == (None, None, None) and record.stopped_by != "pain")
        case SessionDone():
            rules = {reason.rule for reason in record.plan.dose.reasons}
            assert "sessions" in sends and ("notes" in sends or not record.note)
            assert "pain" in sends or (record.pain is None and not record.hurts and RuleId.PAIN not in rules)
            assert "check_ins" in sends or not rules & {RuleId.READINESS, RuleId.SYMPTOMS, RuleId.SORENESS}
        case Clearance():
            assert sends & {"check_ins", "sessions"}
        case CheckDone():
            assert "sessions" in sends and ("notes" in sends or not record.note)
        case Event():
            assert "notes" in sends or (not record.note and record.kind is not EventKind.GOAL)
            assert "pain" in sends or "hurts" not in record.answers
            told = record.kind in (EventKind.FALL, EventKind.ILLNESS, EventKind.MEDICINE)
            assert "check_ins" in sends or not told
            assert "sessions" in sends or record.kind is not EventKind.ACTIVITY


def test_a_refused_part_is_nowhere_in_the_file() -> None:
    """Not under another name either: the words and numbers themselves are gone."""
    person = replace(ADA, sends=frozenset({"sessions"}))
    data = run(write_return(replace(RETURN, person=person), client=CLIENT, readers=READERS))
    said = inside(data)
    assert [record["record"] for record in said["records"]] == ["session_done", "clearance"]
    for word in ("knee", "a good day", "slept badly", "top shelf", "999", "Jo"):
        assert word not in json.dumps(said)


def test_why_a_session_was_lighter_is_sent_only_with_what_it_came_from() -> None:
    """A reason tells what was answered."""
    reasons = tuple(Reason(rule, 2) for rule in (RuleId.PAIN, RuleId.READINESS, RuleId.DAYS))
    done = replace(DONE, plan=replace(DONE.plan, dose=replace(DONE.plan.dose, reasons=reasons)))
    for sends, left in (({"sessions"}, reasons[2:]), ({"sessions", "pain"}, reasons[2:]),
                        ({"sessions", "check_ins"}, reasons[1:]), ({"sessions", "check_ins", "pain"}, reasons)):
        sent = agreed_records(replace(ADA, sends=frozenset(sends)), [done])[0]
        assert isinstance(sent, SessionDone) and sent.plan.dose.reasons == left


def test_what_was_taken_back_travels_as_a_stamp_alone() -> None:
    """Even when that kind is no longer sent."""
    taken = replace(CHECK_IN, stamp=replace(CHECK_IN.stamp, deleted=True, revision=2))
    person = replace(ADA, sends=frozenset())
    said = inside(_write(replace(RETURN, person=person, records=(taken,))))
    assert [set(record) for record in said["records"]] == [{"record", "stamp"}]


def _sealed(change: Callable[[dict[str, Any]], None], readers: tuple[bytes, ...] = READERS,
            header_readers: tuple[bytes, ...] | None = None) -> bytes:
    """A return with its JSON changed, properly signed and sealed."""
    table = inside(_write())
    change(table)
    header = header_of(Kind.RETURN, [key_id(reader) for reader in header_readers or readers])
    plain = run(signed(header, to_json(table), CLIENT.signing))
    return run(seal(zlib.compress(plain), readers, Kind.RETURN))


def _set(*path: str | int, to: object) -> Callable[[dict[str, Any]], None]:
    def change(table: Any) -> None:
        for part in path[:-1]:
            table = table[part]
        table[path[-1]] = to
    return change


IMPOSSIBLE: dict[str, Callable[[dict[str, Any]], None]] = {
    "pain of 11": _set("records", 0, "pain", to={"left knee": 11}),
    "pain of -1": _set("records", 0, "pain", to={"left knee": -1}),
    "pain as text": _set("records", 0, "pain", to={"left knee": "4"}),
    "pain of a region that cannot hurt": _set("records", 0, "pain", to={"floor": 4}),
    "one spot twice": _set("records", 0, "pain", to={"left knee": 4, "left_knee": 1}),
    "slept 6": _set("records", 0, "slept", to=6),
    "slept 0": _set("records", 0, "slept", to=0),
    "unknown symptom": _set("records", 0, "symptoms", to=["hiccups"]),
    "local time instead of UTC": _set("records", 0, "stamp", "utc", to="2026-03-02T08:30:00+01:00"),
    "an instant without a zone": _set("records", 0, "stamp", "utc", to="2026-03-02T08:30:00"),
    "an instant as a number": _set("records", 0, "stamp", "utc", to=1772436600),
    "a day that does not exist": _set("records", 0, "stamp", "local", to="2026-02-30"),
    "revision 0": _set("records", 0, "stamp", "revision", to=0),
    "no stamp": _set("records", 0, "stamp", to=None),
    "another person's record": _set("records", 0, "stamp", "person", to="eve"),
    "RPE of 11": _set("records", 1, "rpe", to=11),
    "steps with a gap": _set("records", 1, "plan", "steps", 0, "start_ms", to=5),
    "a step of no kind": _set("records", 1, "plan", "steps", 0, "kind", to="jump"),
    "a step that runs backwards": _set("records", 1, "plan", "steps", 0, "length_ms", to=-1),
    "level 9": _set("records", 1, "plan", "dose", "level", to=9),
    "a plan that is none": _set("records", 1, "plan", to=[]),
    "a short hash": _set("records", 1, "pack", to="ab"),
    "records that are none": _set("records", to={}),
    "a record of no kind": _set("records", 0, "record", to=None),
    "a record that is none": _set("records", 0, to=[]),
    "no person": _set("person", to=None),
    "number 0": _set("number", to=0),
    "a short key": _set("sealing_key", to="AAAA"),
    "a control character": _set("records", 0, "note", to="\x1b[2J"),
    "half a character": lambda table: table["records"][0].update(note="@@"),
}


@pytest.mark.parametrize("case", IMPOSSIBLE, ids=str)
def test_a_value_that_cannot_be_is_refused(case: str) -> None:
    """Signed and sealed as it should be, and still damaged."""
    data = _sealed(IMPOSSIBLE[case])
    if case == "half a character":
        header = header_of(Kind.RETURN, [key_id(reader) for reader in READERS])
        body = zlib.decompress(run(open_sealed(data, "f", Kind.RETURN, (COACH.sealing,))).plain)[SIGNED_BYTES:]
        plain = run(signed(header, body.replace(b"@@", b"\\ud800"), CLIENT.signing))
        data = run(seal(zlib.compress(plain), READERS, Kind.RETURN))
    assert_refused(_read, data, DamagedFile)


def test_the_same_record_twice_is_refused() -> None:
    """One revision of one record says one thing."""
    def twice(table: dict[str, Any]) -> None:
        table["records"].append(table["records"][0])
    assert_refused(_read, _sealed(twice), DamagedFile)
    with pytest.raises(WrongValue):
        _write(replace(RETURN, records=(CHECK_IN, CHECK_IN)))


def test_what_came_after_this_version_is_left_alone() -> None:
    """Unknown keys everywhere, and records of an unknown kind, which are counted."""
    def later(table: dict[str, Any]) -> None:
        for place in (table, table["person"], table["person"]["body"], table["records"][0],
                      table["records"][0]["stamp"], table["records"][1]["plan"],
                      table["records"][1]["plan"]["steps"][0], table["records"][1]["plan"]["dose"]):
            place["colour"] = {"deep": ["blue"]}
        stamp = table["records"][0]["stamp"]
        table["records"] += [
            {"record": "walk_test", "seconds": 8},
            {"record": "event", "kind": "eclipse", "stamp": stamp | {"id": "e-9"}},
            {"record": "check_done", "check": "six_minutes", "stamp": stamp | {"id": "k-9"}}]
    read = run(_read(_sealed(later)))
    assert read.records == RETURN.records and read.unread == 3


def test_a_return_cannot_be_handed_on_to_another_coach() -> None:
    """The signature covers whom it was sealed for."""
    handed_on = _sealed(lambda _: None, readers=(STRANGER.sealing.public,), header_readers=READERS)
    assert_refused(lambda data: _read(data, STRANGER.sealing), handed_on, DamagedFile)


def test_a_return_that_unpacks_to_too_much_is_refused() -> None:
    """A gigabyte of zeros in a megabyte is read no further than the limit."""
    data = run(seal(zlib.compress(bytes(MOST_JSON[Kind.RETURN] + 1000), 9), READERS, Kind.RETURN))
    assert_refused(_read, data, TooLarge)


def test_a_compressed_text_is_whole_and_alone() -> None:
    """Its own checksum is not missing and nothing stands behind it, though the signature would hold."""
    header = header_of(Kind.RETURN, [key_id(reader) for reader in READERS])
    packed = zlib.compress(run(signed(header, to_json(inside(_write())), CLIENT.signing)))
    assert run(_read(run(seal(packed, READERS, Kind.RETURN)))).number == 1
    for plain in (packed + b"x", packed[:-1], packed[:-4], packed + packed):
        assert_refused(_read, run(seal(plain, READERS, Kind.RETURN)), DamagedFile)


@pytest.mark.parametrize("plain", [b"", b"x", zlib.compress(b""), zlib.compress(b"key\n") + b"x",
                                   zlib.compress(b"x" * 400)[:-3]])
def test_a_seal_does_not_excuse_what_isinside(plain: bytes) -> None:
    """Anything but one whole compressed, signed text is damaged."""
    assert_refused(_read, run(seal(plain, READERS, Kind.RETURN)), DamagedFile)


def test_a_stray_character_does_not_keep_a_diary_at_home() -> None:
    """Control and half characters are left out, over-long notes cut."""
    odd = replace(CHECK_IN, note="fine\x00 \ud83d\x1b" + "x" * 9000)
    sent = run(_read(_write(replace(RETURN, records=(odd,))))).records[0]
    assert isinstance(sent, CheckIn) and sent.note.startswith("fine xxx") and len(sent.note) == 4000


def test_impossible_records_are_refused_when_written() -> None:
    """A mistake shows on the device, with its place."""
    with pytest.raises(WrongValue) as caught:
        _write(replace(RETURN, records=(replace(CHECK_IN, slept=6),)))
    assert caught.value.what["where"] == "return, records.0.check_in.slept"
    with pytest.raises(WrongValue):
        _write(replace(RETURN, records=(replace(YES, stamp=replace(YES.stamp, person="eve")),)))


@pytest.mark.parametrize(("kind", "form", "at_home"), [
    (CheckIn, CheckInForm, set()), (SessionDone, SessionDoneForm, set()), (Clearance, ClearanceForm, set()),
    (CheckDone, CheckDoneForm, set()), (Event, EventForm, set()),
    (Client, BodyForm, set()), (Place, ReturnedPlaceForm, set()),
    (Person, PersonForm, {"emergency_contact", "emergency_number"}),
])
def test_every_field_of_a_record_travels(kind: Any, form: Any, at_home: set[str]) -> None:
    """A field that is added to the domain is added to the format, or is kept at home on purpose."""
    assert {f.name for f in dataclasses.fields(kind)} - at_home == set(form.model_fields)


def test_an_event_that_cannot_be_is_refused() -> None:
    """A kind that is no word, a day that is none, minutes without end."""
    for wrong in ({"kind": None}, {"kind": "fall", "since": "2026-02-30"}, {"kind": "activity", "minutes": 1441},
                  {"kind": "fall", "answers": {"head": "yes"}}, {"kind": "fall", "answers": {"<b>": True}}):
        def add(table: dict[str, Any], wrong: dict[str, object] = wrong) -> None:
            stamp = table["records"][0]["stamp"] | {"id": "e-1"}
            table["records"].append({"record": "event", "stamp": stamp} | wrong)
        assert_refused(_read, _sealed(add), DamagedFile)


def test_the_plan_travels_without_loss() -> None:
    """The coach sees what was planned, with its reasons."""
    read = run(_read(_write())).records[1]
    assert isinstance(read, SessionDone) and read.plan == DONE.plan


@pytest.mark.parametrize("kind", [["check_in"], {"check_in": 1}, None, 1])
def test_a_kind_of_record_that_is_no_word_is_damage(kind: object) -> None:
    """A list or a table where the kind should stand is looked up in nothing."""
    table = inside(run(write_return(RETURN, client=CLIENT, readers=READERS)))
    table["records"][0]["record"] = kind
    with pytest.raises(DamagedFile):
        run(read_return(letter(to_json(table)), "file", private_keys=(COACH.sealing,)))
