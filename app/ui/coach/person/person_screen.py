"""One person: what was planned and done, what was told, why each session was as it was, and a message back."""
from __future__ import annotations

import flet as ft

from app.ui.coach.coach_layout import BESIDE, coach_page, columns, has_columns, room
from app.ui.coach.person.about import about, check_ins, not_sent, notes
from app.ui.coach.person.charts import charts
from app.ui.coach.person.checks_panel import checks_and_events
from app.ui.coach.person.person_sheet import Sheet, person_sheet
from app.ui.coach.person.reply_panel import ReplyPanel
from app.ui.coach.person.sessions_panel import SessionsPanel
from app.ui.coach.person.statistics_panel import FiguresPanel
from app.ui.parts import bind
from app.ui.shell.shell import Shell, safe
from app.words.coach import desk, person
from app.words.rules import plain_rules

LEFT_SHARE = 0.56


@ft.component
def PersonScreen(shell: Shell) -> ft.Control:
    """Sessions at the left; stop and message, pain, effort, load and the rest at the right."""
    c = shell.card()
    person_id = shell.route_id()
    turn, set_turn = ft.use_state(0)
    sheet: Sheet | None = ft.use_memo(lambda: person_sheet(shell, person_id), [person_id, turn])
    if sheet is None:
        back = c.button(person.TO_PEOPLE, safe(shell, bind(shell.go, "/people")))
        nobody = c.empty(person.NOT_FOUND, "", [back])
        return coach_page(shell, "people", [c.title(desk.PEOPLE_TITLE), nobody])
    whole = room(shell)
    left_width = int((whole - BESIDE) * LEFT_SHARE) if has_columns(shell) else whole
    right_width = whole - BESIDE - left_width if has_columns(shell) else whole
    known = person.about_line(sheet.person, sheet.day.year)
    back_at = shell.clock.local(sheet.pinned.last_return).day if sheet.pinned and sheet.pinned.last_return else None
    last = sheet.sessions[0].stamp.local if sheet.sessions else None
    says = desk.last_heard(last, back_at)
    head: list[ft.Control] = [c.title(sheet.person.name), c.soft(". ".join(w for w in (known, says) if w))]
    reply = ReplyPanel(shell, sheet, bind(set_turn, turn + 1))
    rules = c.side_by_side([c.small_button(plain_rules.COACH_LINK, safe(shell, bind(shell.go, "/why")))])
    left = [SessionsPanel(shell, sheet, left_width), rules, check_ins(c, sheet), notes(c, sheet)]
    right = [*charts(c, sheet, right_width), *checks_and_events(c, sheet), FiguresPanel(shell, sheet), about(c, sheet),
             not_sent(c, sheet)]
    return coach_page(shell, "people", [*head, reply, columns(shell, left, right, left_width)])
