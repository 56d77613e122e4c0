"""The card in lines: heads of blocks, and under each its exercises with amount and rest."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.domain.bench.sheet import SheetBlock, SheetLine
from app.domain.bench.sheet_edits import BOUNDS, MOST_REST_S, MOST_ROUNDS, Measure, amount_of
from app.domain.model.exercise import Exercise, Option
from app.domain.model.plan import Part
from app.domain.model.session import BlockKind
from app.ui.coach.bench.edited_session import EditedSession
from app.ui.coach.bench.number_field import NumberAsked, number_field
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach.bench import session as words

SLIM = 620
"""Below this width, px, a line takes two rows."""
PARTS = {BlockKind.WARM_UP: Part.WARM_UP, BlockKind.COOL_DOWN: Part.COOL_DOWN}


def session_card(shell: Shell, edited: EditedSession, width: float) -> ft.Control:
    """Every block with its lines."""
    c, names = shell.card(), edited.names()
    slim = width < SLIM or c.scale > t.LARGE_PRINT
    rows: list[ft.Control] = []
    for block in edited.sheet.blocks:
        rows.append(_head(shell, edited, block, slim=slim))
        rows += [_line(shell, edited, block, line, names[line.number], slim=slim) for line in block.lines]
        rows += [] if block.lines else [c.soft(words.EMPTY_BLOCK)]
    return c.stack(rows, 0)


def marks(c: Card, numbers: Sequence[tuple[int, bool]]) -> list[ft.Control]:
    """The numbers of checks in ink squares; under a double rule what could hurt somebody."""
    return [number_square(c, number, blocks=blocks) for number, blocks in numbers]


def number_square(c: Card, number: int, *, blocks: bool) -> ft.Control:
    """A check's number, the same on the card as in the margin."""
    face = c.text(str(number), t.T_TICK, t.EXTRA, c.p.ink if blocks else c.p.paper, 1.0,
                  text_align=ft.TextAlign.CENTER)
    inside = ft.Container(face, padding=ft.Padding(left=6, right=6, top=3, bottom=3),
                          bgcolor=None if blocks else c.p.ink, border=c.border(2) if blocks else None)
    return ft.Container(inside, border=c.border(2), padding=2) if blocks else inside


def _head(shell: Shell, edited: EditedSession, block: SheetBlock, *, slim: bool) -> ft.Control:
    c, name = shell.card(), words.KINDS[block.kind]

    def asked(key: str, least: int, most: int, unit: str = "") -> ft.Control:
        ask = NumberAsked(words.field_of(name, words.BLOCK_FIELDS[key]), getattr(block, key), least, most, unit)
        return number_field(shell, ask, edited.turn, lambda n: edited.type_block(block, key, n or 0),
                            lambda: edited.choose(block.number))
    here = [(one.number, one.found.blocks) for one in edited.checks if one.block == block.number]
    length = _length_ms(edited, block)
    lead = ft.Row([*marks(c, here), c.subhead(name), c.soft(words.clock_length(length))], spacing=10, wrap=True)
    fields: list[ft.Control] = []
    if block.kind not in PARTS:
        fields += [c.soft(words.ROUNDS), asked("rounds", 1, MOST_ROUNDS), c.soft(words.AFTER_EACH),
                   asked("round_rest_s", 0, MOST_REST_S, "s")]
    fields += [c.soft(words.REST), asked("rest_s", 0, MOST_REST_S, "s")]
    row: ft.Control = ft.Row([ft.Container(lead, expand=True), *fields], spacing=8)
    if slim:
        row = c.stack([lead, ft.Row(fields, spacing=8, run_spacing=6, wrap=True)], 6)
    return ft.Container(row, border=ft.Border(top=ft.BorderSide(t.RULE, c.p.ink)), key=f"head {block.number}",
                        padding=ft.Padding(left=0, right=0, top=8, bottom=8), margin=ft.Margin(0, 10, 0, 0))


def _length_ms(edited: EditedSession, block: SheetBlock) -> int:
    steps = edited.timeline.steps if edited.timeline else ()
    return sum(step.length_ms for step in steps if step.part is PARTS.get(block.kind, Part.MAIN))


def _line(
    shell: Shell, edited: EditedSession, block: SheetBlock, line: SheetLine, name: str, *, slim: bool
) -> ft.Control:
    c, number, exercise = shell.card(), line.number, edited.library[line.item.exercise]
    is_open, is_chosen = edited.opened == number, edited.chosen == number
    here = [(one.number, one.found.blocks) for one in edited.checks if number in one.lines]
    face: list[ft.Control] = [c.text(name, t.T_BODY, t.SEMI, height=1.15, semantics_label=words.opened(name),
                                     expand=True)]
    side = words.SIDES[exercise.sides]
    face += [c.text(side, t.T_CAPTION, colour=c.p.soft)] if side and not slim else []
    press = c.press(ft.Row(face, spacing=8), safe(shell, bind(edited.open, number)), "", None,
                    ft.Padding(left=4, right=4, top=12, bottom=12), expand=True)
    fields = _fields(shell, edited, block, line, name)
    lead: list[ft.Control] = [*marks(c, here), press]
    row: ft.Control = ft.Row([*lead, *fields], spacing=8)
    if slim:
        row = c.stack([ft.Row(lead, spacing=6), ft.Row(fields, spacing=8, wrap=True, run_spacing=6)], 2)
    # always two pieces: where a row's number of pieces changes, it is made anew and the caret is lost
    pieces = [row, ft.Container(_details(shell, edited, line, name) if is_open else None)]
    edge = ft.Border(left=ft.BorderSide(t.RULE, c.p.ink if is_chosen else c.p.paper),
                     top=ft.BorderSide(t.HAIR, c.p.line))
    return ft.Container(c.stack(pieces, 2), border=edge, bgcolor=c.p.sheet if is_chosen else None,
                        padding=ft.Padding(left=6, right=4, top=3, bottom=3), key=f"line {number}")


def _fields(shell: Shell, edited: EditedSession, block: SheetBlock, line: SheetLine, name: str) -> list[ft.Control]:
    c, number = shell.card(), line.number
    measure, amount = amount_of(line.item)
    least, most, _ = BOUNDS[measure]
    much = NumberAsked(words.field_of(name, words.COUNTED[measure]), amount, least, most)
    rest = NumberAsked(words.field_of(name, words.REST), line.item.rest_s, 0, MOST_REST_S, "s", str(block.rest_s))
    unit: ft.Control = c.text(words.UNITS[measure], t.T_CAPTION, colour=c.p.soft)
    if measure is not Measure.HELD:
        other = words.COUNTED[Measure.TIMES if measure is Measure.SECONDS else Measure.SECONDS]
        word = c.text(words.UNITS[measure], t.T_CAPTION, t.SEMI,
                      semantics_label=words.act_on(words.count_in(other), name))
        unit = c.press(word, safe(shell, bind(edited.other_measure, number)), "", None,
                       ft.Padding(left=4, right=4, top=14, bottom=14))

    def chosen() -> None:
        edited.choose(number)
    return [number_field(shell, much, edited.turn, lambda n: edited.type_amount(number, n or 0), chosen), unit,
            c.text(words.REST, t.T_CAPTION, colour=c.p.soft),
            number_field(shell, rest, edited.turn, lambda n: edited.type_rest(number, n), chosen)]


def _details(shell: Shell, edited: EditedSession, line: SheetLine, name: str) -> ft.Control:
    """What can be done with an opened line."""
    c, number, exercise = shell.card(), line.number, edited.library[line.item.exercise]
    acts = [(words.UP, bind(edited.carry, number, -1)), (words.DOWN, bind(edited.carry, number, 1)),
            (words.SECOND, bind(edited.second, number)), (words.TAKE_OUT, bind(edited.take_out, number))]
    row = [c.small_button(word, safe(shell, act), name=words.act_on(word, name)) for word, act in acts]
    for worded, options in ((words.easier, exercise.easier), (words.harder, exercise.harder)):
        row += [c.small_button(worded(to.name), safe(shell, bind(edited.instead, number, to)))
                for to in _known(edited, options)[:1]]
    row.append(c.choice(words.MAY_GO, words.act_on(words.MAY_GO, name), line.item.accessory,
                        safe(shell, bind(edited.may_go, number))))
    return ft.Container(ft.Row(row, wrap=True, spacing=6, run_spacing=6),
                        padding=ft.Padding(left=8, right=4, top=4, bottom=10))


def _known(edited: EditedSession, options: Sequence[Option]) -> list[Exercise]:
    return [edited.library[one.to] for one in options if one.to in edited.library]
