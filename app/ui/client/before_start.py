"""What somebody looks at before a session starts: what may do harm, the room, what comes, and whether it is heard."""
from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date

import flet as ft

from app.domain.model.exercise import Exercise
from app.domain.model.person import Person
from app.domain.model.plan import Step, Timeline
from app.ui.client.folded import Folded
from app.ui.parts import Card
from app.ui.shell.shell import Shell
from app.words.client import day_card as words
from app.words.client import safety


def look_around(c: Card, person: Person, kit: Collection[str], plan: Timeline | None, today: date | None = None
                ) -> list[ft.Control]:
    """Cautions first, then the room. Read, and never ticked off."""
    holds_on = any(("what", "hand") in reason.data for reason in (plan.dose.reasons if plan else ()))
    cautions = safety.safety_lines(person.body, led=bool(person.led_by), asked=person.asked, holds_on=holds_on,
                                   today=today)
    room = safety.look_lines(person.body, kit, person.asked, holds_on=holds_on)
    lines: list[ft.Control] = [*(c.strong(line) for line in cautions), *(c.body(line) for line in room)]
    return [c.head(safety.SAFETY_HEAD, icon=ft.Icons.FRONT_HAND_SHARP), c.rows(lines, 6)]


def what_comes(shell: Shell, person: Person, pack: str, steps: Sequence[Step], library: Mapping[str, Exercise]
               ) -> ft.Control:
    """Every exercise, folded."""
    number = len({step.exercise for step in steps if step.is_effort})

    def draw() -> list[ft.Control]:
        # figures are loaded when somebody looks, and not for the first screen
        from app.ui.client.session_list import exercise_list

        return exercise_list(shell.card(), shell, pack, steps, library, person.pounds)

    return Folded(shell, words.WHAT_COMES, words.moves_line(number), draw)
