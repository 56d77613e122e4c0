"""What is to be checked in a session, each with the place and, where one act takes it away, its fix."""
from __future__ import annotations

import flet as ft

from app.domain.bench.session_checks import PlacedCheck
from app.ui.coach.bench.edited_session import EditedSession
from app.ui.coach.bench.session_card import number_square
from app.ui.parts import bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach.bench import session as words
from app.words.coach.proofreading import problem_mend, problem_text


def checks_margin(shell: Shell, edited: EditedSession) -> ft.Control:
    """The list, in the order of the numbers on the card."""
    c = shell.card()
    if not edited.sheet.session().blocks:
        return c.stack([])
    if not edited.checks:
        return c.stack([c.subhead(words.CHECKS_CLEAR), c.soft(words.CHECKS_CLEAR_WHY)], t.GAP_S)
    rows = c.rows([_check(shell, edited, one) for one in edited.checks])
    return c.stack([c.subhead(words.checks_head(len(edited.checks))), rows], t.GAP_S)


def _check(shell: Shell, edited: EditedSession, one: PlacedCheck) -> ft.Control:
    c, found = shell.card(), one.found
    about = edited.exercise(one.lines[0]) if one.lines else None
    pieces: list[ft.Control] = [c.strong(about.name)] if about else []
    pieces += [c.body(problem_text(found)),
               c.soft(f"{words.against(found.value, found.limit)} {problem_mend(found)}")]
    acts = []
    if one.fix is not None:
        said = words.fix_words(one.fix, edited.library)
        acts.append(c.small_button(said, safe(shell, bind(edited.fix, one)), icon=ft.Icons.BUILD_SHARP,
                                   name=words.fix_name(one.number, said)))
    if one.lines:
        acts.append(c.small_button(words.SHOW, safe(shell, bind(edited.open, one.lines[0])),
                                   name=words.show_name(one.number)))
    pieces += [ft.Row(acts, wrap=True, spacing=8, run_spacing=6)] if acts else []
    says = c.stack(pieces, 4)
    says.expand = True
    return ft.Row([number_square(c, one.number, blocks=found.blocks), says], spacing=10,
                  vertical_alignment=ft.CrossAxisAlignment.START)
