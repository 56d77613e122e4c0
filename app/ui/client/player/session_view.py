"""The session under way: the count, the exercise, its cues, the easier option, what comes next, and the buttons."""
from __future__ import annotations

from dataclasses import replace

import flet as ft

from app.domain.model.plan import Step
from app.domain.player.player_state import PlayerState
from app.ui.client.player.exercise_cards import cards, easier
from app.ui.client.player.live_count import name_of, panel
from app.ui.client.player.live_session import Live
from app.ui.client.player.player_buttons import buttons, less_used, one_row, top_bar
from app.ui.client.player.tap_buttons import rest_taps, taps
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.time_strip import now_strip
from app.ui.shell.shell import Shell
from app.words.client import player as says

TWO_COLUMNS_FROM = 700
"""Width from which, where the page is wider than high, the count stands at the left, px."""
LEFT_SHARE = 0.42
LARGE_SHARE = 0.65
"""Of the figures where the words are large: they need the room."""
LANE = 36
TALL = 0.5
"""Of the figures at the left, as a share of the height of the page."""


def player_page(shell: Shell, live: Live) -> ft.Control:
    """The whole page; the count and the buttons never scroll away."""
    c = shell.card()
    if c.width >= TWO_COLUMNS_FROM and c.width > c.height:
        return _wide(c, live)
    large = c.scale > t.LARGE_PRINT
    fixed = [top_bar(c, live), panel(c, live, c.width, t.T_COUNT * (LARGE_SHARE if large else 1))]
    room, after = c.width - 2 * c.margin, next_words(c, live)
    middle = [_padded(c, [*taps(c, live), *cards(c, live, room)]), *easier(c, live),
              _padded(c, [*rest_taps(c, live), *([after] if large else []), strip(c, live, room), *less_used(c, live)])]
    foot = _foot(c, [*([] if large else [after]), *buttons(c, live)])
    return ft.Column([*fixed, _scroll(c, middle), foot], spacing=0, expand=True,
                     horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


def _wide(c: Card, live: Live) -> ft.Control:
    left = c.width * LEFT_SHARE
    count = panel(c, live, left, c.height * TALL)
    beside = _scroll(c, [_padded(c, [next_words(c, live), strip(c, live, left - 2 * c.margin)])])
    low = c.height < t.LOW
    room = c.width - left - 2 * c.margin
    middle = [_padded(c, [*taps(c, live), *cards(c, live, room)]), *easier(c, live),
              _padded(c, [*rest_taps(c, live), *less_used(c, live)])]
    right = [top_bar(c, live), _scroll(c, middle),
             _foot(c, [one_row(c, live)] if low else buttons(c, live))]
    stretch = ft.CrossAxisAlignment.STRETCH
    columns: list[ft.Control] = [
        ft.Container(ft.Column([count, beside], spacing=0, horizontal_alignment=stretch), width=left,
                     border=ft.Border(right=ft.BorderSide(t.RULE, c.p.ink))),
        ft.Column(right, spacing=0, expand=True, horizontal_alignment=stretch),
    ]
    return ft.Row(columns, spacing=0, expand=True, vertical_alignment=stretch)


def _scroll(c: Card, pieces: list[ft.Control]) -> ft.Control:
    inner = ft.Container(c.stack(pieces, 8), padding=ft.Padding.symmetric(vertical=10))
    return ft.Column([inner], scroll=ft.ScrollMode.AUTO, expand=True,
                     horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


def _padded(c: Card, pieces: list[ft.Control]) -> ft.Control:
    return ft.Container(c.stack(pieces, 8), padding=ft.Padding.symmetric(horizontal=c.margin))


def _foot(c: Card, pieces: list[ft.Control]) -> ft.Control:
    padding = ft.Padding(left=c.margin, right=c.margin, top=8, bottom=10)
    return ft.Column([c.hairline(), ft.Container(c.stack(pieces), padding=padding)], spacing=0, tight=True)


# ------------------------------------------------------------------ what comes next

def next_words(c: Card, live: Live) -> ft.Control:
    """The next exercise in a line; on a phone it stands over the buttons, so that it never scrolls away."""
    state = live.now.state
    after = next_after(state)
    line = says.next_line(name_of(live, after), after, resting=not state.step.is_effort) if after else says.LAST_ONE
    return c.text(line, t.T_LEAD if c.height < t.LOW or c.width >= t.WIDE else t.T_BODY, t.SEMI, height=1.15)


def strip(c: Card, live: Live, width: float) -> ft.Control:
    """The session with its marker."""
    playing, state = live.now, live.now.state
    plan = playing.plan if state.steps is playing.plan.steps else replace(playing.plan, steps=state.steps)
    return now_strip(c, plan, state.at_ms, width, lane=LANE)


def next_after(state: PlayerState) -> Step | None:
    """The work after what is shown: in a rest, the one after the next."""
    ahead = [s for i, s in enumerate(state.steps[state.index + 1:], state.index + 1)
             if s.is_effort and s.length_ms and i not in state.passed_by]
    skip = 0 if state.step.is_effort else 1
    return ahead[skip] if len(ahead) > skip else None
