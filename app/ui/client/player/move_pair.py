"""The move and its easier version side by side, both moving, at every moment."""
from __future__ import annotations

import flet as ft

from app.ui.client.player.card_words import CardWords
from app.ui.client.player.count_band import STRETCH, sized
from app.ui.client.player.exercise_figure import easier_figure, main_figure
from app.ui.client.player.live_session import Live
from app.ui.client.player.room.measures import GAP, Room
from app.ui.client.player.room.pieces import asked, is_large
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.words.client import player as says

UNDO_HIGH = 60


def move_pair(c: Card, live: Live, room: Room, now: CardWords) -> ft.Control:
    """The move at the left with its amount, the easier option at the right."""
    figure = main_figure(live, room.move, room.move)
    amount = [sized(c, now.amount, room.amount, t.EXTRA, height=1.1, text_align=ft.TextAlign.CENTER, no_wrap=True)]
    left = ft.Column([ft.Container(figure[0] if figure else None, width=room.move, height=room.move),
                      *(amount if room.amount else [])], spacing=2, tight=True, width=room.pair - room.easy - GAP,
                     horizontal_alignment=ft.CrossAxisAlignment.CENTER)
    right = ft.Column([_easier(c, live, room, now), *_undo(c, live, room)], spacing=4, tight=True, width=room.easy,
                      horizontal_alignment=STRETCH)
    return ft.Row([left, right], spacing=GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER,
                  alignment=ft.MainAxisAlignment.SPACE_BETWEEN)


def _easier(c: Card, live: Live, room: Room, now: CardWords) -> ft.Control:
    """An ink key, the figure and the name, all of it one button; or why there is none."""
    if now.easier is None:
        size = room.easier.size if room.easier else t.T_CAPTION * c.scale
        told = sized(c, says.NO_EASIER, size, t.SEMI, text_align=ft.TextAlign.CENTER)
        return ft.Container(told, border=c.border(t.HAIR, c.p.soft), padding=5, width=room.easy)
    mark = [] if is_large(c.scale) else [c.icon(ft.Icons.SOUTH_SHARP, c.p.paper, 22 / min(c.scale, 1.6))]
    high = room.key * 1.1 + 12
    word = sized(c, says.EASIER_KEY, room.key, t.EXTRA, c.p.paper, 1.1, no_wrap=True,
                 semantics_label=says.easier_option(now.easier.name))
    key = ft.Container(ft.Row([*mark, word], spacing=6, alignment=ft.MainAxisAlignment.CENTER), bgcolor=c.p.ink,
                       height=high)
    column = ft.Column([key, ft.Container(height=room.easy_figure), *_its_name(c, room, now)], spacing=0, tight=True,
                       horizontal_alignment=STRETCH)
    button = c.press(column, live.press(live.ease), c.p.sheet, c.border(), ft.Padding.all(0), width=room.easy)
    figure = easier_figure(live, now.easier, room.easy_figure)
    if figure is None:
        return button
    # the figure lies over the button, so that it keeps its own name and the button stays a button
    over = ft.Container(figure, left=(room.easy - room.easy_figure) / 2, top=high + 3, ignore_interactions=True)
    return ft.Stack([button, over], width=room.easy)


def _its_name(c: Card, room: Room, now: CardWords) -> list[ft.Control]:
    """Within the button, whose name says it already."""
    if room.easier is None or now.easier is None:
        return []
    words = sized(c, now.easier.name, room.easier.size, t.SEMI, text_align=ft.TextAlign.CENTER)
    padded = ft.Container(words, padding=ft.Padding(left=3, right=3, top=0, bottom=6))
    return [ft.Semantics(content=padded, exclude_semantics=True)]


def _undo(c: Card, live: Live, room: Room) -> list[ft.Control]:
    """The way back from the easier option just taken, until the step ends; and that it was taken, said aloud."""
    if live.eased is None:
        return []
    size = min(room.button, room.key)
    aloud = ft.Semantics(content=ft.Container(width=2, height=2), live_region=True, container=True,
                         label=c.said(says.eased(live.eased.now.name)))
    back = c.button(says.UNDO, live.press(live.undo_ease), name=says.undo_eased(live.eased.was.name),
                    size=size / c.scale, height=asked(UNDO_HIGH, size, c.scale))
    return [back, aloud]
