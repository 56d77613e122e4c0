"""Returns coming in: chosen files or pasted text, how far it is, and what became of each."""
from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterable
from dataclasses import dataclass

import flet as ft

from app.actions.desk import intake
from app.actions.desk.intake import Taken
from app.ui.coach.stable_field import typed_field, use_typed
from app.ui.parts import Card, Look, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words import errors
from app.words.coach import desk as words

EVERY = 10
"""Files between two looks at how far it is."""


@dataclass(frozen=True)
class _Result:
    """One file with what became of it; its bytes only where the coach may still accept it."""

    taken: Taken
    data: bytes = b""


@ft.component
def IntakePanel(shell: Shell, on_taken: Callable[[], None]) -> ft.Control:
    """Two buttons, and what they led to."""
    c = shell.card()
    is_pasting, set_pasting = ft.use_state(False)
    pasted = use_typed()
    progress, set_progress = ft.use_state("")
    results, set_results = ft.use_state(tuple[_Result, ...]())

    async def take(files: Iterable[tuple[str, bytes]]) -> None:
        listed, found = list(files), list[_Result]()
        async for taken in intake.taking(shell.store, shell.clock, listed):
            found.append(_Result(taken, listed[len(found)][1] if taken.is_new_phone else b""))
            if len(found) % EVERY == 0:
                set_progress(words.in_progress(len(found), len(listed)))
                await asyncio.sleep(0)
        set_progress("")
        set_results(tuple(found))
        if any(one.taken.person for one in found):
            on_taken()

    async def pick(_: object) -> None:
        files = await shell.device.files.pick_files()
        if not files:
            shell.say(words.NOTHING_PICKED)
            return
        await take((one.name, one.data) for one in files)

    async def take_pasted(_: object) -> None:
        set_pasting(False)
        text_now, pasted.words = pasted.words, ""
        await take([(words.PASTED, text_now.encode())])

    async def accept(result: _Result) -> None:
        taken = await intake.accept_new_phone(shell.store, shell.clock, result.taken.name, result.data)
        set_results(tuple(_Result(taken) if one is result else one for one in results))
        on_taken()

    pieces: list[ft.Control] = [c.side_by_side([
        c.button(words.OPEN_RETURNS, safe(shell, pick), look=Look.SOLID, icon=ft.Icons.FOLDER_OPEN_SHARP),
        c.button(words.PASTE, safe(shell, bind(set_pasting, not is_pasting))),
    ])]
    if is_pasting:
        field = typed_field(shell, words.PASTE_LABEL, pasted, lines=4)
        pieces.append(c.aside(c.stack([c.soft(words.PASTE_HINT), field, c.side_by_side([
            c.small_button(words.TAKE_IN, safe(shell, take_pasted))])], 12)))
    if progress:
        pieces.append(ft.Semantics(content=c.lead(progress), live_region=True))
    if results:
        pieces.append(_results(shell, c, results, accept, bind(set_results, ())))
    return c.stack(pieces, t.GAP)


def _results(shell: Shell, c: Card, results: tuple[_Result, ...], accept: Callable[[_Result], object],
             close: Callable[..., object]) -> ft.Control:
    rows = [_row(shell, c, one, accept) for one in sorted(results, key=lambda r: r.taken.error is None)]
    head = ft.Semantics(content=c.subhead(words.RESULTS, level=2), live_region=True)
    return c.box(c.stack([head, c.rows(rows), c.side_by_side([c.small_button(words.CLOSE, close)])], t.GAP))


def _row(shell: Shell, c: Card, result: _Result, accept: Callable[[_Result], object]) -> ft.Control:
    taken = result.taken
    if taken.error is not None:
        said: list[ft.Control] = [c.strong(taken.name), c.body(errors.error_text(taken.error))]
        if taken.is_new_phone and result.data:
            said += [c.body(words.NEW_PHONE_WHY),
                     c.side_by_side([c.small_button(words.NEW_PHONE, safe(shell, bind(accept, result)))])]
        sign = ft.Icons.ERROR_SHARP
    else:
        brought = words.came_in(taken.new, taken.newer, taken.same + taken.older)
        whose = taken.person.name if taken.person and not taken.is_unreadable else taken.name
        said = [c.strong(whose), c.body(brought)]
        said += [c.soft(words.unread(taken.unread))] if taken.unread else []
        said += [c.strong(line) for line in words.odd_lines(taken.misdated, taken.resembles, taken.clock_is_wrong,
                                                            taken.is_unreadable)]
        sign = ft.Icons.CHECK_SHARP
    says = c.stack(said, 2)
    says.expand = True
    return ft.Row([c.icon(sign), says], spacing=12, vertical_alignment=ft.CrossAxisAlignment.START)
