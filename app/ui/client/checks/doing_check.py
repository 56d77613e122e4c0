"""Doing a check: the instructions, a try that does not count, the clock, the result."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import flet as ft

from app.domain.checks import functional_checks as rules
from app.domain.checks.functional_checks import CHAIR_STANDS, ONE_LEGGED, WALKS
from app.domain.model.person import Person
from app.domain.model.record import FunctionalCheck
from app.storage import records
from app.ui.client.checks.check_under_way import Doing, Stage
from app.ui.client.profile.questions import both_ways
from app.ui.client.today.locked_card import goes
from app.ui.parts import Card, Look, options
from app.ui.parts import theme as t
from app.ui.parts.count_panel import Phase, count_panel
from app.ui.shell.shell import Shell, safe
from app.ui.shell.visit import while_kept
from app.words import signs as sign_words
from app.words.client import checks as words
from app.words.client import today

Press = Callable[..., Any]


@ft.component
def CheckPage(shell: Shell, person: Person, check: FunctionalCheck) -> ft.Control:
    """The stage that it is in. One that may not be done today leads back to the list."""
    _, turn = ft.use_state(0)

    def opened() -> Doing:
        return Doing(shell, person, check, lambda: turn(lambda n: n + 1), _last_seat(shell, person, check))

    may = ft.use_memo(lambda: not _withheld(shell, person, check), [check])

    held: ft.MutableRef[Doing] = ft.use_ref(opened)
    doing = held.current
    assert doing is not None
    run = while_kept(shell.tools.page, doing.run)
    ft.use_effect(safe(shell, run), dependencies=[], cleanup=safe(shell, doing.close))
    c = shell.card()
    if not may:
        return c.page([c.title(words.NAMES[check])], [c.button(words.TO_CHECKS, goes(shell, "/checks"))])
    page = STAGES[doing.stage](c, shell, doing)
    page.key = f"check-{doing.stage.value}"
    return page


def _withheld(shell: Shell, person: Person, check: FunctionalCheck) -> bool:
    with shell.store.read() as db:
        everything = records.all_records(db, person.id)
    return rules.withheld(check, person, everything, shell.clock.local(shell.clock.now()).day) is not None


def _last_seat(shell: Shell, person: Person, check: FunctionalCheck) -> int | None:
    with shell.store.read() as db:
        done = rules.checks_of(records.all_records(db, person.id), check)
    return done[-1].seat_cm if done else None


def _points(c: Card, lines: tuple[str, ...]) -> ft.Control:
    return c.rows([c.text(line, t.T_LEAD, height=1.25) for line in lines], 10)


def _read(c: Card, shell: Shell, doing: Doing) -> ft.Control:
    said = words.INSTRUCTIONS[doing.check]

    def onward(_: object) -> None:
        if doing.lacks or doing.seat_complaint:
            lacks = _company_lacks(doing) if doing.company is False else words.LACKS
            doing.complaint = lacks if doing.lacks else doing.seat_complaint
            doing.redraw()
        else:
            doing.go(Stage.TRY)

    body: list[ft.Control] = [c.title(words.NAMES[doing.check])]
    body += [c.soft(words.read_out(doing.person.name))] if doing.person.led_by else []
    body += [*_asked(c, shell, doing), c.head(words.NEEDS_HEAD), _points(c, said.needs), c.head(words.HOW_HEAD),
             _points(c, said.how), c.note(words.STOP_AT, ft.Icons.FRONT_HAND_SHARP)]
    complaint: list[ft.Control] = [c.notice(doing.complaint)] if doing.complaint else []
    foot = both_ways(c, today.BACK, goes(shell, "/checks"), today.NEXT, safe(shell, onward))
    return c.page(body, [*complaint, foot])


def _company_lacks(doing: Doing) -> str:
    return words.WALL_NEITHER if doing.check is FunctionalCheck.ONE_LEG_HELD else words.COMPANY_ALONE


def _asked(c: Card, shell: Shell, doing: Doing) -> list[ft.Control]:
    pieces: list[ft.Control] = []
    if doing.asks_company and not doing.person.led_by:
        wall = doing.check is FunctionalCheck.ONE_LEG_HELD
        pieces += [c.head(words.WALL_HEAD if wall else words.COMPANY_HEAD),
                   c.yes_no(words.WALL_SHORT if wall else words.COMPANY_SHORT, doing.company,
                            safe(shell, lambda v: doing.put(company=v)))]
        pieces += [c.notice(_company_lacks(doing))] if doing.company is False else []
    if doing.check in CHAIR_STANDS:
        pieces.append(_seat(c, shell, doing))
    if doing.check in ONE_LEGGED:
        sides: Mapping[str, str] = {side: words.LEGS[side] for side in rules.legs(doing.person.body)}
        pieces += [c.head(words.LEG_HEAD),
                   c.one_of(options(*sides.items()), doing.side, safe(shell, lambda v: doing.put(side=v)))]
    if doing.check in WALKS:
        pieces += [c.head(words.AID_HEAD),
                   c.yes_no(words.AID_SHORT, doing.aid, safe(shell, lambda v: doing.put(aid=v)))]
    return pieces


def _seat(c: Card, shell: Shell, doing: Doing) -> ft.Control:
    def write(event: Any) -> None:
        doing.seat = event.control.value or ""

    high = doing.check is FunctionalCheck.CHAIR_STAND_HIGH
    return c.stack([c.field(words.SEAT, doing.seat, safe(shell, write)),
                    c.soft(words.SEAT_HINT_HIGH if high else words.SEAT_HINT)], 6)


def _try(c: Card, shell: Shell, doing: Doing) -> ft.Control:
    body: list[ft.Control] = [
        c.title(words.TRY_HEAD), c.lead(words.INSTRUCTIONS[doing.check].practice),
        c.note(words.STOP_AT, ft.Icons.FRONT_HAND_SHARP), c.harm_button(words.AMISS, _press(shell, doing.amiss)),
    ]
    return c.page(body, [c.main_button(words.TRIED, _press(shell, lambda: doing.go(Stage.CLOCK))),
                         c.button(today.BACK, _press(shell, lambda: doing.go(Stage.READ)))])


def _press(shell: Shell, act: Callable[[], Any]) -> Press:
    return safe(shell, lambda _: act())


# ------------------------------------------------------------------ the clock

def _clock(c: Card, shell: Shell, doing: Doing) -> ft.Control:
    chair, running = doing.check in CHAIR_STANDS, doing.clock.is_running
    at = doing.at_ms if running else 0
    left_s = -(-(rules.LONGEST_MS[doing.check] - at) // 1000)
    lead = running and at < 0
    phase = Phase.WORK if running and not lead else Phase.SETUP
    word = words.WORKING if phase is Phase.WORK else words.READY
    figures = str(-(at // 1000)) if lead else str(left_s if chair else at // 1000)
    aside = words.counted_now(doing.clock.stands) if chair and running and not lead else ""
    panel = count_panel(c, phase, word, figures, c.room(), aside=aside, spoken=f"{word}. {words.NAMES[doing.check]}")
    body: list[ft.Control] = [c.soft(words.NAMES[doing.check]), panel]
    if chair and phase is Phase.WORK:
        body.append(c.button(words.COUNT_ONE, _press(shell, doing.count), height=t.TARGET_PAUSE, size=t.T_BIG))
    if running:
        body.append(c.harm_button(words.AMISS, _press(shell, doing.amiss)))
    else:
        body.append(c.note(words.STOP_AT, ft.Icons.FRONT_HAND_SHARP))
    if not running:
        foot = [c.main_button(words.GO, _press(shell, doing.start), ft.Icons.PLAY_ARROW_SHARP),
                c.button(words.LEAVE, goes(shell, "/checks"))]
    elif chair:
        foot = []
    else:
        foot = [c.main_button(words.STOP_NOW, _press(shell, doing.stop), ft.Icons.STOP_SHARP)]
    return c.page(body, foot)


# ------------------------------------------------------------------ the result

def _result(c: Card, shell: Shell, doing: Doing) -> ft.Control:
    chair = doing.check in CHAIR_STANDS

    def keep(_: object) -> None:
        if chair and doing.hands is None:
            doing.complaint = words.HANDS_MISSING
            doing.redraw()
        else:
            doing.keep()

    body: list[ft.Control] = [c.title(words.NAMES[doing.check])]
    body += _stands(c, shell, doing) if chair else [c.head(words.TIME_HEAD),
                                                    c.text(words.seconds(doing.clock.took_ms or 0), t.T_TITLE, t.EXTRA)]
    complaint: list[ft.Control] = [c.notice(doing.complaint)] if doing.complaint else []
    foot = [c.main_button(words.KEEP, safe(shell, keep)),
            c.button(words.AGAIN, _press(shell, lambda: doing.go(Stage.CLOCK))),
            c.link(words.DROP, goes(shell, "/checks"))]
    return c.page(body, [*complaint, *foot])


def _stands(c: Card, shell: Shell, doing: Doing) -> list[ft.Control]:
    def by(step: int) -> Press:
        return _press(shell, lambda: doing.put(stands=max(0, doing.stands + step)))

    figure = ft.Semantics(content=c.text(str(doing.stands), 72, t.EXTRA, height=1.0, text_align=ft.TextAlign.CENTER),
                          label=f"{words.COUNT_NAME}: {doing.stands}", live_region=True, expand=True,
                          exclude_semantics=True)
    row = ft.Row([
        c.button("–", by(-1), name=words.fewer(doing.stands), height=t.TARGET_PLAYER, size=t.T_BIG, width=92),
        figure,
        c.button("+", by(1), name=words.more(doing.stands), height=t.TARGET_PLAYER, size=t.T_BIG, width=92),
    ], spacing=8)
    return [c.head(words.COUNT_HEAD), row, c.head(words.HANDS_HEAD),
            c.yes_no(words.HANDS_SHORT, doing.hands, safe(shell, lambda v: doing.put(hands=v)))]


def _amiss(c: Card, shell: Shell, doing: Doing) -> ft.Control:
    number = doing.person.emergency_number
    signs = [sign_words.sign_words(sign) for sign in sign_words.EMERGENCIES[:4]]
    box = c.harm_box(c.stack([
        c.body(words.AMISS_CALL), *(c.strong(line) for line in signs),
        c.text(sign_words.what_to_do("", number)[0], t.T_HEAD, t.EXTRA, height=1.15),
    ], 8))
    body = [c.title(words.AMISS_HEAD), c.body(words.AMISS_WORDS), box,
            c.button(words.AMISS_CHECK_IN, goes(shell, "/check-in"))]
    return c.page(body, [c.button(words.TO_CHECKS, goes(shell, "/checks"), look=Look.SOLID)])


def _kept(c: Card, shell: Shell, doing: Doing) -> ft.Control:
    done = doing.kept
    assert done is not None
    with shell.store.read() as db:
        everything = rules.checks_of(records.all_records(db, done.stamp.person), doing.check)
    before = rules.previous(everything, done)
    body: list[ft.Control] = [c.title(words.KEPT), c.lead(words.result_line(done))]
    if before:
        found = rules.change(before, done, doing.person.body.conditions)
        body.append(c.body(words.change_words(found, before, done)))
    body.append(c.note(words.HONEST))
    return c.page(body, [c.button(words.TO_CHECKS, goes(shell, "/checks"), look=Look.SOLID)])


STAGES: dict[Stage, Callable[[Card, Shell, Doing], ft.Control]] = {
    Stage.READ: _read, Stage.TRY: _try, Stage.CLOCK: _clock, Stage.RESULT: _result, Stage.AMISS: _amiss,
    Stage.KEPT: _kept,
}
