"""The count under way: what is printed on its panel, and what a tap on it does."""
from __future__ import annotations

import flet as ft

from app.domain.model.plan import Part, Step, StepKind
from app.domain.player.player_state import PlayerState, Status
from app.domain.player.repetition_count import repetition
from app.ui.client.player.live_session import Live
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.count_panel import Phase, count_panel
from app.words.client import pauses
from app.words.client import player as says


def panel(c: Card, live: Live, width: float, tallest: float) -> ft.Control:
    """The count; a tap anywhere on it pauses. Where a tap is awaited, the words that ask for it."""
    state = live.now.state
    step = state.step
    if state.status is Status.WAITING:
        return _waiting(c, step, width)
    word = word_now(live)
    drawn = count_panel(
        c, phase_now(live), word, says.count_words(state.left_ms), width, aside=_aside(state), tallest=tallest,
        spoken=", ".join(w for w in (word, name_of(live, step), says.side_word(step)) if w),
    )
    return ft.GestureDetector(drawn, on_tap=live.press(live.toggle), exclude_from_semantics=True)


def _aside(state: PlayerState) -> str:
    """`3 of 8, round 2 of 3`."""
    step, number = state.step, repetition(state)
    counted = pauses.repetition_words(number, step.reps or 0) if number else ""
    return ", ".join(w for w in (counted, says.where_word(step, rounds_of(state))) if w)


def _waiting(c: Card, step: Step, width: float) -> ft.Control:
    told = c.text(waiting_words(step)[0], t.T_LEAD if c.scale > t.LARGE_PRINT else t.T_TITLE, t.EXTRA, height=1.1)
    box = ft.Container(told, padding=ft.Padding.symmetric(horizontal=t.MARGIN, vertical=28), width=width,
                       border=ft.Border.symmetric(vertical=ft.BorderSide(t.RULE_THICK, c.p.ink)), bgcolor=c.p.sheet)
    return ft.Semantics(content=box, live_region=True)


def waiting_words(step: Step) -> tuple[str, str]:
    """What is waited for, and the tap that tells it."""
    if step.is_effort:
        return pauses.COUNTING_WAITS, pauses.DONE_COUNTING
    if step.kind is not StepKind.CHANGE:
        return pauses.ALL_RIGHT_WAITS, pauses.ALL_RIGHT
    return says.wait_words(step)


def word_now(live: Live) -> str:
    """The one word over the count."""
    return says.PAUSED if live.status is Status.PAUSED else says.kind_word(live.now.state.step)


def phase_now(live: Live) -> Phase:
    """How the panel is printed."""
    waits = live.status in (Status.PAUSED, Status.WAITING)
    return Phase.WAIT if waits else phase_of(live.now.state.step)


def phase_of(step: Step) -> Phase:
    """The same of a step that runs."""
    if step.is_effort:
        return Phase.WORK
    return Phase.REST if step.kind in (StepKind.REST, StepKind.ROUND_REST) else Phase.SETUP


def rounds_of(state: PlayerState) -> int:
    """Rounds of the main part."""
    return max((s.round or 1 for s in state.steps if s.part is Part.MAIN), default=1)


def name_of(live: Live, step: Step) -> str:
    """The exercise of a step in words; empty for none."""
    found = live.now.library.get(step.exercise or "")
    return found.name if found else ""
