"""What to do now, in words: the exercise, its side and amount, its cue lines, and the easier option."""
from __future__ import annotations

import flet as ft

from app import text_player as says
from app.domain import player as events
from app.domain.exercise import Cues
from app.domain.plan import Step, StepKind
from app.domain.run import Status
from app.ui import theme as t
from app.ui.client.play_live import Live
from app.ui.parts import Card


def cards(c: Card, live: Live) -> list[ft.Control]:
    """The pieces from above: name, amount, lines, the easier option, what else can be done just now."""
    step = live.now.state.step
    if step.kind is StepKind.CHANGE:
        return [_change(c, step), *_ready(c, live, step), *_coming(c, live, step)]
    found = live.now.library.get(step.exercise or "")
    if found is None:
        return []
    pieces: list[ft.Control] = [_head(c, found.name, says.side_word(step))]
    amount = says.amount(_effort(live, step), pounds=live.now.person.pounds)
    pieces += [c.lead(amount)] if amount else []
    lines = said(c, found.cues, step) if live.now.led else read(c, found.cues, step)
    return [*pieces, *lines]


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


def said(c: Card, cues: Cues, step: Step) -> list[ft.Control]:
    """What who leads says, and what they watch for."""
    lines = [*cues.action, cues.breath] if step.is_effort else [*cues.set_up, *cues.action[:1]]
    say = [c.text(line, line_size(c), height=1.2) for line in lines if line]
    watch = [c.text(line, t.T_BODY, t.SEMI, height=1.2) for line in (*cues.safety, says.WATCH_ALWAYS)]
    return [c.aside(c.stack([c.subhead(says.YOU_SAY, t.T_BODY), *say], 4)),
            c.aside(c.stack([c.subhead(says.WATCH_FOR, t.T_BODY), *watch], 4))]


def easier(c: Card, live: Live) -> list[ft.Control]:
    """The easier option from edge to edge, and the way back from the one just taken."""
    pieces: list[ft.Control] = []
    if live.eased is not None:
        taken = c.stack([c.note(says.eased(live.eased.now.name)),
                         c.link(says.undo_eased(live.eased.was.name), live.press(live.undo_ease))], 0)
        pieces.append(ft.Container(taken, padding=ft.Padding.symmetric(horizontal=c.margin)))
    option = live.now.easier() if live.now.state.step.kind is not StepKind.CHANGE else None
    if option is not None:
        pieces.append(c.band(says.EASIER, option.name, ft.Icons.SOUTH_SHARP, live.press(live.ease)))
    return pieces


def longer(c: Card, live: Live) -> list[ft.Control]:
    """More time before the next work."""
    step = live.now.state.step
    if step.is_effort or step.kind is StepKind.CHANGE:
        return []
    return [c.button(says.LONGER_REST, live.press(live.do, events.LongerRest()), icon=ft.Icons.MORE_TIME_SHARP)]


# ------------------------------------------------------------------ down to the floor and up

def _change(c: Card, step: Step) -> ft.Control:
    up = step.to_floor is False
    return c.stack([_head(c, says.UP if up else says.DOWN, ""), c.text(says.UP_HOW if up else says.DOWN_HOW,
                                                                       t.T_LEAD, height=1.2)], 4)


def _ready(c: Card, live: Live, step: Step) -> list[ft.Control]:
    if live.status is not Status.RUNNING:
        return []
    words = says.I_AM_UP if step.to_floor is False else says.I_AM_DOWN
    return [c.button(words, live.press(live.ready), icon=ft.Icons.CHECK_SHARP, height=t.TARGET_PLAYER)]


def _coming(c: Card, live: Live, step: Step) -> list[ft.Control]:
    """While getting down or up: what is done there, so that the kit can be taken along."""
    found = live.now.library.get(step.exercise or "")
    if found is None:
        return []
    return [c.hairline(), c.strong(found.name), *[c.text(line, height=1.2) for line in found.cues.set_up]]
