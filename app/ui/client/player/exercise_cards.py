"""What to do now, in words: the exercise, its side and amount, its figure and cue lines, and the easier option."""
from __future__ import annotations

import flet as ft

from app.domain.model.exercise import Cues
from app.domain.model.plan import Step, StepKind
from app.ui.client.player.exercise_figure import easier_figure, main_figure, stands_in_two
from app.ui.client.player.live_session import Live
from app.ui.helper.lead_view import change_lines, lead_lines
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.words.client import player as says

FIGURE_SHARE = 0.44
"""Of the width; the lines stand beside it."""
MOST_FIGURE = 340
HIGH_SHARE, LOW_SHARE = 0.42, 0.36
"""Of the height of the page, at most; the second of a low page."""
PAIR_SHARE, ROW_SHARE = 0.46, 0.17
"""The same of two stills: above one another, and beside one another over the lines."""


def cards(c: Card, live: Live, width: float) -> list[ft.Control]:
    """The pieces from above: name, amount, figure, lines."""
    step = live.now.state.step
    if step.kind is StepKind.CHANGE:
        return [_change(c, step), *(change_lines(c, step) if live.now.led else []), *_coming(c, live, step)]
    found = live.now.library.get(step.exercise or "")
    if found is None:
        return []
    pieces: list[ft.Control] = [_head(c, found.name, says.side_word(step))]
    amount = says.amount(_effort(live, step), pounds=live.now.person.pounds)
    pieces += [c.lead(amount)] if amount else []
    lines = lead_lines(c, live.device, found, step) if live.now.led else read(c, found.cues, step)
    return [*pieces, *_with_figure(c, live, lines, width)]


def _with_figure(c: Card, live: Live, lines: list[ft.Control], width: float) -> list[ft.Control]:
    """The figure beside the lines; above them in large print, and where two stills need the width."""
    two = stands_in_two(live)
    above = c.scale > t.LARGE_PRINT or (two and width < t.LOW)
    widest, highest = width if above else width * FIGURE_SHARE, c.height * _share(c, two, above)
    room = (widest, highest) if two else (min(MOST_FIGURE, widest), min(MOST_FIGURE, highest))
    figure = main_figure(c, live, *room)
    if not figure or above:
        return [*figure, *lines]
    words = c.stack(lines, 6)
    words.expand = True
    return [ft.Row([*figure, words], spacing=t.GAP, vertical_alignment=ft.CrossAxisAlignment.START)]


def _share(c: Card, two: bool, above: bool) -> float:
    """Of the height of the page for the figures: so much that the easier option shows under them and the lines."""
    if c.height < t.LOW:
        return LOW_SHARE
    if two and c.scale <= t.LARGE_PRINT:
        return ROW_SHARE if above else PAIR_SHARE
    return HIGH_SHARE


def _effort(live: Live, step: Step) -> Step:
    return step if step.is_effort else live.now.state.next_effort() or step


def _head(c: Card, name: str, side: str) -> ft.Control:
    size = t.T_TITLE if c.width >= t.WIDE and c.height >= t.LOW else t.T_HEAD
    heading = ft.Semantics(content=c.text(name, size, t.EXTRA, height=1.12), heading_level=1, expand=True)
    if not side:
        return ft.Row([heading])
    if c.scale > t.LARGE_PRINT:
        return c.stack([ft.Row([heading]), ft.Row([c.tag(side)])])
    return ft.Row([heading, c.tag(side)], spacing=12, vertical_alignment=ft.CrossAxisAlignment.START)


def read(c: Card, cues: Cues, step: Step) -> list[ft.Control]:
    """What the client reads: the set-up before, the action and the breath while it is done, and what to watch."""
    lines = [*cues.action, cues.breath] if step.is_effort else list(cues.set_up)
    shown: list[ft.Control] = [c.text(line, line_size(c), height=1.2) for line in lines if line]
    return [c.stack(shown, 4), *_care(c, cues)]


def line_size(c: Card) -> float:
    """Of the cue lines: as large as the page allows, for eyes three metres away."""
    if c.height < t.LOW:
        return t.T_BODY
    return t.T_HEAD if c.width >= t.WIDE else t.T_LEAD


def _care(c: Card, cues: Cues) -> list[ft.Control]:
    if not cues.safety:
        return []
    spans = c.text(f"{says.TAKE_CARE} {' '.join(cues.safety)}", t.T_BODY, t.SEMI, height=1.2, expand=True)
    return [ft.Row([c.icon(ft.Icons.WARNING_SHARP, size=24), spans], spacing=10,
                   vertical_alignment=ft.CrossAxisAlignment.START)]


def easier(c: Card, live: Live) -> list[ft.Control]:
    """The easier option from edge to edge with its figure, and the way back from the one just taken."""
    pieces: list[ft.Control] = []
    if live.eased is not None:
        taken = c.stack([c.note(says.eased(live.eased.now.name)),
                         c.link(says.undo_eased(live.eased.was.name), live.press(live.undo_ease))], 0)
        pieces.append(ft.Container(taken, padding=ft.Padding.symmetric(horizontal=c.margin)))
    option = live.now.easier() if live.now.state.step.kind is not StepKind.CHANGE else None
    if option is not None:
        figure = easier_figure(c, live, option, t.TARGET_PLAYER)
        pieces.append(c.band(says.EASIER, option.name, ft.Icons.SOUTH_SHARP, live.press(live.ease), figure=figure))
    return pieces


# ------------------------------------------------------------------ down to the floor and up

def _change(c: Card, step: Step) -> ft.Control:
    word, line = says.change_words(step)
    return c.stack([_head(c, word, ""), c.text(line, t.T_LEAD, height=1.2)], 4)


def _coming(c: Card, live: Live, step: Step) -> list[ft.Control]:
    """While getting down or up: what is done there, so that the kit can be taken along."""
    after = live.now.state.next_effort()
    found = live.now.library.get(after.exercise or "") if after else None
    if found is None:
        return []
    return [c.hairline(), c.strong(found.name), *[c.text(line, height=1.2) for line in found.cues.set_up]]
