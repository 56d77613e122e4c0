"""The checks: what each is, whether it may be done today, and one's own results over time, without any bands."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.actions.people import current_person
from app.actions.training.checks import tell_sex
from app.domain.checks import functional_checks as rules
from app.domain.model.person import Person
from app.domain.model.record import CheckDone, FunctionalCheck, Record
from app.storage import records
from app.ui.client.checks.doing_check import CheckPage
from app.ui.client.nav import client_nav
from app.ui.client.today.locked_card import goes
from app.ui.parts import AnswerOption, Card
from app.ui.parts.chart import LineStroke, Series, line_chart
from app.ui.shell.shell import Shell, safe
from app.words.client import checks as words
from app.words.client import today as today_words
from app.words.client.today import day_words

SHOWN = 6
STEP = 10
"""The chart ends at a whole multiple of this, stands or seconds."""


@ft.component
def ChecksScreen(shell: Shell) -> ft.Control:
    """`/checks`, or `/checks/CHECK` to do one."""
    c, person = shell.card(), current_person(shell.store)
    if person is None:
        return c.page([], nav=client_nav(shell, "plan"))
    if shell.route_id() in set(FunctionalCheck):
        return CheckPage(shell, person, FunctionalCheck(shell.route_id()))
    with shell.store.read() as db:
        everything = records.all_records(db, person.id)
    nav = client_nav(shell, "plan")
    body: list[ft.Control] = [c.title(words.TITLE), c.body(words.WHY), c.note(words.HONEST)]
    today = shell.clock.local(shell.clock.now()).day
    for check in rules.shown(person.body, everything, today):
        body.append(_check(c, shell, person, everything, check, c.room(nav)))
    body += _sex(c, shell, person)
    page = c.page(body, [c.button(today_words.BACK, goes(shell, "/plan"))], nav)
    page.key = "checks"
    return page


def _check(
    c: Card, shell: Shell, person: Person, everything: Sequence[Record], check: FunctionalCheck, width: float
) -> ft.Control:
    today = shell.clock.local(shell.clock.now()).day
    pieces: list[ft.Control] = [c.head(words.NAMES[check]), c.body(words.ABOUT[check])]
    why = rules.withheld(check, person, everything, today)
    if why is None:
        name = f"{words.DO_IT}: {words.NAMES[check]}"
        pieces.append(c.button(words.DO_IT, goes(shell, f"/checks/{check}"), name=name))
    else:
        _, act, route = words.WITHHELD[why]
        other = rules.replaced_by(check, person.body, everything, today)
        pieces.append(c.note(words.withheld_words(why, rules.over(check, person.body, everything, today), other)))
        pieces += [c.link(act, goes(shell, route), name=f"{act}: {words.NAMES[check]}")] if act else []
    return c.stack([*pieces, *_results(c, person, rules.checks_of(everything, check), width)], 10)


def _results(c: Card, person: Person, done: Sequence[CheckDone], width: float) -> list[ft.Control]:
    """A plain list, the newest first, and a line where there are several."""
    if not done:
        return [c.soft(words.NEVER_DONE)]
    rows: list[ft.Control] = [
        c.stack([c.strong(words.result_words(one)), c.soft(day_words(one.stamp.local))], 0)
        for one in reversed(done[-SHOWN:])
    ]
    return [c.subhead(words.RESULTS), c.rows(rows, 6), *_said(c, person, done), *_chart(c, done, width)]


def _said(c: Card, person: Person, done: Sequence[CheckDone]) -> list[ft.Control]:
    before = rules.previous(done, done[-1])
    if before is None:
        return []
    found = rules.change(before, done[-1], person.body.conditions)
    return [c.body(words.change_words(found, before, done[-1]))]


def _chart(c: Card, done: Sequence[CheckDone], width: float) -> list[ft.Control]:
    check = done[-1].check
    sides = sorted({one.side for one in done})
    series = [Series(words.chart_name(check, side), _values(done, side), line)
              for side, line in zip(sides, (LineStroke.PLAIN, LineStroke.WORK, LineStroke.DASHED), strict=False)]
    series = [one for one in series if len(one.values) > 1]
    if not series:
        return []
    highest = max(v for one in series for v in one.values if v is not None)
    top = (int(highest) // STEP + 1) * STEP
    said = words.CHART_SAID_WALK if check in rules.WALKS else words.CHART_SAID
    return [line_chart(c, series, width, since=words.OLDEST, until=words.NEWEST, top=top), c.caption(said)]


def _values(done: Sequence[CheckDone], side: str) -> tuple[float | None, ...]:
    results = [(one, rules.counted(one)) for one in done if one.side == side]
    return tuple(None if r is None else r if one.check in rules.CHAIR_STANDS else r / 1000 for one,
                 r in results)


def _sex(c: Card, shell: Shell, person: Person) -> list[ft.Control]:
    def choose(sex: str) -> None:
        tell_sex(shell.store, person, sex)
        shell.refresh()

    among = [AnswerOption(sex, name) for sex, name in words.SEXES]
    return [c.head(words.SEX_HEAD), c.soft(words.SEX_WHY), c.one_of_list(among, person.sex, safe(shell, choose))]
