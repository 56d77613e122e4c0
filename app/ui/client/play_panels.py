"""What stands before, over and after a session: the look around, the stop signs, why it ends, where to go on."""
from __future__ import annotations

import flet as ft

from app import text_player as says
from app import text_signs
from app.domain.record import Ending, Person
from app.ui import theme as t
from app.ui.client.play_live import Live, Panel
from app.ui.parts import Card
from app.ui.shell import Shell


def before_page(shell: Shell, live: Live) -> ft.Control:
    """A look around, then Start."""
    c = shell.card()
    person, name, kit = _about(live)
    lines = [_point(c, line) for line in says.before_lines(person.body, kit)]
    body: list[ft.Control] = [c.title(says.BEFORE), c.lead(says.before_lead(name)), c.rows(lines, 12),
                              c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS))
                              if live.playing else c.link(says.NOT_NOW, live.press(shell.go, "/today"))]
    if person.led_by:
        body.insert(0, c.soft(says.whose(person.name)))
    return c.page(body, [c.main_button(says.START, live.press(live.start), ft.Icons.PLAY_ARROW_SHARP)])


def _point(c: Card, line: str) -> ft.Control:
    mark = ft.Container(c.icon(ft.Icons.SQUARE_SHARP, size=14), padding=ft.Padding(left=0, right=0, top=7, bottom=0))
    row: list[ft.Control] = [mark, c.text(line, t.T_LEAD, height=1.2, expand=True)]
    return ft.Row(row, spacing=12, vertical_alignment=ft.CrossAxisAlignment.START)


def _about(live: Live) -> tuple[Person, str, list[str]]:
    if live.playing is None:
        card = live.card
        assert card is not None
        return card.person, card.session.name if card.session else "", card.kit()
    playing = live.playing
    used = {s.exercise for s in playing.state.steps if s.is_effort and s.exercise}
    return playing.person, playing.name, sorted({k for i in used for k in playing.library[i].needs()})


def asking_page(shell: Shell, live: Live) -> ft.Control:
    """Where it stood, and whether to go on."""
    c = shell.card()
    body = [
        c.title(says.CAME_BACK), c.lead(says.asking(live.now.name, live.minute)), c.body(says.ASKING_WHY),
        c.body(says.ASKING_OK),
        c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS)),
    ]
    if live.now.led:
        body.insert(0, c.soft(says.whose(live.now.person.name)))
    foot = [c.main_button(says.go_on_from(live.minute), live.press(live.go_on), ft.Icons.PLAY_ARROW_SHARP),
            c.button(says.END_HERE, live.press(live.open, Panel.ENDING))]
    return c.page(body, foot)


def over_page(shell: Shell, live: Live) -> ft.Control:
    """Seen for a moment, or where the record could not be written at once."""
    c = shell.card()
    again = c.main_button(says.TO_QUESTIONS if live.kept else says.KEEP_IT, live.press(live.finish))
    return c.page([c.title(says.OVER), c.note(says.END_KEPT)], [again])


def ending_page(shell: Shell, live: Live) -> ft.Control:
    """Why it ends here."""
    c = shell.card()
    reasons = [c.row(words, note, live.press(live.end, ending)) for ending, words, note in says.END_REASONS]
    harm = c.side_by_side([
        c.harm_button(says.END_HURTS, live.press(live.stand_still), ft.Icons.PAN_TOOL_SHARP),
        c.harm_button(says.END_SIGN, live.press(live.open, Panel.SIGNS)),
    ])
    return c.page([c.title(says.END_WHY), c.body(says.END_KEPT), c.box(c.rows(reasons, 4)), harm],
                  [c.button(says.BACK_TO_SESSION, live.press(live.open, Panel.NONE))])


def signs_page(shell: Shell, live: Live) -> ft.Control:
    """Every stop sign, one tap each; the number to call stands above them."""
    c = shell.card()
    person = live.now.person
    return c.page(
        [c.title(says.STOP_SIGNS), *call_lines(c, person), c.body(says.SIGNS_LEAD),
         _signs(c, live, text_signs.CALL_NOW, text_signs.EMERGENCIES),
         _signs(c, live, text_signs.STOP_TODAY, text_signs.ASK_TODAY)],
        [c.button(says.NONE_FIT, live.press(live.open, Panel.NONE))],
    )


def call_lines(c: Card, person: Person) -> list[ft.Control]:
    """The number, big, and whom else to ring."""
    pieces: list[ft.Control] = [c.text(says.call(person.emergency_number), t.T_TITLE, t.EXTRA)]
    pieces += [c.lead(says.contact(person.emergency_contact))] if person.emergency_contact else []
    return pieces


def _signs(c: Card, live: Live, head: str, signs: tuple[str, ...]) -> ft.Control:
    rows = [c.row(text_signs.sign_words(sign), "", live.press(live.end, Ending.SIGN, sign)) for sign in signs]
    return c.harm_box(c.stack([c.subhead(head), c.rows(rows, 2)]))


def amiss_page(shell: Shell, live: Live) -> ft.Control:
    """What somebody who leads may see in them."""
    c = shell.card()
    rows = [
        c.row(words, note, live.press(live.end, Ending.SIGN if sign else Ending.INTERRUPTED, sign))
        for sign, words, note in says.AMISS
    ]
    return c.page(
        [c.soft(says.whose(live.now.person.name)), c.title(says.NOT_THEMSELVES), *call_lines(c, live.now.person),
         c.lead(says.AMISS_LEAD), c.harm_box(c.rows(rows, 4)),
         c.harm_button(says.STOP_SIGNS, live.press(live.open, Panel.SIGNS))],
        [c.button(says.BACK_TO_SESSION, live.press(live.open, Panel.NONE))],
    )
