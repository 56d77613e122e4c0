"""The messages sealed for one person, the latest first: which of them the coach has sent, and a press to say so."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.actions.desk.replying import confirm_reply_sent, replies_sent
from app.storage.replies import Reply
from app.ui.coach.person.person_sheet import Sheet
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach import reply as words

SHOWN = 3


def sealed_messages(shell: Shell, c: Card, sheet: Sheet, on_sent: Callable[..., object]) -> ft.Control:
    """Sealing and saving a message does not send it; it counts as sent once the coach says so."""
    sent = replies_sent(shell.store, sheet.person.id)

    def confirm(number: int) -> None:
        confirm_reply_sent(shell.store, shell.clock, sheet.person.id, number)
        on_sent(None)

    pieces: list[ft.Control] = [c.subhead(words.SEALED_HEAD, t.T_BODY, level=2)]
    for reply in sheet.sent[:-(SHOWN + 1):-1]:
        day = shell.clock.local(reply.utc).day
        pieces.append(c.soft(words.sealed_line(reply.number, day, str(reply.content.get("message", "")),
                                               _extras(reply))))
        if reply.number in sent:
            pieces.append(c.soft(words.said_sent(shell.clock.local(sent[reply.number]).day)))
        else:
            pieces.append(c.side_by_side([c.small_button(words.sent_it(reply.number),
                                                         safe(shell, bind(confirm, reply.number)))]))
    return c.stack(pieces, 4)


def _extras(reply: Reply) -> str:
    told = reply.content.get("clearance")
    held, swaps = reply.content.get("held"), reply.content.get("swaps") or ()
    return words.sent_extras(reply.content.get("spare"), (told["who"], told["kind"]) if told else None,
                             None if held is None else len(held), len(swaps))
