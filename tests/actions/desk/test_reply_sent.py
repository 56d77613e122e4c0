"""A sealed message counts as sent once the coach says so."""
from __future__ import annotations

import asyncio

from app.actions.desk import intake, replying
from app.actions.desk.replying import ReplyDraft, confirm_reply_sent, replies_sent
from app.actions.erasing import erase
from app.actions.files import sending
from app.storage import settings
from tests.actions.at_home import Home


def test_sealing_a_message_does_not_send_it(at_home: Home) -> None:
    """Only what the coach says counts; saying it twice keeps the first time; erasing the person forgets it."""
    desk, clock, who = at_home.desk, at_home.clock, at_home.person.id
    made = asyncio.run(sending.make_return(at_home.store, clock, who))
    asyncio.run(intake.take_in(desk, clock, [(made.name, made.data)]))
    written = asyncio.run(replying.write(desk, clock, who, ReplyDraft("Well done")))
    assert replies_sent(desk, who) == {}
    first = clock.now()
    confirm_reply_sent(desk, clock, who, written.number)
    asyncio.run(clock.advance(60))
    confirm_reply_sent(desk, clock, who, written.number)
    assert replies_sent(desk, who) == {1: first}
    erase(desk, who)
    with desk.read() as db:
        assert not [name for name in settings.settings(db) if name.endswith(who)]
