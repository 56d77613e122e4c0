"""One source: what it holds, what the proofreader says with what would mend it, and saving the programme file."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.actions.desk import publishing
from app.actions.desk.publishing import PublishableSource
from app.device.speech_engine import find_engine
from app.domain.errors import TooLargeToPaste
from app.domain.proofreading.proofread import Finding
from app.ui.parts import Card, Look, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words import sound
from app.words.client import hand_over
from app.words.coach import desk as words
from app.words.coach import publish
from app.words.coach.proofreading import problem_mend, problem_text

FEW = 4


@ft.component
def SourcePanel(shell: Shell, shelf: PublishableSource) -> ft.Control:
    """A box; what could hurt a client stands first and keeps it from being saved."""
    c = shell.card()
    is_whole, set_whole = ft.use_state(False)
    saved, set_saved = ft.use_state("")
    source = shelf.source
    blocking = [p for p in shelf.problems if p.blocks]
    others = [p for p in shelf.problems if not p.blocks]

    async def save(_: object) -> None:
        engine = find_engine()
        if engine is not None:
            shell.say(sound.SPEAKING)
        built = await publishing.build(shell.store, shell.clock, shelf.folder, engine)
        if built.data is None:
            shell.say(publish.BLOCKED)
        elif await shell.device.files.save_bytes(built.name, built.data):
            set_saved(publish.saved_programme(built.name, built.source.coach))
            shell.refresh()
        else:
            shell.say(publish.not_saved())

    async def copy(_: object) -> None:
        built = await publishing.build(shell.store, shell.clock, shelf.folder, find_engine())
        if built.data is None:
            set_saved(publish.BLOCKED)
            return
        try:
            text = built.text()
        except TooLargeToPaste as error:
            set_saved(hand_over.too_large(str(error.what["name"])))
            return
        copied = await shell.device.files.copy_text(text)
        set_saved(hand_over.COPIED_PROGRAMME if copied else hand_over.NOT_COPIED)
        shell.refresh()

    before = publishing.published_version(shell.store, source.id)
    pieces: list[ft.Control] = [
        c.subhead(source.title or source.id),
        c.body(publish.source_line(source.coach, source.version, before)),
        c.body(publish.holds(len(source.sessions), len(source.exercises), len(source.programmes))),
        c.strong(publish.problems_line(len(blocking), len(others))),
    ]
    if blocking:
        listed = c.rows([_problem(c, p) for p in blocking])
        pieces.append(c.harm_box(c.stack([c.strong(publish.BLOCKS), listed], 10)))
    shown = others if is_whole else others[:FEW]
    if shown:
        pieces.append(c.rows([_problem(c, p) for p in shown]))
    if len(others) > len(shown):
        pieces.append(c.side_by_side([c.small_button(words.SHOW_MORE, bind(set_whole, True))]))
    if shelf.blocked:
        pieces.append(c.note(publish.BLOCKED))
    else:
        name = source.title or source.id
        pieces.append(c.side_by_side([
            c.button(publish.SAVE_PROGRAMME, safe(shell, save), look=Look.SOLID, icon=ft.Icons.SAVE_SHARP),
            c.button(hand_over.COPY_PROGRAMME, safe(shell, copy), icon=ft.Icons.COPY_SHARP,
                     name=f"{hand_over.COPY_PROGRAMME}: {name}"),
        ]))
    if saved:
        pieces.append(c.notice(saved, icon=ft.Icons.INFO_SHARP))
    pieces += _command(c, shelf)
    return c.box(c.stack(pieces, 12))


def _problem(c: Card, problem: Finding) -> ft.Control:
    says = f"{problem_text(problem)} {publish.against(problem.value, problem.limit)}."
    return c.stack([c.text(problem.where, weight=t.SEMI), c.body(says), c.soft(problem_mend(problem))], 0)


def _command(c: Card, shelf: PublishableSource) -> Sequence[ft.Control]:
    name = publishing.file_name(shelf.source.id, shelf.source.version)
    return [c.caption(publish.COMMAND_WHY), c.soft(publish.command_hint(str(shelf.folder), name))]
