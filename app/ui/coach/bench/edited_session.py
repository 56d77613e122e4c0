"""One session at one window: what the page's buttons, fields and keys do, and when it is checked and kept."""
from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Callable, Hashable
from datetime import datetime
from typing import Any

import flet as ft

from app.actions.bench import drafting
from app.actions.bench.pen import Pen
from app.domain.bench import sheet_edits as edits
from app.domain.bench.session_checks import PlacedCheck, checked, timeline_of
from app.domain.bench.sheet import NOBODY, SessionSheet, SheetBlock
from app.domain.bench.sheet_edits import Measure
from app.domain.bench.written_line import WrittenLine, item_of
from app.domain.errors import AppError, DraftChanged
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Timeline
from app.domain.model.source import Source
from app.ui.shell.shell import Shell
from app.words.coach.bench import session as words
from app.words.errors import error_text

CHECK_AFTER_S, KEEP_AFTER_S = 0.25, 0.6
"""After the last key; and after the first thing that is not kept, however fast more follows."""


class EditedSession:
    """Lives as long as the page. `shell` is the newest one, `redraw` draws the page anew."""

    def __init__(self, shell: Shell, source: Source, pen: Pen) -> None:
        self.shell, self.source, self.pen = shell, source, pen
        self.library = source.library()
        self.redraw: Callable[[], None] = lambda: None
        self.chosen, self.opened = self._first_row(), NOBODY
        self.turn = 0
        """Grows whenever numbers change other than by being typed: fields then take theirs from the sheet."""
        self.kept: datetime | None = pen.draft.utc if pen.draft.revision else None
        self.trouble: AppError | None = None
        self._checking: Any = None
        self._keeping = False
        self._look()
        self.checks: tuple[PlacedCheck, ...] = checked(self.sheet, self.library, source.proofreading)

    def _first_row(self) -> int:
        """Where writing begins: an empty session at its first head, any other at its end."""
        blocks = self.pen.sheet.blocks
        return blocks[0].number if blocks and not any(self.pen.sheet.lines()) else NOBODY

    @property
    def sheet(self) -> SessionSheet:
        """As it stands."""
        return self.pen.sheet

    def exercise(self, number: int) -> Exercise | None:
        """What the line of that number does."""
        line = self.sheet.line(number)
        return self.library[line.item.exercise] if line else None

    def names(self) -> dict[int, str]:
        """The name of each line, told apart where an exercise stands on the card twice."""
        seen: dict[str, int] = {}
        named = {}
        for line in self.sheet.lines():
            seen[line.item.exercise] = seen.get(line.item.exercise, 0) + 1
            named[line.number] = words.line_name(self.library[line.item.exercise].name, seen[line.item.exercise])
        return named

    # -------------------------------------------------------------- acts

    def do(self, sheet: SessionSheet, said: str, field: Hashable = None) -> None:
        """One act. What was typed into a field stays there; every other field shows what is so now."""
        if self.pen.do(sheet, said, field):
            self.turn += field is None
            self._changed()

    def _changed(self) -> None:
        self._look()
        self.redraw()
        if self._checking is not None:
            self._checking.cancel()
        self._checking = self.shell.tools.page.run_task(self._check_later)
        if not self._keeping:
            self._keeping = True
            self.shell.run(self._keep_later)

    def _look(self) -> None:
        self.timeline: Timeline | None = timeline_of(self.sheet, self.library)

    async def _check_later(self) -> None:
        await asyncio.sleep(CHECK_AFTER_S)
        self.checks = checked(self.sheet, self.library, self.source.proofreading)
        self.redraw()

    async def _keep_later(self) -> None:
        await asyncio.sleep(KEEP_AFTER_S)
        self._keeping = False
        self.keep()
        self.redraw()

    def keep(self) -> None:
        """Keeps what is not kept; what hinders it is said on the page and nothing is lost there."""
        try:
            self.pen.keep()
        except AppError as trouble:
            self.trouble = trouble
            return
        self.trouble = None
        self.kept = self.pen.draft.utc if self.pen.draft.revision else None

    @property
    def trouble_text(self) -> str:
        """What hinders keeping, as a sentence."""
        if isinstance(self.trouble, DraftChanged):
            return words.CHANGED_ELSEWHERE
        return error_text(self.trouble) if self.trouble else ""

    def go_on_with_that(self) -> None:
        """Where it was changed elsewhere: shows that, and lets go of what was written here."""
        draft = self.pen.draft
        opened = drafting.open_session(self.shell.store, self.shell.clock, draft.source, draft.id)
        self.pen, self.trouble, self.chosen, self.opened = Pen(self.shell.store, self.shell.clock, opened), None, 0, 0
        self.turn += 1
        self._changed()

    def keep_mine(self) -> None:
        """The other way: what was written here becomes a session of its own, which is opened."""
        new = drafting.as_second(self.shell.store, self.shell.clock, self.pen.draft, words.second_name(self.sheet.name))
        self.pen.unkept = []
        self.shell.go(f"/session/{new}")

    def undo(self) -> None:
        """One back."""
        self._stepped(self.pen.undo(), words.undone, words.NOTHING_TO_UNDO)

    def redo(self) -> None:
        """One on."""
        self._stepped(self.pen.redo(), words.redone, words.NOTHING_TO_REDO)

    def _stepped(self, said: str, worded: Callable[[str], str], nothing: str) -> None:
        self.announce(worded(said) if said else nothing)
        if said:
            self.turn += 1
            self._changed()

    def announce(self, said: str) -> None:
        """Says it to a screen reader, without a word on the page."""
        async def speak() -> None:
            with contextlib.suppress(RuntimeError, TimeoutError):  # a machine without it stops nobody
                await ft.SemanticsService().announce_message(said)
        self.shell.run(speak)

    # -------------------------------------------------------------- lines

    def choose(self, number: int) -> None:
        """The caret is in that row; nothing opens."""
        if number != self.chosen:
            self.chosen = number
            self.redraw()

    def open(self, number: int) -> None:
        """Its name was pressed: opens it, or closes it again."""
        self.opened = NOBODY if number == self.opened else number
        self.chosen = number
        self.redraw()

    def type_amount(self, number: int, amount: int) -> None:
        """A number was typed into the amount of a line."""
        line, exercise = self.sheet.line(number), self.exercise(number)
        if line is not None and exercise is not None:
            measure, before = edits.amount_of(line.item)
            item = edits.with_amount(line.item, measure, amount)
            self.do(edits.put_item(self.sheet, number, item), words.amount_act(exercise.name, before, amount),
                    (number, "amount"))

    def type_rest(self, number: int, rest_s: int | None) -> None:
        """Seconds of rest after a line; None: those of its block."""
        exercise = self.exercise(number)
        if exercise is not None:
            self.do(edits.set_item(self.sheet, number, rest_s=rest_s), words.rest_act(exercise.name), (number, "rest"))

    def type_block(self, block: SheetBlock, key: str, value: int) -> None:
        """A number of a block: `rounds`, `rest_s` or `round_rest_s`."""
        self.do(edits.set_block(self.sheet, block.number, **{key: value}),
                words.block_act(block.kind, words.BLOCK_FIELDS[key]), (block.number, key))

    def rename(self, name: str) -> None:
        """Another name of the session; a blank one is not taken."""
        if name.strip():
            self.do(edits.renamed(self.sheet, name.strip()), words.RENAMED, "name")

    def other_measure(self, number: int) -> None:
        """Seconds as times, times as seconds."""
        line, exercise = self.sheet.line(number), self.exercise(number)
        if line is not None and exercise is not None:
            item = edits.other_measure(line.item, exercise)
            self.do(edits.put_item(self.sheet, number, item),
                    words.measure_act(exercise.name, edits.amount_of(item)[0]))

    def step(self, number: int, by: int) -> None:
        """Plus or minus on the amount of a line."""
        line = self.sheet.line(number)
        if line is not None:
            measure, amount = edits.amount_of(line.item)
            _, _, stride = edits.BOUNDS[Measure(measure)]
            self.turn += 1
            self.type_amount(number, amount + by * stride)

    def carry(self, number: int, by: int) -> None:
        """One place up or down, over a head into the next block."""
        exercise = self.exercise(number)
        if exercise is None:
            return
        self.do(edits.carried(self.sheet, number, by), words.moved_act(exercise.name, down=by > 0))
        block = self.sheet.block_of(number)
        if block is not None:
            place = [line.number for line in block.lines].index(number) + 1
            self.announce(words.placed(exercise.name, place, len(block.lines), block.kind))

    def second(self, number: int) -> None:
        """The same once more below it."""
        exercise = self.exercise(number)
        if exercise is not None:
            sheet, self.chosen = edits.second_below(self.sheet, number)
            self.do(sheet, words.second_act(exercise.name))

    def take_out(self, number: int) -> None:
        """Off the card."""
        exercise = self.exercise(number)
        if exercise is not None:
            self.do(edits.take_out(self.sheet, number), words.taken_out_act(exercise.name))

    def instead(self, number: int, exercise: Exercise) -> None:
        """Another exercise in that line."""
        line, before = self.sheet.line(number), self.exercise(number)
        if line is not None and before is not None:
            self.do(edits.put_item(self.sheet, number, edits.as_like(exercise, line.item)),
                    words.instead_act(exercise.name, before.name))

    def may_go(self, number: int) -> None:
        """Whether it may be left out when time is short."""
        line, exercise = self.sheet.line(number), self.exercise(number)
        if line is not None and exercise is not None:
            may = not line.item.accessory
            self.do(edits.set_item(self.sheet, number, accessory=may), words.may_go_act(exercise.name, may=may))

    def write(self, written: WrittenLine, exercise: Exercise) -> None:
        """A line of words, below the chosen row or at the very end."""
        before = self.sheet.line(self.chosen) or next(reversed(list(self.sheet.lines())), None)
        item = item_of(written, exercise, before.item if before else None)
        sheet, number = edits.add_after(self.sheet, self.chosen, item)
        self.chosen = number
        self.do(sheet, words.added_act(exercise.name))

    def fix(self, check: PlacedCheck) -> None:
        """Does what a check offers: one act, one Undo."""
        if check.fix is not None:
            self.do(check.fix.sheet, words.fix_words(check.fix, self.library))
