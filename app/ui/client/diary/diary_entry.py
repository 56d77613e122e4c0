"""One entry of the diary: what was said or done, why it was eased, its correction, and taking it back."""
from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import flet as ft

from app.actions.people import current_person
from app.actions.training.diary import put_back, take_back
from app.domain.model.record import CheckIn, Clearance, How, Record, SessionDone
from app.storage import records
from app.ui.client.diary.check_in_correction import AnswersPage
from app.ui.client.diary.other_entries import other_entry
from app.ui.client.folded import Folded
from app.ui.client.nav import client_nav
from app.ui.parts import Card
from app.ui.parts.time_strip import review_strip
from app.ui.shell.shell import Shell, safe
from app.words.client import check_in as asked
from app.words.client import diary as says
from app.words.client import diary_weeks as words
from app.words.client.progression import MOVED_HEAD, move_text
from app.words.client.today import day_words, said
from app.words.reasons import reason_text
from app.words.signs import sign_words
from app.words.text import left_out_text, one_sided_text, substitution_text


@ft.component
def EntryPage(shell: Shell) -> ft.Control:
    """The entry, its answers being changed, or the undo after it was taken back."""
    nothing: Record | None = None
    gone, set_gone = ft.use_state(nothing)
    asking, ask = ft.use_state(False)
    editing, edit = ft.use_state(False)
    c, nav, person = shell.card(), client_nav(shell, "diary"), current_person(shell.store)
    back = c.button(says.ENTRY_BACK, safe(shell, lambda _: shell.go("/diary")))
    with shell.store.read() as db:
        found = records.record(db, person.id, shell.route_id()) if person else None
    if gone is not None:
        def undo(_: object) -> None:
            put_back(shell.store, gone)
            set_gone(None)
            ask(False)
        act = c.button(says.UNDO, safe(shell, undo))
        return c.page([c.notice(says.TAKEN_BACK, "", says.TAKEN_BACK_NEXT, [act]), back], nav=nav)
    if found is None or found.stamp.deleted:
        return c.page([c.notice(says.GONE), back], nav=nav)
    if editing and isinstance(found, CheckIn):
        return AnswersPage(shell, found, lambda: edit(False))

    def taken(_: object) -> None:
        take_back(shell.store, found)
        set_gone(found)

    def change(_: object) -> None:
        if isinstance(found, SessionDone):
            shell.go(f"/afterwards/{found.stamp.id}")
        else:
            edit(True)

    body = [*_told(c, shell, found, c.room(nav), person.asked if person else ""), c.hairline()]
    body += [c.button(says.CHANGE, safe(shell, change))] if isinstance(found, CheckIn | SessionDone) else []
    body += _taking_back(c, shell, taken, ask) if asking else [c.link(says.TAKE_BACK, safe(shell, lambda _: ask(True)))]
    return c.page([*body, back], nav=nav)


def _taking_back(c: Card, shell: Shell, taken: object, ask: object) -> list[ft.Control]:
    yes = c.button(says.TAKE_BACK, safe(shell, taken))  # type: ignore[arg-type]
    no = c.button(says.KEEP, safe(shell, lambda _: ask(False)))  # type: ignore[operator]
    return [c.notice(says.ASK_FIRST, acts=[yes, no])]


def _told(c: Card, shell: Shell, found: Record, width: float, asked: str) -> list[ft.Control]:
    day = c.soft(day_words(found.stamp.local))
    if isinstance(found, CheckIn):
        return [day, c.title(says.CHECK_IN), *_answers(c, found)]
    if isinstance(found, Clearance):
        return [day, c.title(says.YES_NOTED), c.lead(says.clearance_line(found, asked))]
    if not isinstance(found, SessionDone):
        return [day, *other_entry(c, found)]
    return [day, c.title(found.name), c.lead(says.session_line(found)), *_strip(c, found, width),
            *_eased(c, shell, found, asked), *_by_hand(c, found, asked), *_steps(c, found), *_note(c, found.note)]


def _note(c: Card, note: str) -> list[ft.Control]:
    return [c.head(says.NOTE_HEAD), c.body(note)] if note else []


def _answers(c: Card, told: CheckIn) -> list[ft.Control]:
    signs = ", ".join(sign_words(s) for s in told.signs) or (says.NOT_SAID if told.symptoms is None else says.NO_SIGNS)
    facts = [c.lead(signs), c.fact(says.JOINTS, says.levels(told.pain))]
    facts += [c.fact(says.MORNING, says.levels(told.morning_after))] if told.morning_after is not None else []
    facts.append(c.fact(says.MUSCLES, says.levels(told.soreness)))
    if told.flare_days is not None:
        facts.append(c.fact(asked.FLARE_TOLD, asked.FLARE_CHOICES.get(told.flare_days, str(told.flare_days))))
    for name, value in ((says.SLEPT, told.slept), (says.ENERGY, told.energy), (says.SETTLED, told.calm)):
        facts.append(c.fact(name, says.of_five(value)))
    return [c.rows(facts, 6), *_note(c, told.note)]


def _strip(c: Card, done: SessionDone, width: float) -> list[ft.Control]:
    if not done.plan.steps:
        return []
    return [review_strip(c, done.plan, done.done, width), c.caption(says.STRIP_KEY)]


def _eased(c: Card, shell: Shell, done: SessionDone, asked: str) -> list[ft.Control]:
    """What eased it in a sentence, the stand-ins, what was left out; each reason as it was said then, folded."""
    plan = done.plan
    eased, reasons = words.eased_sentence(plan.dose), plan.dose.reasons

    def said_then() -> list[ft.Control]:
        return [c.rows([c.body(reason_text(reason, asked)) for reason in reasons], 6)]

    rows: list[ft.Control] = []
    if eased:
        rows.append(c.strong(eased))
        rows += [Folded(shell, words.EVERY_REASON, words.reasons_line(len(reasons)), said_then)] if reasons else []
    rows += [c.reason(done.names.get(s.to, s.to), substitution_text(s, done.names)) for s in plan.substitutions]
    rows += [c.reason(done.names.get(o.exercise, o.exercise), left_out_text(o)) for o in plan.left_out]
    rows += [c.reason(done.names.get(o.exercise, o.exercise), one_sided_text(o)) for o in plan.one_sided]
    moved: list[ft.Control] = [
        c.reason(done.names.get(m.to or m.exercise, m.exercise), move_text(m, done.names)) for m in plan.moves]
    return [*([c.head(says.EASED_HEAD), c.stack(rows)] if rows else []),
            *([c.head(MOVED_HEAD), c.stack(moved)] if moved else [])]


def _by_hand(c: Card, done: SessionDone, asked: str) -> list[ft.Control]:
    lines: Sequence[ft.Control] = [c.body(says.by_hand(a, b, done.names)) for a, b in dict.fromkeys(done.by_hand)]
    return [c.head(said(says.CHANGED_BY_HAND, asked)), *lines] if lines else []


def _steps(c: Card, done: SessionDone) -> list[ft.Control]:
    if not done.done:
        return []
    hows: dict[str, Counter[How]] = {}
    for one in done.done:
        hows.setdefault(one.exercise, Counter())[one.how] += 1
    lines = [c.fact(done.names.get(name, name), says.hows_line(found)) for name, found in hows.items()]
    return [c.head(says.DONE_HEAD), c.rows(lines, 6)]
