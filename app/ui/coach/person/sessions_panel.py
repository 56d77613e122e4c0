"""A person's last sessions: planned over done on one scale, what was told, and why the amount was what it was."""
from __future__ import annotations

import flet as ft

from app.domain.model.plan import Timeline
from app.domain.model.record import SessionDone
from app.ui.coach.person.person_sheet import Sheet
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.parts.time_strip import review_strip
from app.ui.shell.shell import Shell, safe
from app.words import text
from app.words.client.progression import move_text
from app.words.coach import person

PAGE = 3


@ft.component
def SessionsPanel(shell: Shell, sheet: Sheet, width: float) -> ft.Control:
    """The latest first; the reasons of the latest are open."""
    c = shell.card()
    shown, set_shown = ft.use_state(PAGE)
    sessions = sheet.sessions[:shown]
    opened, set_opened = ft.use_state(frozenset(s.stamp.id for s in sessions[:1]))
    head = c.head(person.SESSIONS_HEAD)
    if not sessions:
        return c.stack([head, c.soft(_none(sheet))])
    span = max(s.plan.total_ms for s in sessions)

    def toggle(record_id: str) -> None:
        set_opened(opened ^ {record_id})

    pieces: list[ft.Control] = [head, c.caption(person.STRIP_LEGEND)]
    for done in sessions:
        pieces.append(_session(c, done, width, span))
        why = safe(shell, bind(toggle, done.stamp.id))
        name = f"{person.WHY}: {person.session_head(done)}"
        pieces.append(c.link(person.WHY, why, name))
        if done.stamp.id in opened:
            pieces.append(_why(c, done))
    if len(sheet.sessions) > shown:
        pieces.append(c.side_by_side([c.small_button(person.EARLIER, bind(set_shown, shown + PAGE))]))
    return c.stack(pieces, 10)


def _session(c: Card, done: SessionDone, width: float, span: int) -> ft.Control:
    lines = [person.pain_line(done), *(person.hurt_line(h, done.names) for h in done.hurts)]
    lines += [person.by_hand_line(change, done.names) for change in dict.fromkeys(done.by_hand)]
    lines.append(person.done_line(done))
    strip = [review_strip(c, done.plan, done.done, width, span_ms=span)] if done.plan.steps else []
    return c.stack([
        c.subhead(person.session_head(done), t.T_BODY), c.body(person.session_line(done)), *strip,
        *(c.soft(line) for line in lines),
    ], 4)


def _why(c: Card, done: SessionDone) -> ft.Control:
    plan: Timeline = done.plan
    rows: list[ft.Control] = [c.strong(person.dose_line(plan.dose))]
    for reason in plan.dose.reasons:
        rule, said = person.reason_line(reason)
        rows.append(c.stack([c.text(rule, weight=t.SEMI), c.soft(said)], 0))
    for swap in plan.substitutions:
        stands = done.names.get(swap.to, swap.to)
        rows.append(c.stack([c.text(f"{person.CHANGED_BY_PROGRAM}: “{stands}”", weight=t.SEMI),
                             c.soft(text.substitution_text(swap, done.names))], 0))
    for left in plan.left_out:
        rows.append(c.stack([c.text(f"“{done.names.get(left.exercise, left.exercise)}”", weight=t.SEMI),
                             c.soft(text.left_out_text(left))], 0))
    for one in plan.one_sided:
        rows.append(c.stack([c.text(f"“{done.names.get(one.exercise, one.exercise)}”", weight=t.SEMI),
                             c.soft(text.one_sided_text(one))], 0))
    for move in plan.moves:
        name = done.names.get(move.to or move.exercise, move.exercise)
        rows.append(c.stack([c.text(f"“{name}”", weight=t.SEMI), c.soft(move_text(move, done.names))], 0))
    if len(rows) == 1:
        rows.append(c.soft(person.AS_WRITTEN))
    return c.aside(c.stack(rows))


def _none(sheet: Sheet) -> str:
    return person.NO_SESSIONS if "sessions" in sheet.person.sends else person.SENDS["sessions"]
