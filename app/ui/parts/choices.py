"""Answers: one of many, several of many, yes or no, and numbers in squares."""
from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from typing import Any

import flet as ft

from app.ui.parts import theme as t
from app.ui.parts.buttons import Buttons, bind, room
from app.words import parts as words_of

NARROW = 500
"""Below this width, px, a short scale stands under its name: beside it a square would be narrower than a finger."""
Choose = Callable[[Any], Any]
"""Called with the value chosen, plain or async."""


@dataclass(frozen=True)
class AnswerOption:
    """One answer. `name` is what a screen reader says, where `words` alone are not unique on the page."""

    value: Any
    words: str
    note: str = ""
    name: str = ""


def options(*pairs: tuple[Any, str]) -> tuple[AnswerOption, ...]:
    """Options from (value, words)."""
    return tuple(AnswerOption(value, words) for value, words in pairs)


class Choices(Buttons):
    """Answers. A chosen one has a tint, a thick edge and a tick, and carries `aria-current="true"`."""

    def one_of(self, among: Sequence[AnswerOption], chosen: Any, on_choose: Choose) -> ft.Control:
        """Boxes in a row that go on to the next line; one is chosen. Role button."""
        return self.side_by_side([
            self._chosen(self._cell(o, o.value == chosen, on_choose), o.value == chosen) for o in among
        ])

    def one_of_list(self, among: Sequence[AnswerOption], chosen: Any, on_choose: Choose) -> ft.Control:
        """Full-width rows with room for a note; one is chosen. Role button."""
        return self.stack([
            self._chosen(self._row(o, o.value == chosen, on_choose, _DOT), o.value == chosen) for o in among
        ])

    def several_of(self, among: Sequence[AnswerOption], chosen: Collection[Any], on_toggle: Choose) -> ft.Control:
        """Boxes in a row, each ticked or not. Role checkbox."""
        return self.side_by_side([
            self._ticked(self._cell(o, o.value in chosen, on_toggle), o.value in chosen) for o in among
        ])

    def several_of_list(self, among: Sequence[AnswerOption], chosen: Collection[Any], on_toggle: Choose) -> ft.Control:
        """Full-width rows, each ticked or not. Role checkbox."""
        return self.stack([
            self._ticked(self._row(o, o.value in chosen, on_toggle, _BOX), o.value in chosen) for o in among
        ])

    def pair(self, among: tuple[AnswerOption, AnswerOption], chosen: Any, on_choose: Choose) -> ft.Control:
        """Two halves of one row ("No" and "Yes"). Role button."""
        cells = [(o.value == chosen, self._cell(o, o.value == chosen, on_choose)) for o in among]
        halves: list[ft.Control] = [self._chosen(box, on, expand=True) for on, box in cells]
        return ft.Row(halves, spacing=t.GAP_S)

    def yes_no(self, about: str, chosen: bool | None, on_choose: Choose) -> ft.Control:
        """No and Yes about something; names are "about: No" and "about: Yes"."""
        no = AnswerOption(False, words_of.NO, name=words_of.answer(about, words_of.NO))
        yes = AnswerOption(True, words_of.YES, name=words_of.answer(about, words_of.YES))
        return self.pair((no, yes), chosen, on_choose)

    def scale_0_10(
        self, about: str, chosen: int | None, on_choose: Choose, ends: tuple[str, str, str] = ("", "", "")
    ) -> ft.Control:
        """0 to 10 in squares, two rows on a phone; `ends` says under 0, 5 and 10 what they mean.

        Names: "Right knee 6 of 10".
        """
        numbers = list(range(11))
        one_line = self.width >= 700 * self.scale
        lines = [numbers] if one_line else [numbers[:6], numbers[6:]]
        size = self._fitting(len(lines[0]))
        meant = dict(zip((0, 5, 10), ends, strict=True))
        pieces: list[ft.Control] = []
        for line in lines:
            pieces.append(self._squares(line, about, 10, chosen, on_choose, len(lines[0]), size))
            anchors = [words_of.scale_end(n, meant[n]) for n in line if meant.get(n)]
            pieces += [self._anchors(anchors, at_end=line[0] > 0)] if anchors else []
        return self.stack(pieces, 6)

    def _anchors(self, said: Sequence[str], *, at_end: bool) -> ft.Control:
        """What the ends of a row of squares mean, under them."""
        words: list[ft.Control] = []
        for n, one in enumerate(said):
            align = ft.TextAlign.RIGHT if n and n == len(said) - 1 else \
                ft.TextAlign.CENTER if n else ft.TextAlign.END if at_end else ft.TextAlign.LEFT
            words.append(self.text(one, t.T_BODY, t.SEMI, height=1.15, expand=True, text_align=align))
        return ft.Row(words, spacing=t.GAP_S, vertical_alignment=ft.CrossAxisAlignment.START)

    def scale_1_5(self, about: str, low: str, high: str, chosen: int | None, on_choose: Choose) -> ft.Control:
        """1 to 5 in squares beside or under their name. Names: "Slept 2 of 5"."""
        squares = self._squares(list(range(1, 6)), about, 5, chosen, on_choose, 5)
        said: list[ft.Control] = [self.text(about, t.T_BODY, t.EXTRA, height=1.15), self.text(
            words_of.from_to(low, high), t.T_BODY, colour=self.p.soft, height=1.15)]
        label = ft.Column(said, spacing=0, tight=True)
        if self.scale > t.LARGE_PRINT or self.width < NARROW:
            head = ft.Row(said, spacing=10, run_spacing=0, wrap=True)
            return self.stack([head, squares], 4)
        label.width = 118
        squares.expand = True
        return ft.Row([label, squares], spacing=t.GAP_S)

    def choice(
        self, words: str, name: str, chosen: bool, on_click: Callable[..., Any], **more: Any
    ) -> ft.Control:
        """One box that is chosen or not, on its own; `on_click` gets the Flet event."""
        face = self.text(words, t.T_BODY, t.EXTRA, height=1.15, semantics_label=name, text_align=ft.TextAlign.CENTER)
        return self._chosen(self.choosable(face, on_click, chosen, room(t.TARGET - 6, t.T_BODY * 1.15)), chosen, **more)

    def _fitting(self, columns: int) -> float:
        """The size at which two figures fit into a square, `columns` to a row, px."""
        wide = (min(self.width, t.MEASURE) - 2 * self.margin - 18 - 6 * (columns - 1)) / columns
        inside = wide - t.CHOSEN_EDGE - t.RULE - 2
        return min(t.T_HEAD, inside / (2 * t.LETTER * self.scale))

    def square(
        self, face: str, name: str, chosen: bool, on_click: Callable[..., Any], size: float = t.T_HEAD, **more: Any
    ) -> ft.Control:
        """One square of a scale."""
        word = self.text(face, size, t.EXTRA, height=1.0, semantics_label=name, no_wrap=True,
                         text_align=ft.TextAlign.CENTER)
        return self._chosen(self.choosable(word, on_click, chosen, room(54, t.T_HEAD, 0)), chosen, **more)

    def _squares(
        self, numbers: list[int], about: str, top: int, chosen: int | None, on_choose: Choose, columns: int,
        size: float = t.T_HEAD,
    ) -> ft.Row:
        cells: list[ft.Control] = [
            self.square(str(n), words_of.of(about, n, top), n == chosen, bind(on_choose, n), size, expand=True)
            for n in numbers
        ]
        cells += [ft.Container(expand=True) for _ in range(columns - len(numbers))]
        return ft.Row(cells, spacing=6)

    def _cell(self, option: AnswerOption, chosen: bool, on_choose: Choose) -> ft.Control:
        face = self.text(
            option.words, t.T_BODY, t.EXTRA, height=1.15, semantics_label=option.name or None,
            text_align=ft.TextAlign.CENTER,
        )
        return self.choosable(face, bind(on_choose, option.value), chosen, room(t.TARGET - 6, t.T_BODY * 1.15, 14))

    def _row(
        self, option: AnswerOption, chosen: bool, on_choose: Choose, marks: tuple[ft.IconData, ft.IconData]
    ) -> ft.Control:
        says: list[ft.Control] = [
            self.text(option.words, t.T_BODY, t.EXTRA, height=1.2, semantics_label=option.name or None)
        ]
        says += [self.text(option.note, t.T_BODY, height=1.2)] if option.note else []
        column = ft.Column(says, spacing=2, tight=True, expand=True)
        row = ft.Row([self.icon(marks[chosen]), column], spacing=12)
        padding = room(t.TARGET - 6, 28, 12)
        return self.choosable(row, bind(on_choose, option.value), chosen, padding, tick=False)

    def _chosen(self, box: ft.Control, chosen: bool, **more: Any) -> ft.Control:
        return ft.MergeSemantics(ft.Semantics(content=box, selected=chosen), **more)

    def _ticked(self, box: ft.Control, ticked: bool) -> ft.Control:
        return ft.MergeSemantics(ft.Semantics(content=box, checked=ticked))


_DOT = (ft.Icons.RADIO_BUTTON_UNCHECKED_SHARP, ft.Icons.CHECK_CIRCLE_SHARP)
_BOX = (ft.Icons.CHECK_BOX_OUTLINE_BLANK_SHARP, ft.Icons.CHECK_BOX_SHARP)
