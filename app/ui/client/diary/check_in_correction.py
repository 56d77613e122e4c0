"""A check-in being corrected: the same questions, with what was answered."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import flet as ft

from app.actions.training.check_in import save_check_in
from app.actions.training.diary import correct
from app.actions.training.today import today
from app.domain.model.body import Spot
from app.domain.model.record import CheckIn
from app.ui.client.diary.afterwards_parts import asked_pain
from app.ui.client.nav import client_nav
from app.ui.parts import Card
from app.ui.shell.shell import Shell, safe
from app.words.client import diary as says


@ft.component
def AnswersPage(shell: Shell, told: CheckIn, done: Callable[[], None]) -> ft.Control:
    """Today's answers decide today's amount anew; older ones are only corrected."""
    draft, change = ft.use_state(told)
    joints, ask_joints = ft.use_state(_any(told.pain))
    muscles, ask_muscles = ft.use_state(_any(told.soreness))
    c = shell.card()
    open_now = today(shell.store, shell.clock, told.stamp.person).check_in
    is_open = open_now is not None and open_now.stamp.id == told.stamp.id

    def put(**values: Any) -> None:
        change(lambda before: replace(before, **values))

    def said(which: str, ask: Callable[[Any], None]) -> Callable[[bool], None]:
        def answered(yes: bool) -> None:
            ask(yes)
            if not yes:
                put(**{which: {}})
        return answered

    def save(_: object) -> None:
        if is_open:
            save_check_in(shell.store, shell.clock, draft)
        else:
            correct(shell.store, draft)
        done()

    body: list[ft.Control] = [
        c.title(says.CHANGE), c.head(says.JOINTS),
        *asked_pain(c, joints, dict(draft.pain or {}), said("pain", ask_joints), lambda v: put(pain=v)),
        c.head(says.MUSCLES),
        *asked_pain(c, muscles, dict(draft.soreness or {}), said("soreness", ask_muscles), lambda v: put(soreness=v),
                    says.MUSCLES_ANSWERS),
        *_feel(c, draft, put),
        c.field(says.NOTE, draft.note, lambda e: put(note=e.control.value or ""), lines=2),
        *([] if is_open else [c.note(says.ONLY_TODAYS)]),
    ]
    foot = [c.main_button(says.SAVE, safe(shell, save)), c.button(says.ENTRY_LEAVE, safe(shell, lambda _: done()))]
    return c.page(body, foot, client_nav(shell, "diary"))


def _any(levels: Mapping[Spot, int] | None) -> bool | None:
    return None if levels is None else any(levels.values())


def _feel(c: Card, draft: CheckIn, put: Callable[..., None]) -> list[ft.Control]:
    asked = ((says.SLEPT, "slept"), (says.ENERGY, "energy"), (says.SETTLED, "calm"))
    return [c.scale_1_5(name, *says.ENDS_5[name], getattr(draft, field), _keep(put, field)) for name, field in asked]


def _keep(put: Callable[..., None], field: str) -> Callable[[int], None]:
    return lambda value: put(**{field: value})
