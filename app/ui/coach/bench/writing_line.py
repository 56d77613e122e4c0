"""The writing line: an exercise in words, with what it may mean, and Enter for the first of it."""
from __future__ import annotations

import flet as ft

from app.domain.bench.written_line import WrittenLine, offered, read_line
from app.domain.model.exercise import Exercise
from app.ui.coach.bench.edited_session import EditedSession
from app.ui.parts import bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach.bench import session as words


@ft.component
def WritingLine(shell: Shell, edited: EditedSession) -> ft.Control:
    """The field with its proposals above it; its label says where the exercise goes."""
    c = shell.card()
    said, set_said = ft.use_state("")
    written = read_line(said)
    found = offered(edited.library, written.words)

    def add(exercise: Exercise) -> None:
        edited.write(written, exercise)
        set_said("")

    async def enter(event: ft.Event[ft.TextField]) -> None:
        if found:
            add(found[0])
            await event.control.focus()  # type: ignore[no-untyped-call]

    rows = [_offer(shell, written, exercise, first=n == 0, press=safe(shell, bind(add, exercise)))
            for n, exercise in enumerate(found)]
    if written.words and not found:
        rows = [c.soft(words.NOT_FOUND)]
    field = c.field(_label(edited), said, safe(shell, lambda e: set_said(e.control.value or "")),
                    hint=words.WRITE_HINT, on_submit=safe(shell, enter))
    return c.stack([ft.Column(rows, spacing=0, tight=True,
                              horizontal_alignment=ft.CrossAxisAlignment.STRETCH), field], 4)


def _label(edited: EditedSession) -> str:
    exercise = edited.exercise(edited.chosen)
    if exercise is not None:
        return words.write_after(exercise.name)
    block = edited.sheet.block_of(edited.chosen) or edited.sheet.blocks[-1]
    return words.write_at_end(block.kind)


def _offer(shell: Shell, written: WrittenLine, exercise: Exercise, *, first: bool, press: object) -> ft.Control:
    c = shell.card()
    read = words.amounts_read(written.measure, written.amount, written.rest_s)
    behind = ", ".join(one for one in (read, words.ENTER if first else "") if one)
    face = ft.Row([c.text(exercise.name, t.T_BODY, t.EXTRA if first else t.SEMI, expand=True,
                          semantics_label=words.act_on(words.ADD, exercise.name)),
                   c.text(behind, t.T_CAPTION, colour=c.p.soft)], spacing=10)
    return c.press(face, press, c.p.sheet, c.border(t.HAIR),  # type: ignore[arg-type]
                   ft.Padding(left=10, right=12, top=10, bottom=10))
