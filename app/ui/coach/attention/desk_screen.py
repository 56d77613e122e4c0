"""The desk: who needs the coach, harm first, then progress, then silence, and returns coming in."""
from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

import flet as ft

from app.actions.desk import attention_list, publishing
from app.actions.desk.attention_list import Attention, Case, Marked
from app.actions.desk.key_locks import is_shut
from app.domain.measures.attention_summary import Flag
from app.domain.model.record import Record
from app.storage.attention_marks import MarkState
from app.ui.coach.attention.cases import Act, Done, case_row
from app.ui.coach.attention.intake_panel import IntakePanel
from app.ui.coach.coach_layout import coach_page
from app.ui.coach.key_lock_part import KeyLockPart
from app.ui.parts import Card, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach import desk as words
from app.words.coach import publish

PAGE = 25
HARM, PROGRESS, SILENCE = "harm", "progress", "silence"
HEADS = {HARM: words.HARM, PROGRESS: words.PROGRESS, SILENCE: words.SILENCE}
NOBODY = {HARM: words.NO_HARM, PROGRESS: words.NO_PROGRESS, SILENCE: words.NO_SILENCE}


@dataclass(frozen=True)
class _Part:
    """One part of the list as it is drawn."""

    key: str
    cases: tuple[Case, ...]
    shown: int


@ft.component
def DeskScreen(shell: Shell) -> ft.Control:
    """Three boxes that never mix; what was dealt with stays in its place until one leaves the page, with Undo."""
    c = shell.card()
    turn, set_turn = ft.use_state(0)
    done, set_done = ft.use_state(dict[tuple[str, str], Done]())
    shown, set_shown = ft.use_state(dict.fromkeys(NOBODY, PAGE))
    seen: Attention = ft.use_memo(lambda: attention_list.attention_list(shell.store, shell.clock), [turn])
    parts = tuple(_Part(key, attention_list.cases(flags), shown[key])
                  for key, flags in ((HARM, seen.harm), (PROGRESS, seen.progress), (SILENCE, seen.silence)))
    evidence: Mapping[str, Record] = ft.use_memo(
        lambda: attention_list.evidence(
            shell.store, [f for p in parts for case in p.cases[:p.shown] for f in case.flags]),
        [turn, shown])

    def reload() -> None:
        set_done({})
        set_turn(turn + 1)

    def act(part: str, case: Case, state: MarkState) -> None:
        attention_list.mark(shell.store, shell.clock, case.flags, state)
        until = attention_list.later_day(shell.clock) if state is MarkState.LATER else None
        set_done({**done, (part, case.person): Done(state, until)})

    def undo(part: str, case: Case) -> None:
        attention_list.undo(shell.store, case.flags)
        set_done({at: how for at, how in done.items() if at != (part, case.person)})

    twice = Counter(case.person for p in parts for case in p.cases)

    def drawn(part: _Part) -> ft.Control:
        rows = []
        for case in part.cases[:part.shown]:
            acts = Act(safe(shell, bind(act, part.key, case, MarkState.SEEN)),
                       safe(shell, bind(act, part.key, case, MarkState.CALLED)),
                       safe(shell, bind(act, part.key, case, MarkState.LATER)),
                       safe(shell, bind(undo, part.key, case)), safe(shell, bind(shell.go, f"/person/{case.person}")))
            rows.append(case_row(c, case, seen.lines.get(case.person), evidence, acts,
                                 done.get((part.key, case.person)),
                                 HEADS[part.key] if twice[case.person] > 1 else ""))
        if len(part.cases) > part.shown:
            more = {**shown, part.key: part.shown + PAGE}
            rows.append(c.small_button(words.SHOW_MORE, bind(set_shown, more)))
        if not rows:
            rows.append(c.soft(NOBODY[part.key]))
        if part.key == HARM and seen.withheld:
            rows.append(c.soft(words.withheld(seen.withheld)))
        inside = c.rows(rows, t.GAP)
        return c.harm_box(inside) if part.key == HARM and part.cases else c.box(inside)

    def left(part: _Part) -> int:
        return sum((part.key, case.person) not in done for case in part.cases)

    harm, progress, silence = parts
    today = shell.clock.local(shell.clock.now()).day
    people_left = {case.person for p in parts for case in p.cases if (p.key, case.person) not in done}
    body: list[ft.Control] = [c.title(words.DESK_TITLE)]
    if seen.people:
        body.append(c.lead(words.of_people(today, len(people_left), seen.people)))
    body.append(KeyLockPart(shell, reload) if is_shut(shell.store) else IntakePanel(shell, reload))
    if not seen.people:
        body.append(_first(shell, c))
        return coach_page(shell, "desk", body)
    body += [
        c.head(words.part_head(words.HARM, left(harm)), icon=ft.Icons.FRONT_HAND_SHARP), drawn(harm),
        c.head(words.part_head(words.PROGRESS, left(progress)), icon=ft.Icons.TRENDING_FLAT_SHARP), drawn(progress),
        c.head(words.part_head(words.SILENCE, left(silence)), icon=ft.Icons.HOURGLASS_EMPTY_SHARP), drawn(silence),
    ]
    if seen.dealt_with:
        body += _dealt_with(shell, c, seen.dealt_with, reload)
    body.append(c.note(words.DISCLAIMER))
    return coach_page(shell, "desk", body)


def _first(shell: Shell, c: Card) -> ft.Control:
    steps = c.stack([c.body(step) for step in words.FIRST_STEPS])
    to_publish = c.button(words.TO_PUBLISH, safe(shell, bind(shell.go, "/publish")))
    name = publish.MATCHING_HEAD if publishing.coach_keys(shell.store) else ""
    aside = [c.soft(f"{name}: {' '.join(publishing.matching_words(shell.store))}")] if name else []
    return c.box(c.stack([c.subhead(words.FIRST_HEAD, level=2), steps, *aside, c.side_by_side([to_publish])], t.GAP))


def _dealt_with(shell: Shell, c: Card, marked: tuple[Marked, ...], reload: object) -> list[ft.Control]:
    def undo(flags: list[Flag]) -> None:
        attention_list.undo(shell.store, flags)
        reload()  # type: ignore[operator]

    together: dict[tuple[str, bool, MarkState, date, date | None], list[Flag]] = {}
    for one in marked:
        at = (one.flag.person, one.flag.is_harm, one.mark.state, shell.clock.local(one.mark.utc).day, one.mark.until)
        together.setdefault(at, []).append(one.flag)
    rows = []
    for (_, _, state, day, until), flags in [*together.items()][:PAGE]:
        name = flags[0].name
        says = c.stack([c.strong(name), c.soft(words.dealt_line(flags, state.value, day, until))], 2)
        button = c.small_button(words.UNDO, safe(shell, bind(undo, flags)), name=words.act_on(words.UNDO, name))
        says.expand = True
        rows.append(ft.Row([says, button], spacing=t.GAP))
    return [c.head(words.part_head(words.DEALT_WITH, len(together))), c.rows(rows)]
