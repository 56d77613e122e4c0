"""The band over the card: the word, the side, and the seconds. A tap anywhere on it pauses, or goes on."""
from __future__ import annotations

import flet as ft

from app.domain.player.player_state import Status
from app.ui.client.player.card_words import CardWords
from app.ui.client.player.live_session import Live
from app.ui.client.player.room.measures import NUMERAL_WIDE, PageForm, Room
from app.ui.client.player.step_words import phase_now, waiting_words
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.count_panel import edge, figures, inks
from app.words.client import player as says

STRETCH = ft.CrossAxisAlignment.STRETCH


def sized(c: Card, words: str, px: float, weight: ft.FontWeight, colour: str = "", height: float = 1.14, **more: object
          ) -> ft.Text:
    """Words at a size that was worked out with the text scale in it, px on the screen."""
    return c.text(words, px / c.scale, weight, colour, height, **more)


def count_band(c: Card, live: Live, room: Room, now: CardWords, width: float) -> ft.Control:
    """Solid for work, open between hatched rules for rest, between broken ones where it stands still."""
    phase = phase_now(live)
    ground, colour = inks(c.p, phase)
    asks = now.state.status is Status.WAITING
    if asks:
        inner = _asking(c, room, now, colour)
    elif room.form is PageForm.STANDING:
        inner = _beside(c, room, now, colour, ground)
    else:
        inner = _upright(c, room, now, colour, ground, width)
    body = ft.Column([edge(c.p, phase, width), inner, edge(c.p, phase, width)], spacing=0, tight=True,
                     horizontal_alignment=STRETCH)
    waiting = waiting_words(now.state.step)[0] if asks else ""
    aloud = ft.Semantics(content=ft.Container(width=2, height=2), live_region=True, container=True,
                         label=c.said(", ".join(filter(None, (now.spoken, waiting)))))
    shown = ft.Stack([ft.Container(body, bgcolor=ground, width=width), aloud])
    return ft.GestureDetector(shown, on_tap=live.press(live.toggle), exclude_from_semantics=True)


def _asking(c: Card, room: Room, now: CardWords, colour: str) -> ft.Control:
    """What is waited for, in the place of the seconds."""
    words = sized(c, waiting_words(now.state.step)[0], room.asks.size, t.SEMI, colour)
    column = ft.Column([_word(c, room, now, colour), words], spacing=4, tight=True)
    side = room.margin if room.form is PageForm.STANDING else 12
    return ft.Container(column, padding=ft.Padding.symmetric(horizontal=side, vertical=8))


def _beside(c: Card, room: Room, now: CardWords, colour: str, ground: str) -> ft.Control:
    head = ft.Column([_word(c, room, now, colour), *_tags(c, room, now, colour, ground)], spacing=6, tight=True,
                     expand=True)
    row = ft.Row([head, _seconds(room, now, colour)], spacing=8, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    return ft.Container(row, padding=ft.Padding.symmetric(horizontal=room.margin, vertical=2))


def _upright(c: Card, room: Room, now: CardWords, colour: str, ground: str, width: float) -> ft.Control:
    pieces = [_word(c, room, now, colour), *_tags(c, room, now, colour, ground)]
    head: ft.Control = ft.Column(pieces, spacing=6, tight=True)
    if room.beside:
        head = ft.Row(pieces, alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
                      vertical_alignment=ft.CrossAxisAlignment.CENTER)
    numerals = ft.Row([_seconds(room, now, colour)], alignment=ft.MainAxisAlignment.CENTER)
    padded = ft.Container(head, padding=ft.Padding.symmetric(horizontal=12), width=width)
    return ft.Column([padded, numerals], spacing=8, tight=True)


def _word(c: Card, room: Room, now: CardWords, colour: str) -> ft.Control:
    """WordsToFit aloud with the name, so it is silent here."""
    return ft.Semantics(content=sized(c, now.word.upper(), room.word.size, t.EXTRA, colour, 1.05),
                        exclude_semantics=True)


def _seconds(room: Room, now: CardWords, colour: str) -> ft.Control:
    count = says.count_words(now.state.left_ms)
    drawn = figures(count, max(2, len(count)) * NUMERAL_WIDE * room.count, room.count, colour)
    return ft.Semantics(content=drawn, exclude_semantics=True, label=says.count_left(count))


def _tags(c: Card, room: Room, now: CardWords, colour: str, ground: str) -> list[ft.Control]:
    """The side in reverse; without one, the repetition or the round."""
    if now.side:
        face = sized(c, now.side, room.tag, t.EXTRA, ground, 1.0, no_wrap=True)
        return [ft.Container(face, bgcolor=colour, padding=ft.Padding.symmetric(horizontal=11, vertical=7))]
    return [sized(c, now.aside, min(room.tag, t.T_LEAD * c.scale), t.SEMI, colour, 1.1)] if now.aside else []
