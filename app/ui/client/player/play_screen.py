"""The player's screen: what lies open now, the look around before, the session, or a question."""
from __future__ import annotations

from collections.abc import Callable

import flet as ft

from app.domain.player.player_state import OVER, Status
from app.ui.client.player import overlay_panels as panels
from app.ui.client.player.before_session import before_page
from app.ui.client.player.distance_view import distance_page
from app.ui.client.player.hurt_questions import HurtPage, changed_page
from app.ui.client.player.keyboard import press_key
from app.ui.client.player.live_session import Live, Panel, SessionDrawnAs
from app.ui.client.player.session_view import player_page
from app.ui.parts.frame import MAIN
from app.ui.shell.moving_figures import wanted_motion
from app.ui.shell.shell import Shell, safe
from app.ui.shell.visit import while_kept

Draw = Callable[[Shell, Live], ft.Control]
OVER_IT: dict[Panel, Draw] = {
    Panel.SIGNS: panels.signs_page, Panel.ENDING: panels.ending_page, Panel.AMISS: panels.amiss_page,
    Panel.CHANGED: changed_page,
}


@ft.component
def PlayScreen(shell: Shell) -> ft.Control:
    """A session being done. Where there is none to do, it goes to today's card."""
    _, turn = ft.use_state(0)

    def opened() -> Live:
        return Live(shell, lambda: turn(lambda n: n + 1))

    held: ft.MutableRef[Live] = ft.use_ref(opened)
    live = held.current
    assert live is not None
    live.shell = shell
    page = shell.tools.page

    def follow() -> None:
        page.on_keyboard_event = safe(shell, lambda e: shell.run(press_key, live, e))
        page.on_disconnect = safe(shell, lambda _: live.away())
        page.on_connect = safe(shell, lambda _: back_again())
        if live.status in OVER and not live.elsewhere:
            live.finish()
        elif live.playing is None and not live.can_start:
            shell.go("/today")
        elif live.playing is None and live.is_wanted and live.card and not live.card.person.led_by:
            live.start()

    def back_again() -> None:
        live.back_again()
        shell.run(ask_about_motion)

    async def ask_about_motion() -> None:
        live.motion = await wanted_motion()
        live.changed()

    def leave() -> None:
        page.on_keyboard_event = None
        page.on_disconnect = None
        page.on_connect = None
        live.close()

    ft.use_effect(safe(shell, follow), dependencies=[])
    ft.use_effect(safe(shell, ask_about_motion), dependencies=[])
    ft.use_effect(safe(shell, while_kept(page, live.run)), dependencies=[], cleanup=safe(shell, leave))
    return _drawn(shell, live)


def _drawn(shell: Shell, live: Live) -> ft.Control:
    if live.playing is None:
        return before_page(shell, live) if live.can_start else ft.Container()
    if live.elsewhere:
        return panels.elsewhere_page(shell, live)
    if live.status in OVER:
        return panels.over_page(shell, live)
    if live.panel in OVER_IT:
        return OVER_IT[live.panel](shell, live)
    if live.status is Status.READY:
        return before_page(shell, live)
    if live.status is Status.ASKING:
        return panels.asking_page(shell, live)
    if live.status is Status.HURT:
        return HurtPage(shell, live)
    if live.view is SessionDrawnAs.DISTANCE:
        return shell.card().landmark(MAIN, distance_page(shell.card(), live))
    return shell.card().landmark(MAIN, player_page(shell, live))
