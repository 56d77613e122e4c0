"""Whether the coach knows: reckoned from what was sent and what they wrote since, never from the clock alone."""
from __future__ import annotations

import asyncio
from dataclasses import replace
from datetime import date, timedelta

from app.actions.files import sending
from app.actions.files.coach_heard import CoachHeard, heard_of_record, heard_of_screening
from app.actions.files.sending import HandedOn, Prepared
from app.actions.people import change_person
from app.storage import people, replies
from app.storage.codec import utc_text
from app.storage.replies import Direction, Reply
from app.words.client.coach_told import coach_knows, whom_to_ask
from tests.actions.at_home import Home

FRIDAY = date(2026, 3, 6)


def _made(home: Home) -> Prepared:
    return asyncio.run(sending.make_return(home.store, home.clock, home.person.id))


def test_nobody_knows_of_what_was_never_sent(at_home: Home) -> None:
    """Nor of what was only saved as a file: it counts once the person says that it went."""
    done = at_home.done()
    made = _made(at_home)
    assert heard_of_record(at_home.store, at_home.person, done.stamp.id) == CoachHeard()
    sending.note_waiting(at_home.store, at_home.clock, at_home.person.id, made, HandedOn.SAVED)
    assert heard_of_record(at_home.store, at_home.person, done.stamp.id) == CoachHeard()
    sent = sending.confirm_sent(at_home.store, at_home.clock, at_home.person.id)
    assert sent and heard_of_record(at_home.store, at_home.person, done.stamp.id) == CoachHeard(sent.utc)


def test_what_came_after_the_last_diary_is_not_in_it(at_home: Home) -> None:
    """Each record for itself, whatever its time says."""
    first = at_home.done()
    sending.note_sent(at_home.store, at_home.clock, at_home.person.id, _made(at_home))
    later = at_home.done()
    assert heard_of_record(at_home.store, at_home.person, first.stamp.id).sent
    assert not heard_of_record(at_home.store, at_home.person, later.stamp.id).sent


def test_a_message_that_came_since_is_an_answer(at_home: Home) -> None:
    """One of before is none."""
    done = at_home.done()
    sent = sending.note_sent(at_home.store, at_home.clock, at_home.person.id, _made(at_home))
    with at_home.store.begin() as db:
        for number, after in ((1, -1), (2, 26)):
            made = sent.utc + timedelta(hours=after)
            replies.keep_reply(db, Reply(at_home.person.id, Direction.RECEIVED, number, {"made_utc": utc_text(made)},
                                         made, at_home.person.coach_key))
    heard = heard_of_record(at_home.store, at_home.person, done.stamp.id)
    assert heard == CoachHeard(sent.utc, sent.utc + timedelta(hours=26))


def test_what_is_not_agreed_is_kept_back_and_said_so(at_home: Home) -> None:
    """A diary that leaves it out tells the coach nothing."""
    done = at_home.done()
    change_person(at_home.store, replace(at_home.person, sends=frozenset({"check_ins"})))
    with at_home.store.read() as db:
        person = people.person(db, at_home.person.id)
    sending.note_sent(at_home.store, at_home.clock, at_home.person.id, _made(at_home))
    assert person and heard_of_record(at_home.store, person, done.stamp.id) == CoachHeard(is_kept_back=True)


def test_a_diary_to_another_coach_tells_this_one_nothing(at_home: Home) -> None:
    """It went to whom they followed then."""
    done = at_home.done()
    sending.note_sent(at_home.store, at_home.clock, at_home.person.id, _made(at_home))
    other = replace(at_home.person, coach_key="ab" * 32)
    assert heard_of_record(at_home.store, other, done.stamp.id) == CoachHeard()


def test_questions_about_health_count_once_they_stood_in_a_diary(at_home: Home) -> None:
    """With every one of them that waits."""
    change_person(at_home.store, replace(at_home.person, waiting=frozenset({"chest"})))
    with at_home.store.read() as db:
        person = people.person(db, at_home.person.id)
    assert person and heard_of_screening(at_home.store, person) == CoachHeard()
    sent = sending.note_sent(at_home.store, at_home.clock, person.id, _made(at_home))
    assert heard_of_screening(at_home.store, person) == CoachHeard(sent.utc)
    more = replace(person, waiting=frozenset({"chest", "dizzy"}))
    assert heard_of_screening(at_home.store, more) == CoachHeard()


def test_it_is_said_in_a_sentence() -> None:
    """By the day of the week while that is plain, and of the person where somebody leads them."""
    assert coach_knows(None, None, FRIDAY) == "Your coach doesn’t know yet."
    assert coach_knows(None, None, FRIDAY, "Ines") == "Ines’s coach doesn’t know yet."
    assert coach_knows(FRIDAY, None, date(2026, 3, 9)) == "Sent on Friday; no answer yet."
    assert coach_knows(FRIDAY, None, FRIDAY) == "Sent today; no answer yet."
    assert coach_knows(FRIDAY, date(2026, 3, 9), date(2026, 3, 10)) == \
        "Sent on Friday; your coach wrote back yesterday."
    assert coach_knows(FRIDAY, None, date(2026, 3, 16)) == "Sent on 6 March; no answer yet."


def test_whom_to_ask_is_who_may_give_the_go_ahead() -> None:
    """The coach with how to reach them where theirs is enough; else a clinician; after a fever time first."""
    assert whom_to_ask("coach", "Odile Marsh") == "Ask Odile Marsh, or a doctor, nurse or physio."
    assert whom_to_ask("clinician", "Odile Marsh").startswith("Ask a doctor, nurse or physio")
    assert "fever" in whom_to_ask("self", "")
