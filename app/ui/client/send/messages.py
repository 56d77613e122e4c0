"""Messages from the coach: open a file or paste the text; each shows what it changed."""
from __future__ import annotations

import flet as ft

from app.actions.files.messages import Message, messages, receive
from app.domain.model.person import Person
from app.storage import packs
from app.storage.packs import StoredCoach
from app.ui.parts import Card
from app.ui.shell.local_times import here
from app.ui.shell.shell import Shell, safe
from app.words.client import send as says


@ft.component
def MessagesPart(shell: Shell, person: Person, coach: StoredCoach) -> ft.Control:
    """How a message comes in, and all that came."""
    pasted, paste = ft.use_state("")
    told, tell = ft.use_state("")
    c = shell.card()

    async def take(data: bytes, name: str) -> None:
        tell("")
        got = await receive(shell.store, shell.clock, person.id, data, name)
        tell(says.came(got.came.value, got.message.number, got.passed_over, got.message.coach,
                       has_effect=got.has_effect))
        paste("")

    async def pick() -> None:
        for picked in await shell.device.files.pick_files():
            await take(picked.data, picked.name)

    async def read() -> None:
        await take(pasted.encode(), says.THIS_TEXT)

    kept = messages(shell.store, person.id)
    ready = safe(shell, lambda _: shell.run(read)) if pasted.strip() else None
    return c.stack([
        c.head(says.message_head(coach.name)), c.body(says.MESSAGE_HOW),
        c.button(says.OPEN_FILE, safe(shell, lambda _: shell.run(pick)), icon=ft.Icons.MAIL_SHARP),
        c.field(says.PASTE_FIELD, pasted, lambda e: paste(e.control.value or ""), lines=2, hint=says.PASTE_HINT),
        c.button(says.TAKE, ready),
        *([c.notice(told, icon=ft.Icons.INFO_SHARP)] if told else []),
        *[_message(c, shell, person, one) for one in kept],
        *([] if kept else [c.soft(says.NO_MESSAGE)]),
    ], 10)


def _message(c: Card, shell: Shell, person: Person, one: Message) -> ft.Control:
    pieces: list[ft.Control] = [c.caption(says.numbered(one.number, here(shell, one.made), one.coach))]
    pieces += [c.lead(one.text)] if one.text else []
    pieces += [c.strong(says.yes_line(one.yes))] if one.yes else []
    pieces += [c.body(says.limits_line(one.limits))] if one.limits else []
    pieces += [c.body(says.LIMITS_LIFTED)] if one.lifts_limits else []
    pieces += [c.soft(says.PAST)] if one.limits_are_past else []
    names = _names(shell, person) if one.swaps or one.held else {}
    pieces += [c.body(says.swap_line(was, now, names)) for was, now in one.swaps]
    pieces += [c.body(says.held_line(one.held, names))] if one.held else []
    pieces += [c.soft(says.PAST)] if one.held_is_past else []
    return c.box(c.stack(pieces, 6))


def _names(shell: Shell, person: Person) -> dict[str, str]:
    with shell.store.read() as db:
        kept = packs.newest_pack(db, person.coach_key)
    return {e.id: e.name for e in kept.source.exercises} if kept else {}
