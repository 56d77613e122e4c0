"""A diary leaves sealed, is read at the desk, and what is new since then is counted."""
from __future__ import annotations

import asyncio
import re
import zipfile
from dataclasses import replace
from io import BytesIO

import pytest

from app.actions.desk import intake
from app.actions.files import sending
from app.actions.files.coach_heard import coach_of
from app.actions.files.sending import HandedOn
from app.actions.people import change_person
from app.actions.training import diary
from app.domain.errors import UnknownName
from app.domain.model.person import Person
from app.domain.model.plan import Reason
from app.domain.model.rules import RuleId
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.sealing import reader_ids
from app.exchange.crypto.text_form import from_text
from app.exchange.letters.file_names import return_name
from app.exchange.letters.returns import read_return
from app.storage import people, records
from app.storage.people import Trains
from app.words.reasons import WITHOUT_DETAILS
from tests.actions.at_home import Home


def test_keys_are_made_once(at_home: Home) -> None:
    """Two calls give the same keys, so that the coach's pin holds."""
    first = asyncio.run(sending.ensure_client_keys(at_home.store, at_home.clock, at_home.person.id))
    again = asyncio.run(sending.ensure_client_keys(at_home.store, at_home.clock, at_home.person.id))
    assert first == again == sending.client_keys(at_home.store, at_home.person.id)


def test_a_return_is_read_at_the_desk(at_home: Home) -> None:
    """What was done at home stands at the coach's afterwards, and nowhere else can it be opened."""
    at_home.answer()
    done = at_home.done()
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    assert len(reader_ids(made.data, made.name, Kind.RETURN)) == 3
    asyncio.run(intake.take_in(at_home.desk, at_home.clock, [(made.name, made.data)]))
    with at_home.desk.read() as db:
        assert records.record(db, at_home.person.id, done.stamp.id) == done


def test_the_text_form_is_the_same_file(at_home: Home) -> None:
    """Pasted or attached, it is one and the same."""
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    assert from_text(made.text) == made.data


def test_only_what_was_agreed_goes(at_home: Home) -> None:
    """Without pain and notes neither is in it, whoever opens it."""
    at_home.answer(note="tired")
    change_person(at_home.store, replace(at_home.person, sends=frozenset({"sessions", "check_ins"})))
    own = asyncio.run(sending.ensure_client_keys(at_home.store, at_home.clock, at_home.person.id))
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    told = asyncio.run(read_return(made.data, made.name, private_keys=[own.sealing])).records[0]
    assert (getattr(told, "pain", 0), getattr(told, "note", "?")) == (None, "")


def test_every_return_has_a_number_of_its_own(at_home: Home) -> None:
    """Also one that never left."""
    numbers = [asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id)).number
               for _ in range(3)]
    assert numbers == [1, 2, 3]
    assert sending.last_sent(at_home.store, at_home.person.id) is None


def test_what_is_new_since_the_last_one_is_counted(at_home: Home) -> None:
    """New, corrected and taken back count; what never left and was taken back does not."""
    store, clock, who = at_home.store, at_home.clock, at_home.person.id
    at_home.answer()
    done = at_home.done()
    assert sending.unsent(store, who) == 2
    made = asyncio.run(sending.make_return(store, clock, who))
    assert sending.note_sent(store, clock, who, made).number == 1
    assert sending.unsent(store, who) == 0
    told = diary.save_afterwards(store, done, rpe=5, pain={})
    assert sending.unsent(store, who) == 1
    diary.take_back(store, told)
    assert sending.unsent(store, who) == 1
    later = at_home.answer()
    assert sending.unsent(store, who) == 2
    diary.take_back(store, later)
    assert sending.unsent(store, who) == 1


def test_without_a_coach_there_is_nobody_to_send_to(at_home: Home) -> None:
    """An error that can be said, and no number used up."""
    alone = Person("p-alone", "Lena")
    with at_home.store.begin() as db:
        people.add_person(db, alone, Trains.HERE, at_home.clock.now())
    with pytest.raises(UnknownName):
        asyncio.run(sending.make_return(at_home.store, at_home.clock, alone.id))
    assert coach_of(at_home.store, alone) is None


def test_the_copies_are_readable(at_home: Home) -> None:
    """One page with the name and the session; tables in a ZIP that any spreadsheet opens."""
    at_home.answer()
    at_home.done()
    name, page = sending.readable_copy(at_home.store, at_home.person)
    assert name.startswith("diary-") and name.endswith(".html") and b"Tomas Verrey" in page
    zipped, tables = sending.tables_copy(at_home.store, at_home.person)
    with zipfile.ZipFile(BytesIO(tables)) as archive:
        assert "sessions.csv" in archive.namelist()
        assert archive.read("sessions.csv").startswith(b"\xef\xbb\xbf")
    assert not re.search("tomas|verrey", f"{name} {zipped}", re.IGNORECASE)


def test_a_reason_without_its_details_breaks_no_copy(at_home: Home) -> None:
    """As another program may have written it: it passes as part of a return, and stands in the copy as a sentence."""
    done = at_home.done()
    hollow = Reason(RuleId.PAIN, 2, (("spot", "left knee"),))
    plan = replace(done.plan, dose=replace(done.plan.dose, reasons=(hollow,)))
    with at_home.store.begin() as db:
        records.save_record(db, replace(done, plan=plan))
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    assert asyncio.run(intake.take_in(at_home.desk, at_home.clock, [(made.name, made.data)]))[0].error is None
    assert WITHOUT_DETAILS.encode() in sending.readable_copy(at_home.store, at_home.person)[1]
    with zipfile.ZipFile(BytesIO(sending.tables_copy(at_home.store, at_home.person)[1])) as archive:
        assert WITHOUT_DETAILS.encode() in archive.read("sessions.csv")


def test_a_files_name_names_nobody(at_home: Home) -> None:
    """It lies in a folder of downloads and in a messenger: two people's are told apart, and neither is named."""
    made = asyncio.run(sending.make_return(at_home.store, at_home.clock, at_home.person.id))
    assert re.fullmatch(r"diary-[0-9a-f]{6}-1\.evenload-return", made.name)
    assert at_home.person.id not in made.name
    assert made.name != return_name("another", 1)


def test_a_saved_diary_is_sent_only_once_the_person_says_so(at_home: Home) -> None:
    """Saved or copied, everything in it still counts as new; said to be sent, nothing does."""
    store, clock, who = at_home.store, at_home.clock, at_home.person.id
    at_home.answer()
    made = asyncio.run(sending.make_return(store, clock, who))
    for left in HandedOn:
        waiting = sending.note_waiting(store, clock, who, made, left)
        assert sending.waiting_return(store, who) == waiting and waiting.left is left
        assert sending.last_sent(store, who) is None and sending.unsent(store, who) == 1
    sent = sending.confirm_sent(store, clock, who)
    assert sent is not None and sent.number == made.number and sending.last_sent(store, who) == sent
    assert sending.waiting_return(store, who) is None and sending.unsent(store, who) == 0
    assert sending.confirm_sent(store, clock, who) is None


def test_what_came_after_a_saved_diary_is_still_new_once_that_was_sent(at_home: Home) -> None:
    """It counts what was in the file and not what has been written since."""
    store, clock, who = at_home.store, at_home.clock, at_home.person.id
    at_home.answer()
    sending.note_waiting(store, clock, who, asyncio.run(sending.make_return(store, clock, who)), HandedOn.SAVED)
    at_home.done()
    sending.confirm_sent(store, clock, who)
    assert sending.unsent(store, who) == 1


def test_a_diary_that_was_shared_no_longer_waits(at_home: Home) -> None:
    """Saved first and then handed over: nothing is left to do by hand."""
    store, clock, who = at_home.store, at_home.clock, at_home.person.id
    made = asyncio.run(sending.make_return(store, clock, who))
    sending.note_waiting(store, clock, who, made, HandedOn.SAVED)
    sending.note_sent(store, clock, who, made)
    assert sending.waiting_return(store, who) is None
