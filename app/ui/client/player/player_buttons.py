"""The buttons of the player: the main act, and what must never be looked for."""
from __future__ import annotations

import flet as ft

from app.device.abilities import Ability
from app.domain.player import player as events
from app.domain.player.player_state import Status
from app.ui.client.player.live_count import waiting_words
from app.ui.client.player.live_session import Live, Panel, SessionDrawnAs
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.words.client import lead, pauses
from app.words.client import player as says
from app.words.sound import lacks_words

KEYS_FROM = 700
"""Width from which somebody may have a keyboard, px."""


def top_bar(c: Card, live: Live) -> ft.Control:
    """Whose session it is, the end, the large view, and the stop signs: there at every moment."""
    playing = live.now
    whose = [c.text(says.whose(playing.person.name), t.T_BODY, t.EXTRA, height=1.15)] if playing.led else []
    signs = signs_button(c, live)
    padding = ft.Padding.symmetric(horizontal=c.margin, vertical=4)
    if c.scale > t.LARGE_PRINT:
        return ft.Container(c.stack([*whose, signs], 4), padding=padding)
    row = [*_end_and_large(c, live), signs]
    for button, share in zip(row, (2, 3, 5), strict=True):
        button.expand = share
    return ft.Container(c.stack([*whose, ft.Row(row, spacing=8)], 4), padding=padding)


def signs_button(c: Card, live: Live) -> ft.Control:
    """The list of stop signs, one tap away."""
    return c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS), height=t.TARGET, size=t.T_BODY)


def under_signs(c: Card, live: Live, page: ft.Control) -> ft.Control:
    """A page over the session, with the stop signs above it that never scroll away."""
    bar = ft.Container(ft.Row([signs_button(c, live)], alignment=ft.MainAxisAlignment.END),
                       padding=ft.Padding.symmetric(horizontal=c.margin, vertical=4))
    page.expand = True
    return ft.Column([bar, c.hairline(), page], spacing=0, expand=True,
                     horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


def _end_and_large(c: Card, live: Live) -> list[ft.Control]:
    return [c.button(says.END_SHORT, live.press(live.open, Panel.ENDING), name=says.END, size=t.T_BODY),
            c.button(pauses.DISTANCE, live.press(live.show, SessionDrawnAs.DISTANCE), name=pauses.DISTANCE_NAME,
                     size=t.T_BODY)]


def buttons(c: Card, live: Live) -> list[ft.Control]:
    """The main act, and back, skip and "that hurts" under it; in large print only what must never be looked for."""
    if c.scale > t.LARGE_PRINT:
        return [_main(c, live), _hurts(c, live)]
    row: list[ft.Control] = [*_back_and_skip(c, live, 2), _hurts(c, live, expand=4)]
    return [_main(c, live), ft.Row(row, spacing=t.GAP_S)]


def one_row(c: Card, live: Live) -> ft.Control:
    """All of them beside one another, where the page is low; in large print the two that matter most."""
    main = _main(c, live, size=t.T_LEAD if c.scale <= t.LARGE_PRINT else t.T_BODY, height=t.TARGET_PLAYER, icon=None,
                 expand=3)
    between = _back_and_skip(c, live, 2) if c.scale <= t.LARGE_PRINT else []
    return ft.Row([main, *between, _hurts(c, live, size=t.T_BODY, expand=4)], spacing=t.GAP_S)


def _main(c: Card, live: Live, **more: object) -> ft.Control:
    sized: dict[str, object] = {"height": t.TARGET_PAUSE}
    if live.status is Status.WAITING:
        large = c.scale > t.LARGE_PRINT
        sized |= ({"size": t.T_HEAD} if large else {"icon": ft.Icons.CHECK_SHARP}) | more
        return c.main_button(waiting_words(live.now.state.step)[1], live.press(live.answer), **sized)  # type: ignore[arg-type]
    running = live.status is Status.RUNNING
    words, icon = (says.PAUSE, ft.Icons.PAUSE_SHARP) if running else (says.GO_ON, ft.Icons.PLAY_ARROW_SHARP)
    sized |= {"icon": icon} | more
    return c.main_button(words, live.press(live.toggle), **sized)  # type: ignore[arg-type]


def _back_and_skip(c: Card, live: Live, expand: int) -> list[ft.Control]:
    return [
        c.button(says.BACK, live.press(live.do, events.WentBack()), height=t.TARGET_PLAYER, expand=expand),
        c.button(says.SKIP, live.press(live.do, events.Skipped()), height=t.TARGET_PLAYER, expand=expand),
    ]


def _hurts(c: Card, live: Live, **more: object) -> ft.Control:
    sized: dict[str, object] = {"height": t.TARGET_PLAYER, "size": t.T_HEAD} | more
    return c.harm_button(says.HURTS, live.press(live.stand_still), **sized)  # type: ignore[arg-type]


def less_used(c: Card, live: Live) -> list[ft.Control]:
    """What may be looked for: the keys, and in large print back, skip, the end and the large view."""
    large = c.scale > t.LARGE_PRINT
    row = [ft.Row(_back_and_skip(c, live, 1), spacing=t.GAP_S), *_end_and_large(c, live)] if large else []
    words = lead.not_themselves(live.now.person.sex)
    amiss = [c.harm_button(words, live.press(live.open, Panel.AMISS), height=t.TARGET)] if live.now.led else []
    keys = [c.caption(says.KEYS)] if c.width >= KEYS_FROM and c.height >= t.LOW else []
    fault = [c.notice(live.fault, says.NO_STORE_NEXT)] if live.fault else []
    lacks = lacking(live)
    return [*fault, *row, *amiss, *keys, *([c.caption(lacks)] if lacks else [])]


def lacking(live: Live) -> str:
    """One quiet sentence about what this device lacks of what is switched on."""
    device = live.device
    off = {Ability.SOUND: not device.sounds.on, Ability.HAPTICS: not device.haptics.on}
    return lacks_words(ability for ability in device.missing.abilities if not off.get(ability, False))
