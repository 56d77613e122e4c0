"""For who leads somebody: what to say, where to stand, what to hold, what to watch for; hands stay free."""
from __future__ import annotations

import flet as ft

from app.device.abilities import Device
from app.domain.compile.helper_guidance import holds_for, stand_for
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Step
from app.ui.parts import Card
from app.ui.parts import theme as t
from app.words.client import lead as says


def lead_lines(c: Card, device: Device, exercise: Exercise, step: Step) -> list[ft.Control]:
    """While an exercise is done or made ready for."""
    cues = exercise.cues
    spoken = [*cues.action, cues.breath] if step.is_effort else [*cues.set_up, *cues.action[:1]]
    hands = [says.HOLDS[hold] for hold in holds_for(exercise)]
    return [
        _part(c, says.YOU_SAY, [f"“{line}”" for line in spoken if line], t.T_LEAD),
        _part(c, says.YOU_STAND, [says.STANDS[stand_for(exercise)]]),
        _part(c, says.YOU_HOLD, hands),
        _part(c, says.WATCH_FOR, [*cues.safety, says.WATCH_ALWAYS], weight=t.SEMI),
        c.caption(says.OUT_LOUD if device.speech.on else says.OUT_LOUD_OFF),
    ]


def change_lines(c: Card, step: Step) -> list[ft.Control]:
    """While they get down or up."""
    told = says.STAGES[step.stage] if step.stage else says.UP if step.to_floor is False else says.DOWN
    return [*(_part(c, head, [line]) for head, line in told.items()),
            _part(c, says.WATCH_FOR, [says.WATCH_ALWAYS], weight=t.SEMI)]


def _part(c: Card, head: str, lines: list[str], size: float = t.T_BODY, weight: ft.FontWeight = t.REGULAR
          ) -> ft.Control:
    words = [c.text(line, size, weight, height=1.2) for line in lines]
    return c.aside(c.stack([c.subhead(head, t.T_BODY), *words], 2))
