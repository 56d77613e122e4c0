"""What stands over and after a session: the stop signs, why it ends, where to go on, and that another page leads it."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

import flet as ft

from app.domain.model.record import Ending
from app.ui.client.player.live_session import Live, Panel
from app.ui.client.player.player_buttons import under_signs
from app.ui.helper.stop_questions import amiss_rows, call_lines
from app.ui.parts import Card
from app.ui.shell.shell import Shell
from app.words import signs as sign_words
from app.words.client import pauses
from app.words.client import player as says
from app.words.client.today import said


def asking_page(shell: Shell, live: Live) -> ft.Control:
    """Where it stood, why, and whether to go on."""
    c = shell.card()
    body = [c.title(says.CAME_BACK), c.lead(says.asking(live.now.name, live.minute)),
            c.body(pauses.unseen_words(live.now.state.unseen)), c.body(pauses.NOT_COUNTED),
            c.body(said(says.ASKING_OK, live.now.person.asked))]
    if live.now.led:
        body.insert(0, c.soft(says.whose(live.now.person.name)))
    foot = [c.main_button(says.go_on_from(live.minute), live.press(live.go_on), ft.Icons.PLAY_ARROW_SHARP),
            c.button(says.END_HERE, live.press(live.open, Panel.ENDING))]
    return under_signs(c, live, c.page(body, foot))


def elsewhere_page(shell: Shell, live: Live) -> ft.Control:
    """Another page leads it: one may take over, or leave it there."""
    c = shell.card()
    body = [c.soft(says.whose(live.now.person.name)), c.title(pauses.ELSEWHERE), c.lead(f"“{live.now.name}”"),
            c.body(pauses.ELSEWHERE_WHY), c.soft(pauses.TAKE_OVER_NOTE)]
    return c.page(body, [c.main_button(pauses.TAKE_OVER, live.press(live.take_over)),
                         c.button(pauses.LEAVE_IT, live.press(shell.go, "/today"))])


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
    page = c.page([c.title(says.END_WHY), c.body(says.END_KEPT), c.box(c.rows(reasons, 4)), harm],
                  [c.button(says.BACK_TO_SESSION, live.press(live.open, Panel.NONE))])
    return under_signs(c, live, page)


def signs_page(shell: Shell, live: Live) -> ft.Control:
    """Every stop sign, one tap each; the number to call stands above them."""
    c = shell.card()
    person = live.now.person
    return c.page(
        [c.title(says.STOP_SIGNS), *call_lines(c, person), c.body(says.SIGNS_LEAD),
         _signs(c, live, sign_words.CALL_NOW, sign_words.EMERGENCIES),
         _signs(c, live, sign_words.STOP_TODAY, sign_words.ASK_TODAY)],
        [c.button(says.NONE_FIT, live.press(live.open, Panel.NONE))],
    )


def _signs(c: Card, live: Live, head: str, signs: tuple[str, ...]) -> ft.Control:
    rows = [c.row(sign_words.sign_words(sign), "", live.press(live.end, Ending.SIGN, sign)) for sign in signs]
    return c.harm_box(c.stack([c.subhead(head, level=2), c.rows(rows, 2)]))


def amiss_page(shell: Shell, live: Live) -> ft.Control:
    """What somebody who leads may see in them."""
    def tell(sign: str) -> Callable[[Any], Any]:
        return live.press(live.end, Ending.SIGN if sign else Ending.INTERRUPTED, sign)

    c = shell.card()
    page = c.page(amiss_rows(c, live.now.person, tell),
                  [c.button(says.BACK_TO_SESSION, live.press(live.open, Panel.NONE))])
    return under_signs(c, live, page)
