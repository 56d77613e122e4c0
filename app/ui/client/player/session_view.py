"""The session under way in one of three forms: the count, the move and its easier version, one cue, the buttons."""
from __future__ import annotations

from dataclasses import replace

import flet as ft

from app.ui.client.player.card_words import CardWords, card_words, said_of
from app.ui.client.player.count_band import STRETCH, count_band, sized
from app.ui.client.player.live_session import Live
from app.ui.client.player.move_pair import move_pair
from app.ui.client.player.player_buttons import PlayerButtons, lacking
from app.ui.client.player.room.lying import PHONE_GAP
from app.ui.client.player.room.measures import GAP, PageForm, Room, StripShown
from app.ui.client.player.room.page_room import room_of
from app.ui.client.player.room.pieces import is_large
from app.ui.client.player.room.standing import amiss_above
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.ui.parts.strip_rows import row_now, thread_now
from app.ui.shell.shell import Shell
from app.words.client import lead
from app.words.client import player as says

KEYS_FROM = 700
"""Width from which somebody may have a keyboard, px."""


def player_page(shell: Shell, live: Live) -> ft.Control:
    """The whole page. Nothing that is needed while moving is placed by scrolling."""
    now = card_words(live.now, live.fault)
    c = shell.card()
    room = room_of(c.width, c.height, c.scale, said_of(now, live.now, undo=live.eased is not None))
    return _View(c, live, now, room).drawn()


class _View:
    def __init__(self, c: Card, live: Live, now: CardWords, room: Room) -> None:
        self.c, self.live, self.now, self.room = c, live, now, room
        self.keys = PlayerButtons(c, live, room, now)

    def drawn(self) -> ft.Control:
        """In its form."""
        forms = {PageForm.STANDING: self.standing, PageForm.LYING: self.lying, PageForm.DESK: self.desk}
        return forms[self.room.form]()

    # -------------------------------------------------------------- the forms

    def standing(self) -> ft.Control:
        """One column."""
        room = self.room
        band = count_band(self.c, self.live, room, self.now, self.c.width)
        card = [self._padded([self._name(), move_pair(self.c, self.live, room, self.now)])]
        flow, end = self._padded(self._flow()), self._end(room.words)
        foot = ft.Container(self.c.stack(self.keys.below(), GAP),
                            padding=ft.Padding(left=room.margin, right=room.margin, top=8, bottom=10))
        below = ft.Column([self.c.hairline(), foot], spacing=0, tight=True)
        if room.loose:
            middle = [self._scrolling([band, *card, flow])]
        elif self.now.opened and room.scrolls:  # standing still, and what scrolls needs more than a line or two
            middle = [band, self._scrolling([*card, flow])]
        else:
            middle = [band, *card, self._flowing([flow])]
        return ft.Column([self._top(), *middle, *([self._padded(end)] if end else []), below], spacing=0, expand=True,
                         horizontal_alignment=STRETCH)

    def lying(self) -> ft.Control:
        """A phone that lies: words, figures, buttons."""
        room = self.room
        band = count_band(self.c, self.live, room, self.now, room.words)
        left = self._words_column([*self._whose(), band, self._name()], self._flow(), [])
        middle = self._pair_column(self._end(room.pair))
        right = ft.Column(self.keys.at_the_right(), spacing=PHONE_GAP, width=room.right, horizontal_alignment=STRETCH)
        row = ft.Row([left, middle, right], spacing=room.margin, expand=True, vertical_alignment=STRETCH)
        return ft.Container(row, padding=room.margin, expand=True)

    def desk(self) -> ft.Control:
        """Words at the left, figures and the strip at the right."""
        room = self.room
        band = count_band(self.c, self.live, room, self.now, room.words)
        after: list[ft.Control] = [sized(self.c, self.now.after, room.button, t.SEMI)] if room.next else []
        left = self._words_column([*self._whose(), band, self._name()], self._flow(), after)
        right = self._pair_column(self._strip(room.pair))
        row = ft.Row([left, right], spacing=room.margin, expand=True, vertical_alignment=STRETCH)
        foot = ft.Container(self.c.stack(self.keys.on_a_desk(), GAP),
                            padding=ft.Padding(left=room.margin, right=room.margin, top=8, bottom=10))
        return ft.Column([ft.Container(row, padding=room.margin, expand=True), self.c.hairline(), foot], spacing=0,
                         expand=True, horizontal_alignment=STRETCH)

    # -------------------------------------------------------------- columns

    def _words_column(self, held: list[ft.Control], flow: list[ft.Control], end: list[ft.Control]) -> ft.Control:
        if self.room.loose:
            return ft.Container(self._scrolling([*held, *flow, *end]), width=self.room.words)
        return ft.Column([*held, self._flowing(flow), *end], spacing=GAP, width=self.room.words,
                         horizontal_alignment=STRETCH)

    def _pair_column(self, end: list[ft.Control]) -> ft.Control:
        pair = move_pair(self.c, self.live, self.room, self.now)
        if self.room.loose:
            return ft.Container(self._scrolling([pair]), width=self.room.pair)
        return ft.Column([pair, ft.Container(expand=True), *end], spacing=0, width=self.room.pair)

    def _scrolling(self, pieces: list[ft.Control]) -> ft.Control:
        return ft.Column(pieces, spacing=GAP, expand=True, scroll=ft.ScrollMode.AUTO, horizontal_alignment=STRETCH)

    def _flowing(self, pieces: list[ft.Control]) -> ft.Control:
        """The cue, and what scrolls with it where it has to."""
        padding = ft.Padding.symmetric(vertical=GAP if self.room.form is PageForm.STANDING else 0)
        inner = ft.Container(ft.Column(pieces, spacing=GAP, tight=True, horizontal_alignment=STRETCH), padding=padding)
        scroll = ft.ScrollMode.AUTO if self.room.scrolls or self.now.opened else None
        return ft.Column([inner], expand=True, spacing=0, scroll=scroll, horizontal_alignment=STRETCH)

    def _padded(self, pieces: list[ft.Control]) -> ft.Control:
        column = ft.Column(pieces, spacing=GAP, tight=True, horizontal_alignment=STRETCH)
        return ft.Container(column, padding=ft.Padding.symmetric(horizontal=self.room.margin))

    # -------------------------------------------------------------- pieces

    def _top(self) -> ft.Control:
        """Whose session it is, the large view, the stop signs, and the leader's own stop."""
        large = is_large(self.c.scale)
        signs = self.keys.signs()
        signs.expand = True
        rows = [*self._whose(), ft.Row([*([] if large else [self.keys.bigger()]), signs], spacing=GAP),
                *(self.keys.amiss() if amiss_above(self.c.width, self.c.scale) else [])]
        return ft.Container(self.c.stack(rows, 6),
                            padding=ft.Padding.symmetric(horizontal=self.room.margin, vertical=4))

    def _whose(self) -> list[ft.Control]:
        playing = self.live.now
        if not playing.led:
            return []
        return [sized(self.c, says.whose(playing.person.name), self.room.button, t.EXTRA, height=1.15, max_lines=1,
                      overflow=ft.TextOverflow.ELLIPSIS)]

    def _name(self) -> ft.Control:
        heading = ft.Semantics(content=sized(self.c, self.now.name, self.room.name.size, t.EXTRA, height=1.1),
                               heading_level=1)
        top = 6 if self.room.form is PageForm.STANDING else 0
        return ft.Container(heading, padding=ft.Padding(left=0, right=0, top=top, bottom=0))

    def _flow(self) -> list[ft.Control]:
        """One cue; standing still all of them, and what is of second rank."""
        c, now, room, body = self.c, self.now, self.room, t.T_BODY * self.c.scale
        large = is_large(c.scale)
        cues = now.cues if now.opened else now.cues[now.cue:now.cue + 1]
        pieces: list[ft.Control] = [self._cue(one) for one in cues]
        pieces += self.keys.taps() if self.keys.flow else []
        below = room.form is PageForm.STANDING and not amiss_above(c.width, c.scale)
        pieces += self.keys.amiss() if below else []
        pieces += [sized(c, now.amount, body, t.EXTRA)] if now.amount and not room.amount else []
        if now.easier is not None and room.easier is None:
            pieces.append(sized(c, says.easier_option(now.easier.name), body, t.SEMI))
        if large and not now.opened and room.strip is StripShown.NONE:
            pieces.append(sized(c, now.after, body, t.SEMI))
        return [*pieces, *(self._second_rank() if now.opened else [])]

    def _second_rank(self) -> list[ft.Control]:
        c, live = self.c, self.live
        spoken = lead.OUT_LOUD if live.device.speech.on else lead.OUT_LOUD_OFF
        said = [*([spoken] if live.now.led else []), lacking(live),
                says.KEYS if c.width >= KEYS_FROM and c.height >= t.LOW else ""]
        told = [c.text(one, t.T_CAPTION, t.SEMI, c.p.soft) for one in said if one]
        return [*([self.keys.bigger()] if is_large(c.scale) else []), *told]

    def _cue(self, words: str) -> ft.Control:
        """Hung on a thick rule; what is to be minded in the heaviest letters."""
        weight = t.EXTRA if words.startswith((says.TAKE_CARE, lead.WATCH_FOR)) else t.SEMI
        box = self.c.aside(sized(self.c, words, self.room.cue.size, weight))
        box.padding = ft.Padding(left=10, right=0, top=0, bottom=0)
        return box

    def _end(self, width: float) -> list[ft.Control]:
        """What comes next, and the strip."""
        after = sized(self.c, self.now.after, self.room.button, t.SEMI)
        return [*([after] if self.room.next else []), *self._strip(width)]

    def _strip(self, width: float) -> list[ft.Control]:
        if self.room.strip is StripShown.NONE:
            return []
        playing, state = self.live.now, self.now.state
        plan = playing.plan if state.steps is playing.plan.steps else replace(playing.plan, steps=state.steps)
        draw = row_now if self.room.strip is StripShown.PART else thread_now
        return [ft.Container(draw(self.c, plan, state.at_ms, width),
                             padding=ft.Padding(left=0, right=0, top=0, bottom=GAP))]
