"""The session under way: the count, the exercise, its cues, the easier option, what comes next, and the buttons."""
from __future__ import annotations

from dataclasses import replace

import flet as ft

from app import text_player as says
from app.domain import player as events
from app.domain.plan import Part, Step, StepKind
from app.domain.run import PlayerState, Status
from app.ui import theme as t
from app.ui.client.play_cards import cards, easier, longer
from app.ui.client.play_live import Live, Panel
from app.ui.parts import Card
from app.ui.parts.count_panel import Phase, count_panel
from app.ui.parts.time_strip import now_strip
from app.ui.shell import Shell

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
    middle = [_padded(c, cards(c, live)), *easier(c, live),
              _padded(c, [*longer(c, live), *coming(c, live, c.width - 2 * c.margin), *less_used(c, live)])]
    return ft.Column([*fixed, _scroll(c, middle), _foot(c, buttons(c, live))], spacing=0, expand=True,
                     horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


def _wide(c: Card, live: Live) -> ft.Control:
    left = c.width * LEFT_SHARE
    count = panel(c, live, left, c.height * TALL)
    beside = _scroll(c, [_padded(c, coming(c, live, left - 2 * c.margin))])
    low = c.height < t.LOW
    middle = [_padded(c, cards(c, live)), *easier(c, live), _padded(c, [*longer(c, live), *less_used(c, live)])]
    right = [top_bar(c, live), _scroll(c, middle),
             _foot(c, [one_row(c, live)] if low and c.scale <= t.LARGE_PRINT else buttons(c, live))]
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


def top_bar(c: Card, live: Live) -> ft.Control:
    """Whose session, or which; and the stop signs, there at every moment."""
    playing = live.now
    words = says.whose(playing.person.name) if playing.led else playing.name
    large = c.scale > t.LARGE_PRINT
    name = c.text(words, t.T_BODY, t.EXTRA, height=1.15, expand=None if large else True)
    stop = c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS), height=t.TARGET, size=t.T_BODY)
    padding = ft.Padding(left=c.margin, right=8, top=4, bottom=4)
    if large:
        return ft.Container(c.stack([*([name] if playing.led else []), stop], 4), padding=padding)
    return ft.Container(ft.Row([name, stop], spacing=8), padding=padding)


# ------------------------------------------------------------------ the count

def panel(c: Card, live: Live, width: float, tallest: float) -> ft.Control:
    """The count; a tap anywhere on it pauses. Where a tap is awaited, the words that ask for it."""
    state = live.now.state
    step = state.step
    if state.status is Status.WAITING:
        return _waiting(c, step, width)
    paused = state.status is Status.PAUSED
    word = says.PAUSED if paused else says.kind_word(step)
    drawn = count_panel(
        c, Phase.WAIT if paused else phase_of(step), word, says.count_words(state.left_ms), width,
        aside=says.where_word(step, rounds_of(state)), tallest=tallest,
        spoken=", ".join(w for w in (word, name_of(live, step), says.side_word(step)) if w),
    )
    return ft.GestureDetector(drawn, on_tap=live.press(live.toggle), exclude_from_semantics=True)


def _waiting(c: Card, step: Step, width: float) -> ft.Control:
    words = says.WHEN_UP if step.to_floor is False else says.WHEN_DOWN
    told = c.text(words, t.T_TITLE, t.EXTRA, height=1.1)
    box = ft.Container(told, padding=ft.Padding.symmetric(horizontal=t.MARGIN, vertical=28), width=width,
                       border=ft.Border.symmetric(vertical=ft.BorderSide(t.RULE_THICK, c.p.ink)), bgcolor=c.p.sheet)
    return ft.Semantics(content=box, live_region=True)


def phase_of(step: Step) -> Phase:
    """How the panel is printed."""
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


# ------------------------------------------------------------------ what comes next

def coming(c: Card, live: Live, width: float) -> list[ft.Control]:
    """The next exercise in a line, and the strip with its marker."""
    playing, state = live.now, live.now.state
    after = next_after(state)
    resting = not state.step.is_effort
    line = says.next_line(name_of(live, after), after, resting=resting) if after else says.LAST_ONE
    plan = playing.plan if state.steps is playing.plan.steps else replace(playing.plan, steps=state.steps)
    return [c.text(line, t.T_LEAD, t.SEMI, height=1.15), now_strip(c, plan, state.at_ms, width, lane=LANE)]


def next_after(state: PlayerState) -> Step | None:
    """The work after what is shown: in a rest, the one after the next."""
    ahead = [s for s in state.steps[state.index + 1:] if s.is_effort and s.length_ms]
    skip = 0 if state.step.is_effort else 1
    return ahead[skip] if len(ahead) > skip else None


# ------------------------------------------------------------------ buttons

def buttons(c: Card, live: Live) -> list[ft.Control]:
    """The main act, and back, skip and "that hurts" under it; in large print only what must never be looked for."""
    if c.scale > t.LARGE_PRINT:
        return [_main(c, live), _hurts(c, live)]
    row: list[ft.Control] = [*_back_and_skip(c, live, 2), _hurts(c, live, expand=4)]
    return [_main(c, live), ft.Row(row, spacing=t.GAP_S)]


def one_row(c: Card, live: Live) -> ft.Control:
    """All of them beside one another, where the page is low."""
    row: list[ft.Control] = [_main(c, live, size=t.T_LEAD, height=t.TARGET_PLAYER, icon=None, expand=3),
                             *_back_and_skip(c, live, 2), _hurts(c, live, size=t.T_BODY, expand=4)]
    return ft.Row(row, spacing=t.GAP_S)


def _main(c: Card, live: Live, **more: object) -> ft.Control:
    state = live.now.state
    if state.status is Status.WAITING:
        words, icon = (says.I_AM_UP if state.step.to_floor is False else says.I_AM_DOWN), ft.Icons.CHECK_SHARP
        sized: dict[str, object] = {"icon": icon, "height": t.TARGET_PAUSE}
        return c.main_button(words, live.press(live.ready), **(sized | more))  # type: ignore[arg-type]
    running = state.status is Status.RUNNING
    words, icon = (says.PAUSE, ft.Icons.PAUSE_SHARP) if running else (says.GO_ON, ft.Icons.PLAY_ARROW_SHARP)
    sized = {"icon": icon, "height": t.TARGET_PAUSE}
    return c.main_button(words, live.press(live.toggle), **(sized | more))  # type: ignore[arg-type]


def _back_and_skip(c: Card, live: Live, expand: int) -> list[ft.Control]:
    return [
        c.button(says.BACK, live.press(live.do, events.WentBack()), height=t.TARGET_PLAYER, expand=expand),
        c.button(says.SKIP, live.press(live.do, events.Skipped()), height=t.TARGET_PLAYER, expand=expand),
    ]


def _hurts(c: Card, live: Live, **more: object) -> ft.Control:
    sized: dict[str, object] = {"height": t.TARGET_PLAYER, "size": t.T_HEAD} | more
    return c.harm_button(says.HURTS, live.press(live.stand_still), **sized)  # type: ignore[arg-type]


def less_used(c: Card, live: Live) -> list[ft.Control]:
    """What may be looked for: ending early, the keys, and in large print back and skip."""
    row = [ft.Row(_back_and_skip(c, live, 1), spacing=t.GAP_S)] if c.scale > t.LARGE_PRINT else []
    amiss = [c.harm_button(says.NOT_THEMSELVES, live.press(live.open, Panel.AMISS), height=t.TARGET)] \
        if live.now.led else []
    keys = [c.caption(says.KEYS)] if c.width >= TWO_COLUMNS_FROM and c.height >= t.LOW else []
    fault = [c.notice(live.fault, says.NO_STORE_NEXT)] if live.fault else []
    return [*fault, *row, *amiss, c.link(says.END, live.press(live.open, Panel.ENDING)), *keys]
