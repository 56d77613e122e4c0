"""One source: what it holds, what the proofreader says with what would mend it, and saving the programme file."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app import text_coach as words
from app.actions import coach
from app.actions.coach import Shelf
from app.domain.proofreading import Problem
from app.text_proofreading import problem_mend, problem_text
from app.ui import theme as t
from app.ui.parts import Card, Look, bind
from app.ui.shell import Shell, safe

FEW = 4


@ft.component
def SourcePanel(shell: Shell, shelf: Shelf) -> ft.Control:
    """A box; what could hurt a client stands first and keeps it from being saved."""
    c = shell.card()
    is_whole, set_whole = ft.use_state(False)
    saved, set_saved = ft.use_state("")
    source = shelf.source
    blocking = [p for p in shelf.problems if p.blocks]
    others = [p for p in shelf.problems if not p.blocks]

    async def save(_: object) -> None:
        built = await coach.build(shell.store, shell.clock, shelf.folder)
        if built.data is None:
            shell.say(words.BLOCKED)
        elif await shell.device.files.save_bytes(built.name, built.data):
            set_saved(words.saved_programme(built.name, built.source.coach))
            shell.refresh()
        else:
            shell.say(words.not_saved())

    before = coach.published_version(shell.store, source.id)
    pieces: list[ft.Control] = [
        c.subhead(source.title or source.id),
        c.body(words.source_line(source.coach, source.version, before)),
        c.body(words.holds(len(source.sessions), len(source.exercises), len(source.programmes))),
        c.strong(words.problems_line(len(blocking), len(others))),
    ]
    if blocking:
        pieces.append(c.harm_box(c.stack([c.strong(words.BLOCKS), c.rows([_problem(c, p) for p in blocking])], 10)))
    shown = others if is_whole else others[:FEW]
    if shown:
        pieces.append(c.rows([_problem(c, p) for p in shown]))
    if len(others) > len(shown):
        pieces.append(c.side_by_side([c.small_button(words.SHOW_MORE, bind(set_whole, True))]))
    if shelf.blocked:
        pieces.append(c.note(words.BLOCKED))
    else:
        press, icon = safe(shell, save), ft.Icons.SAVE_SHARP
        pieces.append(c.side_by_side([c.button(words.SAVE_PROGRAMME, press, look=Look.SOLID, icon=icon)]))
    if saved:
        pieces.append(c.notice(saved, icon=ft.Icons.CHECK_SHARP))
    pieces += _command(c, shelf)
    return c.box(c.stack(pieces, 12))


def _problem(c: Card, problem: Problem) -> ft.Control:
    says = f"{problem_text(problem)} {words.against(problem.value, problem.limit)}."
    return c.stack([c.text(problem.where, weight=t.SEMI), c.body(says), c.soft(problem_mend(problem))], 0)


def _command(c: Card, shelf: Shelf) -> Sequence[ft.Control]:
    name = f"{shelf.source.id}-{shelf.source.version}.evenload-pack"
    return [c.caption(words.COMMAND_WHY), c.soft(words.command_hint(str(shelf.folder), name))]
