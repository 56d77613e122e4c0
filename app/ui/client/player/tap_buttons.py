"""Taps of the moment: done counting, down or up, all right, more rest or enough of it."""
from __future__ import annotations

import flet as ft

from app.domain.model.plan import StepKind
from app.domain.player import player as events
from app.domain.player.player_state import Status, Wait
from app.domain.player.tap_gates import round_ends
from app.ui.client.player.live_count import waiting_words
from app.ui.client.player.live_session import Live
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.words.client import pauses
from app.words.client import player as says


def taps(c: Card, live: Live) -> list[ft.Control]:
    """Those that this step waits for, above everything; while it waits the main button is the tap."""
    state = live.now.state
    if live.status not in (Status.RUNNING, Status.PAUSED):
        return []
    if state.step.is_effort:
        return _answer(c, live) if state.index in state.waiting() else []
    if state.step.kind is StepKind.CHANGE:
        return _answer(c, live) if live.status is Status.RUNNING and state.step.awaits_tap else []
    return _all_right(c, live)


def _answer(c: Card, live: Live) -> list[ft.Control]:
    words = waiting_words(live.now.state.step)[1]
    return [c.button(words, live.press(live.answer), icon=ft.Icons.CHECK_SHARP, height=t.TARGET_PLAYER)]


def _all_right(c: Card, live: Live) -> list[ft.Control]:
    """The question of the round; once it is answered, that it was heard."""
    state = live.now.state
    if state.index in state.waiting():
        return [c.subhead(pauses.ALL_RIGHT_ASKED), *_answer(c, live)]
    asked = Wait.ALL_RIGHT in state.waits and state.index in round_ends(state.steps)
    return [ft.Semantics(content=c.note(pauses.ALL_RIGHT_SAID), live_region=True)] if asked else []


def rest_taps(c: Card, live: Live) -> list[ft.Control]:
    """More rest, or enough of it."""
    state = live.now.state
    if state.step.is_effort or state.step.kind is StepKind.CHANGE or live.status not in (Status.RUNNING, Status.PAUSED):
        return []
    longer = c.button(says.LONGER_REST, live.press(live.do, events.LongerRest()), size=t.T_BODY)
    if live.status is not Status.RUNNING or state.next_effort() is None:
        return [longer]
    ready = c.button(pauses.READY_NOW, live.press(live.do, events.Ready()), size=t.T_BODY)
    if c.scale > t.LARGE_PRINT:
        return [longer, ready]
    longer.expand, ready.expand = 5, 4
    return [ft.Row([longer, ready], spacing=t.GAP_S)]
